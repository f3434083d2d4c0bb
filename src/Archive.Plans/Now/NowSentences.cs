using System.Collections.Immutable;
using System.Globalization;
using Archive.Plans.Decabling;
using Archive.Plans.Progress;
using Archive.Records.Wording;
using Archive.Wiring.Journeys;
using Archive.Wiring.Progress;

namespace Archive.Plans.Now;

/// <summary>What is said of how things stand.</summary>
public static class NowSentences
{
    /// <summary>The phase of the work, its progress, and what is missing, in sentences.</summary>
    public static ImmutableArray<string> Describe(NowPlan plan, PlanContext context) =>
    [
        Phase(plan, context),
        .. StateText.AsOf(context.Progress) is { } asOf ? [asOf] : Array.Empty<string>(),
        .. plan.Standings.Select(Describe),
        .. Missing(context),
    ];

    /// <summary>The pace so far, and when the rest will be finished, in sentences; none where nothing is measured or left.</summary>
    public static ImmutableArray<string> DescribePace(NowPlan plan, PlanContext context) =>
    [
        .. Pace(plan.TakingOutPace, plan.CablesIn, "taken out", "take out", context),
        .. plan.CablesIn > 0 ? Minutes(context) : [],
        .. Pace(plan.ConnectingPace, plan.CablesOff, "connected", "connect", context),
    ];

    /// <summary>How far a hall or display has come, in a sentence.</summary>
    public static string Describe(CompletionStatus standing) =>
        $"{Phrase.OneLine(standing.Of.Title)}: {Phrase.Count(standing.InPlace)} of {Phrase.Count(standing.Frames, "frame")} in place, {Phrase.Count(standing.Connected)} of {Phrase.Count(standing.Cables, "cable")} connected{(standing.TooShort > 0 ? $", {Phrase.Count(standing.TooShort)} too short" : "")}.";

    /// <summary>What a crew works at.</summary>
    public static string Describe(CrewKind crew) => crew switch
    {
        CrewKind.TakingOut => "Taking out",
        CrewKind.Moving => "Moving",
        _ => "Putting back",
    };

    private static string Phase(NowPlan plan, PlanContext context)
    {
        if (context.Progress.AsOf is null) return "The work has not begun: everything is as it was found.";
        var frames = context.Record.Frames
            .Where(frame => frame is { IsWithdrawn: false, Owner: null })
            .Select(frame => context.Progress.JourneyOf(frame.Id)?.Situation)
            .ToList();
        (int Count, string Where)[] places =
        [
            (frames.Count(situation => situation is Situation.AsFound or Situation.Disconnected), "where they were found"),
            (
                frames.Count(situation =>
                    situation is Situation.Removed or Situation.Packed or Situation.Arrived or Situation.Unpacked),
                "waiting to be moved or set up"
            ),
            (frames.Count(situation => situation is Situation.OnTheRoad), "in transit"),
            (frames.Count(situation => situation?.IsInPlace() == true), "in their new places"),
            (frames.Count(situation => situation is Situation.Missing), "missing"),
        ];
        var phase = plan.CablesIn > 0 && plan.AnyConnected
            ? "Taking out and putting back go on side by side"
            : plan.CablesIn > 0
            ? "Taking out"
            : plan.AnyConnected || places[3].Count > 0
            ? "Putting back"
            : "Moving";
        return $"{phase}: of {Phrase.Count(frames.Count, "frame")}, {Phrase.Listed([.. places.Where(place => place.Count > 0).Select(place => $"{Phrase.Count(place.Count)} {(place.Count == 1 ? "is" : "are")} {place.Where}")])}.";
    }

    private static IEnumerable<string> Pace(DailyPace? pace, int left, string done, string doing, PlanContext context)
    {
        if (pace is null || left == 0) yield break;
        var (least, middle, most) = pace.DaysFor(left);
        var people = pace.People > 0 ? $", with {Number(pace.People)} people on average" : "";
        yield return $"So far {Phrase.Count(pace.Cables, "cable")} {(pace.Cables == 1 ? "was" : "were")} {done} on {Phrase.Count(pace.Days, "day")}{people}: half of the days saw {Range((int)Math.Round(pace.Low), (int)Math.Round(pace.High))}. At that pace it takes about {Phrase.Count(middle, "more day")} of work to {doing} the {Phrase.Count(left)} that are left{(most > least ? $" ({Range(least, most)})" : "")}{Finished(pace, middle, context)}.";
        int[] crews = [2, 4, 8];
        if (pace.People <= 0 || pace.DaysWith(crews[0], middle) == pace.DaysWith(crews[^1], middle)) yield break;
        yield return $"To {doing} the rest: {string.Join(", ", crews.Select(crew => $"{Phrase.Count(pace.DaysWith(crew, middle), "day")} with {Phrase.Count(crew)} people"))}, if all of them work at frames apart.";
    }

    // Days of work have come as often as the record says: no clock, only its dates.
    private static string Finished(DailyPace pace, int days, PlanContext context) =>
        context.Progress.AsOf?.On?.Value.Latest is { } from && pace.Finished(days, from) is { } on
        ? $", until about {DateText.MonthOf(on)} if days of work come as often as between {DateText.MonthOf(pace.First)} and {DateText.MonthOf(pace.Last)}"
        : "";

    private static IEnumerable<string> Minutes(PlanContext context)
    {
        var left = context.TakingOut.Steps.Where(step => step.State.Status != StepStatus.Done).ToList();
        var frames = left.SelectMany(step => step.Reading?.Ends ?? []).Select(end => end.At.Frame).ToHashSet(StringComparer.Ordinal);
        yield return $"{DecablingSentences.Times(context.TakingOut.Pace)}. What is left takes {DecablingSentences.Lasts(left.Sum(step => step.Minutes))}.";
        foreach (var sentence in DecablingSentences.Parts(context.TakingOut.Pace, frames)) yield return sentence;
    }

    private static IEnumerable<string> Missing(PlanContext context)
    {
        var missing = context.Progress.Journeys.All
            .Where(journey => journey.Situation == Situation.Missing)
            .Select(journey => journey.Of.Id)
            .ToList();
        var lost = context.Progress.Journeys.All.Where(journey => journey.NeverArrived).Select(journey => journey.Of.Id).ToList();
        if (missing.Count > 0) yield return $"Searched for and not found: {Named(missing)}.";
        if (lost.Count > 0) yield return $"Loaded, and not seen since: {Named(lost)}.";

        static string Named(List<string> ids) =>
            ids.Count <= 8 ? Phrase.Listed(ids) : $"{string.Join(", ", ids.Take(8))} and {Phrase.Count(ids.Count - 8)} more";
    }

    private static string Range(int low, int high) => low == high ? Phrase.Count(low) : $"{Phrase.Count(low)} to {Phrase.Count(high)}";

    private static string Number(double number) => number.ToString("0.#", CultureInfo.InvariantCulture);
}

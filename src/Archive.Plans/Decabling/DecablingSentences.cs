using System.Collections.Immutable;
using Archive.Plans.Progress;
using Archive.Records.Wording;
using Archive.Wiring.Decabling;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Plans.Decabling;

/// <summary>What the decabling order says in words.</summary>
public static class DecablingSentences
{
    private const double MinutesInHour = 60;

    /// <summary>The result of the order, in sentences.</summary>
    /// <param name="basis">What it was calculated from.</param>
    /// <param name="display">Id of the display that it was asked of; null for all.</param>
    public static ImmutableArray<string> Describe(DecablingOrder order, PlanContext basis, string? display)
    {
        var cables = order.Steps.Where(step => step.Pulls).ToList();
        var (tags, unknown, knots) = (
            order.Steps.Count(step => step.IsTaggedFirst && step.State.Status != StepStatus.Done),
            cables.Count(step => !step.IsLengthKnown),
            order.Cycles.Count());
        return
        [
            $"{Phrase.Count(cables.Count, "cable")} to take out, in {Phrase.Count(order.Steps.Length, "step")}: {Whole(order.Minutes)} of work{(order.Left.IsEmpty ? "" : $"; {Phrase.Count(order.Left.Length, "cable stays", "cables stay")} in place")}.",
            .. Progress(order, basis),
            .. tags > 0
                ? [$"Tag {Phrase.Count(tags, "cable")} by hand before you disconnect {(tags == 1 ? "it" : "them")}."]
                : Array.Empty<string>(),
            .. knots > 0
                ? [$"{Phrase.Count(knots, "tangle")}: cables that interlock, because each lies over another. Work each tangle as one."]
                : Array.Empty<string>(),
            .. OrderRules.Disconnecting.Select(rule => $"{rule.Title}: {rule.Sentence}."),
            "What lies over other cables is pulled before them.",
            $"{Phrase.Heading(Last(order, basis, display))}.",
            $"{Times(order.Pace)}{(unknown > 0 ? $"; {Phrase.Count(unknown, "cable has", "cables have")} no recorded length, so {(unknown == 1 ? "its" : "their")} metres are not counted" : "")}.",
            order.IsExact
                ? "No other order that keeps these rules frees the frames earlier, on average."
                : "The best order cannot be proved here: this one frees the frames early, but a better one may exist.",
        ];
    }

    // Where the pace comes from: a measured one with its spread.
    private static string Times(Pace pace) =>
        $"Times assume {Number(pace.Each)} min per cable to disconnect it and {Number(pace.PerMetre)} min per metre to pull it"
            + (pace switch
            {
                { Measured: { } measured } =>
                    $", measured by {Phrase.Count(measured.Events, "event")} so far; half of them took {Number(Math.Round(100 * measured.Low))} to {Number(Math.Round(100 * measured.High))} % of that",
                { IsDefault: true } =>
                    ", which are defaults and not measured: write how long the work `took` in events, or set your own `pace` in archive.yaml",
                _ => ", the pace set in archive.yaml",
            });

    // Days of work calculated to the minute would promise what no pace can hold.
    private static string Whole(double minutes) =>
        minutes < 10 * MinutesInHour ? Lasts(minutes) : $"about {Number(Math.Round(minutes / MinutesInHour))} h";

    /// <summary>How long something takes: to the minute.</summary>
    public static string Lasts(double minutes)
    {
        var whole = (long)Math.Round(minutes);
        return whole < MinutesInHour
            ? $"{Number(whole)} min"
            : $"{Number(whole / 60)} h{(whole % 60 == 0 ? "" : $" {Number(whole % 60)} min")}";
    }

    /// <summary>What a stage of the work is called.</summary>
    /// <param name="hasSet">Whether frames are kept for last.</param>
    public static string Describe(DecablingStage stage, bool hasSet) => stage switch
    {
        DecablingStage.Batteries => "Batteries: licensed people only",
        DecablingStage.OutsideLines => "Outside lines: disconnect",
        DecablingStage.Feeders => "Feeders: disconnect",
        DecablingStage.Outside =>
            hasSet ? "Cables of the frames outside the working set: disconnect and pull" : "All other cables: disconnect and pull",
        _ => hasSet ? "Cables within the working set: disconnect and pull" : "Cables with both ends unknown, and what stays",
    };

    // Times and totals are of all steps, done or not: what is left is said beside them.
    private static ImmutableArray<string> Progress(DecablingOrder order, PlanContext basis)
    {
        if (StateText.AsOf(basis.Progress) is not { } asOf) return [];
        var left = order.Steps.Where(step => step.State.Status != StepStatus.Done).ToList();
        var (cables, stillIn) = (order.Steps.Count(step => step.Pulls), left.Count(step => step.Pulls));
        return [$"{Phrase.Count(cables - stillIn)} of {Phrase.Count(cables, "cable")} {(cables - stillIn == 1 ? "is" : "are")} out; {Phrase.Count(left.Count, "step is", "steps are")} left: {Whole(left.Sum(step => step.Minutes))} of work. {asOf}"];
    }

    private static string Last(DecablingOrder order, PlanContext basis, string? display)
    {
        if (order.Wanted.Count == 0) return basis.Sets.All.IsEmpty
            ? "no display is recorded, so no frames are left until last"
            : "no display has a working set, so no frames are left until last";
        var of = display is not null
            ? $"display {display} needs"
            : basis.Sets.All.Length == 1
            ? $"display {basis.Sets.All[0].Display.Id} needs"
            : "the displays need";
        return $"the {Phrase.Count(order.Wanted.Count, "frame")} that {of} {(order.Wanted.Count == 1 ? "comes" : "come")} last";
    }

    private static string Number(double number) => number.ToString("0.##", System.Globalization.CultureInfo.InvariantCulture);
}

using System.Collections.Immutable;
using Archive.Plans.Progress;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Wiring.Decabling;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Plans.Decabling;

/// <summary>What the decabling order says in words.</summary>
public static class DecablingSentences
{
    private const double MinutesInHour = 60;

    // More frames in a sentence are read by nobody.
    private const int MostFrames = 6;

    /// <summary>The result of the order, in sentences.</summary>
    /// <param name="context">What it was calculated from.</param>
    /// <param name="display">Id of the display that it was asked of; null for all.</param>
    public static ImmutableArray<string> Describe(DecablingOrder order, PlanContext context, string? display)
    {
        if (order.OnlyFor is { } frame) return DescribeFrame(order, context, frame);
        var cables = order.Steps.Where(step => step.Pulls).ToList();
        return
        [
            $"{Phrase.Count(cables.Count, "cable")} to take out, in {Phrase.Count(order.Steps.Length, "step")}: {Whole(order.Minutes)} of work{(order.Left.IsEmpty ? "" : $"; {Phrase.Count(order.Left.Length, "cable stays", "cables stay")} in place")}.",
            .. Progress(order, context),
            .. TagsAndTangles(order),
            .. Rules,
            .. UnitsOut(order),
            $"{Phrase.Heading(Last(order, context, display))}.",
            .. Takes(order),
            order.IsExact
                ? "No other order that keeps these rules frees the frames earlier, on average."
                : "The best order cannot be proved here: this one frees the frames early, but a better one may exist.",
        ];
    }

    /// <summary>What one frame needs, in sentences: the first says it in one line.</summary>
    private static ImmutableArray<string> DescribeFrame(DecablingOrder order, PlanContext context, string frame)
    {
        if (context.Record.Find<Frame>(frame)?.Owner is { } owner)
            return [$"{frame} belongs to {Phrase.OneLine(owner.Value)} and stays: do not touch it."];
        var staying = context.TakingOut.ReleaseOf(frame)?.Staying ?? [];
        var others = staying.Where(id => context.Record.Find<Cable>(id)?.Owner is not null).ToList();
        var here = order.Steps.Count(step => step.Reading?.Ends.Any(end => end.At.Frame == frame) == true || step.Frame?.Id == frame);
        var hidden = context.Readings.Cables.Count(reading => reading is { Ends.Length: < 2, Cable.Owner: null }
            && !reading.Ends.Any(end => end.At.Frame == frame) && context.Progress.TakenOutBy(reading.Cable.Id) is null);
        return
        [
            order.Steps.All(step => step.Cable is null)
                ? $"No recorded cable holds {frame}."
                : $"{frame} is free to go after {Phrase.Count(order.Steps.Length, "step")}: {Whole(order.Minutes)} of work. {(here == order.Steps.Length ? "All of them are at this frame" : $"{Phrase.Heading(Phrase.Count(here))} of them {(here == 1 ? "is" : "are")} at this frame; the rest must come before them")}.",
            .. context.Progress.LeftBy(frame) is { } left
                ? [$"The record says that {frame} has left already ({left.Id})."]
                : Array.Empty<string>(),
            .. Progress(order, context),
            .. TagsAndTangles(order),
            .. others.Count > 0
                ? [$"{Phrase.Listed(others)} at this frame {(others.Count == 1 ? "belongs" : "belong")} to others: the frame stays until {(others.Count == 1 ? "its owner has" : "their owners have")} disconnected {(others.Count == 1 ? "it" : "them")}."]
                : Array.Empty<string>(),
            .. hidden > 0
                ? [$"{Phrase.Count(hidden, "cable has", "cables have")} an end that nobody has recorded, and it may be here: before you unbolt the frame, look for cables that this list does not name."]
                : Array.Empty<string>(),
            .. Rules,
            .. UnitsOut(order),
            "The steps are those of the crew sheet that this frame needs, in the same order; their numbers are this list's own.",
            .. Takes(order),
            .. order.Pace.Measured?.ShareOf(frame) is { } share ? [$"At {frame}, work took {Share(share)}."] : Array.Empty<string>(),
        ];
    }

    private static IEnumerable<string> TagsAndTangles(DecablingOrder order)
    {
        var (tags, knots) = (
            order.Steps.Count(step => step.IsTaggedFirst && step.State.Status != StepStatus.Done), order.Cycles.Count());
        if (tags > 0) yield return $"Tag {Phrase.Count(tags, "cable")} by hand before you disconnect {(tags == 1 ? "it" : "them")}.";
        if (knots > 0)
            yield return $"{Phrase.Count(knots, "tangle")}: cables that interlock, because each lies over another. Work each tangle as one.";
    }

    private static IEnumerable<string> Rules =>
    [
        .. OrderRules.Disconnecting.Select(rule => $"{rule.Title}: {rule.Sentence}."),
        "What lies over other cables is pulled before them.",
    ];

    private static IEnumerable<string> UnitsOut(DecablingOrder order)
    {
        var (units, frames) = (
            order.Steps.Sum(step => step.Units.Length), order.Steps.Count(step => step.Action == StepAction.TakeOutUnits));
        if (units > 0)
            yield return $"{Phrase.Count(units, "unit")} must come out before {Phrase.Count(frames, "frame is", "frames are")} tipped or lifted: once the frame is isolated and proved dead, and before its earth comes off. Times do not count this.";
    }

    /// <summary>A unit and the slot that it comes out of.</summary>
    public static string NameOf(Unit unit) => unit.At is { } at ? $"{unit.Id} ({at.Value})" : unit.Id;

    private static IEnumerable<string> Takes(DecablingOrder order)
    {
        var unknown = order.Steps.Count(step => !step.IsLengthKnown);
        yield return $"{Times(order.Pace)}{(unknown > 0 ? $"; {Phrase.Count(unknown, "cable has", "cables have")} no recorded length, so {(unknown == 1 ? "its" : "their")} metres are not counted" : "")}.";
        foreach (var sentence in Parts(order.Pace)) yield return sentence;
    }

    /// <summary>How families of cables and frames differ from the measured pace, in sentences; none where nothing is measured.</summary>
    /// <param name="frames">Ids of the frames to speak of; null for those that differ most.</param>
    public static IEnumerable<string> Parts(Pace pace, IReadOnlyCollection<string>? frames = null)
    {
        if (pace.Measured is not { } measured) yield break;
        if (!measured.Families.IsEmpty)
        {
            yield return $"By family: {string.Join("; ", measured.Families.Select(each => Family(pace, each.Family, each.Pace)))}.";
        }

        var shown = measured.Frames.Where(each => frames?.Contains(each.Frame) != false)
            .OrderByDescending(each => Math.Abs(Math.Log(Math.Max(each.Pace.Share, 0.01))))
            .ThenBy(each => each.Frame, StringComparer.Ordinal)
            .Take(MostFrames)
            .ToList();
        if (shown.Count > 0)
            yield return $"By frame: {string.Join("; ", shown.Select(each => $"at {each.Frame} {Share(each.Pace)}"))}.";
    }

    private static string Family(Pace pace, CableFamily family, PaceShare share)
    {
        var (each, perMetre) = (Number(Math.Round(pace.Each * share.Share, 1)), Number(Math.Round(pace.PerMetre * share.Share, 2)));
        return $"{Phrase.For(family)} {each} min and {perMetre} min per metre ({Spread(share)})";
    }

    private static string Share(PaceShare share) => $"{Percent(share.Share)} % of that pace ({Spread(share)})";

    private static string Spread(PaceShare share) => Percent(share.Low) == Percent(share.High)
        ? $"{Phrase.Count(share.Events, "event")}, half of them about {Percent(share.Low)} %"
        : $"{Phrase.Count(share.Events, "event")}, half of them {Percent(share.Low)} to {Percent(share.High)} %";

    private static string Percent(double share) => Number(Math.Round(100 * share));

    /// <summary>What times rest on: a measured pace with its spread, or where it comes from. No full stop.</summary>
    public static string Times(Pace pace) =>
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
    private static ImmutableArray<string> Progress(DecablingOrder order, PlanContext context)
    {
        if (StateText.AsOf(context.Progress) is not { } asOf) return [];
        var left = order.Steps.Where(step => step.State.Status != StepStatus.Done).ToList();
        var (cables, stillIn) = (order.Steps.Count(step => step.Pulls), left.Count(step => step.Pulls));
        return [$"{Phrase.Count(cables - stillIn)} of {Phrase.Count(cables, "cable")} {(cables - stillIn == 1 ? "is" : "are")} out; {Phrase.Count(left.Count, "step is", "steps are")} left: {Whole(left.Sum(step => step.Minutes))} of work. {asOf}"];
    }

    private static string Last(DecablingOrder order, PlanContext context, string? display)
    {
        if (order.Wanted.Count == 0) return context.Sets.All.IsEmpty
            ? "no display is recorded, so no frames are left until last"
            : "no display has a working set, so no frames are left until last";
        var of = display is not null
            ? $"display {display} needs"
            : context.Sets.All.Length == 1
            ? $"display {context.Sets.All[0].Display.Id} needs"
            : "the displays need";
        return $"the {Phrase.Count(order.Wanted.Count, "frame")} that {of} {(order.Wanted.Count == 1 ? "comes" : "come")} last";
    }

    private static string Number(double number) => number.ToString("0.##", System.Globalization.CultureInfo.InvariantCulture);
}

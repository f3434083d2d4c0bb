using System.Collections.Immutable;
using Archive.Wiring;

namespace Archive.Site;

/// <summary>What the decabling order says in words.</summary>
internal static class DecablingSentences
{
    private const double MinutesInHour = 60;

    /// <summary>What comes of the order, in sentences.</summary>
    /// <param name="order">The order.</param>
    /// <param name="basis">What it was worked out from.</param>
    /// <param name="display">Id of the display that it was asked of; null for all.</param>
    public static ImmutableArray<string> Of(DecablingOrder order, PlanBasis basis, string? display)
    {
        var broken = order.Steps.Count(step => !step.Breaks.IsEmpty);
        var (tags, unknown, knots) = (order.Steps.Count(step => step.IsTaggedFirst), order.Steps.Count(step => !step.IsLengthKnown), order.Knots.Count());
        return
        [
            $"{Words.Count(order.Steps.Length, "cable comes", "cables come")} out in {Whole(order.Minutes)} of work, one after the other{(order.Left.IsEmpty ? "" : $"; {Words.Count(order.Left.Length, "stays", "stay")} where {(order.Left.Length == 1 ? "it lies" : "they lie")}")}.",
            .. tags > 0 ? [$"{Words.Count(tags)} {(tags == 1 ? "is" : "are")} to be tagged by hand before {(tags == 1 ? "it is" : "they are")} pulled."] : Array.Empty<string>(),
            .. knots > 0 ? [$"{Words.Count(knots, "knot is", "knots are")} worked as one: cables that lie over each other in a circle."] : Array.Empty<string>(),
            .. OrderRules.Disconnecting.Select(rule => $"{rule.Title}: {rule.Sentence}."),
            .. broken > 0 ? [$"What lies over what makes {Words.Count(broken, "step")} break one of these rules; {(broken == 1 ? "it says" : "each says")} so."] : Array.Empty<string>(),
            $"{Words.Heading(Last(order, basis, display))}.",
            $"Reckoned at {Number(order.Pace.Each)} min a cable and {Number(order.Pace.PerMetre)} min a metre{(order.Pace.IsDefault ? ", a default and not a fact: write your own `pace` into archive.yaml" : ", the archive's pace")}{(unknown > 0 ? $"; of {Words.Count(unknown, "cable")} the length is not known, so {(unknown == 1 ? "its" : "their")} metres are not counted" : "")}.",
            order.IsExact ? "No order that keeps these rules frees the frames earlier, taken together." : "That it frees the frames as early as can be is not proven: for so many, the order is a good one that was found.",
        ];
    }

    // Days of work reckoned to the minute would promise what no pace can hold.
    private static string Whole(double minutes) => minutes < 10 * MinutesInHour ? Lasts(minutes) : $"about {Number(Math.Round(minutes / MinutesInHour))} h";

    /// <summary>How long something takes: to the minute.</summary>
    /// <param name="minutes">Minutes.</param>
    public static string Lasts(double minutes)
    {
        var whole = (long)Math.Round(minutes);
        return whole < MinutesInHour ? $"{Number(whole)} min" : $"{Number(whole / 60)} h{(whole % 60 == 0 ? "" : $" {Number(whole % 60)} min")}";
    }

    /// <summary>What a stage of the work is called.</summary>
    /// <param name="stage">The stage.</param>
    /// <param name="hasSet">Whether frames are kept for last.</param>
    public static string Of(DecablingStage stage, bool hasSet) => stage switch
    {
        DecablingStage.Feeders => "Feeders first",
        DecablingStage.CoveredFeeders => "Feeders that lie beneath others, and what lies over them",
        DecablingStage.Outside => hasSet ? "Cables of the frames outside the working set" : "All other cables",
        _ => hasSet ? "Cables within the working set" : "Cables with no known end",
    };

    private static string Last(DecablingOrder order, PlanBasis basis, string? display)
    {
        if (order.Wanted.Count == 0) return basis.Sets.All.IsEmpty ? "no display is recorded, so no frames are kept for last" : "no display has a working set, so no frames are kept for last";
        var of = display is not null ? $"display {display} needs" : basis.Sets.All.Length == 1 ? $"display {basis.Sets.All[0].Display.Id} needs" : "the displays need";
        return $"the {Words.Count(order.Wanted.Count, "frame")} that {of} {(order.Wanted.Count == 1 ? "is" : "are")} kept for last";
    }

    private static string Number(double number) => number.ToString("0.##", System.Globalization.CultureInfo.InvariantCulture);
}

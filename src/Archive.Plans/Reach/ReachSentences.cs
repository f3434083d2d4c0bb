using System.Collections.Immutable;
using Archive.Halls.Reach;
using Archive.Records.Terms;
using Archive.Records.Wording;
using UnitsNet;

namespace Archive.Plans.Reach;

/// <summary>What the plan of reach says in words.</summary>
public static class ReachSentences
{
    // More in one breath is heard by nobody.
    private const int MostRead = 20;

    // What is unknown comes last, before what would settle it.
    private static readonly ImmutableArray<ReachVerdict> Told =
        [ReachVerdict.Reaches, ReachVerdict.TooShort, ReachVerdict.NoWay, ReachVerdict.Unknown];

    private static readonly Length TapeError = Length.FromMillimeters(50);

    /// <summary>What comes of a hall, in a sentence or three.</summary>
    public static string Sentence(HallReach reach, PlanContext context)
    {
        var text = new UnitFormatter(context.Record.Statement.Units?.Value ?? DisplayUnits.Metric);
        var here = reach.Cables.Count(cable => cable.IsHere);
        var counts = string.Join(", ", Told.Select(verdict => (verdict, Count: reach.Count(verdict)))
            .Where(each => each.Count > 0)
            .Select(each => $"{Phrase.Count(each.Count)} {Verb(each.verdict, each.Count)}{By(each.verdict, each.Count)}"));
        return $"{reach.Layout.Hall.Title}: of {Phrase.Count(here, "cable")} between frames in this hall, {(here == 0 ? "none is known" : counts)}.{Measuring(reach)}{Away(reach)}{Unmeasured(reach)}";

        string By(ReachVerdict verdict, int count) => verdict != ReachVerdict.TooShort
            ? ""
            : $" by {Together(reach.Shortage, text)}{(count == 1 ? "" : " in total")}";
    }

    /// <summary>A verdict as a heading says it.</summary>
    public static string Heading(ReachVerdict verdict) => verdict switch
    {
        ReachVerdict.NoWay => "No route",
        ReachVerdict.TooShort => "Too short",
        ReachVerdict.Unknown => "Unknown",
        _ => "Reaches",
    };

    /// <summary>What is left over of a cable or missing; where that is not known, why.</summary>
    public static string Margin(CableReach cable, UnitFormatter text) => cable switch
    {
        { Margin: { } margin } when margin < Length.Zero => $"short by {text.FormatComputed(-margin)}",
        { Margin: { } margin } => $"{text.FormatComputed(margin)} to spare",
        { Verdict: ReachVerdict.Reaches, AtLeast: { } least } => $"at least {text.FormatComputed(least)} to spare",
        { Verdict: ReachVerdict.Unknown, Needed: { } needed } => $"measure it: {text.FormatComputed(needed)} or more is enough",
        _ => cable.Why,
    };

    /// <summary>Whether a cable reaches, in a sentence.</summary>
    public static string Verdict(CableReach cable, UnitFormatter text) => cable.Verdict switch
    {
        ReachVerdict.TooShort => Phrase.Sentence(Margin(cable, text)),
        var verdict => $"{Heading(verdict)}: {Margin(cable, text)}.",
    };

    /// <summary>What moving a frame to a side changes, and what is in that place, in a few words; empty where no move helps.</summary>
    public static string Shift(FrameReach frame, FrameShift? shift, UnitFormatter text)
    {
        if (shift is null) return "";
        var left = shift.DoNotReach == 0 ? "all reach"
            : $"{Phrase.Count(shift.DoNotReach, "does not reach", "do not reach")}, short by {text.FormatComputed(shift.Shortage)}";
        var there = shift.InTheWay.Select(other => other.Id).Append(shift.HitsHall ? "a wall or obstacle" : "")
            .Where(name => name.Length > 0)
            .ToList();
        var but = there.Count == 0 ? "" : $"; but {Phrase.Listed([.. there])} {(there.Count == 1 ? "is" : "are")} there";
        return $"{text.Format(FrameShift.Step)} {Phrase.For(shift.To)}: {left}{but}";
    }

    /// <summary>The worst of cables that do not reach, for those who have a drawing read out.</summary>
    public static string Worst(IReadOnlyCollection<CableReach> cables, UnitFormatter text) => cables.Count == 0
        ? ""
        : string.Join("; ", cables.Take(MostRead).Select(cable => cable.Verdict == ReachVerdict.TooShort
            ? $"{cable.Cable.Id} is {Margin(cable, text)}"
            : $"{cable.Cable.Id} has no route"))
            + (cables.Count > MostRead ? $"; {Phrase.Count(cables.Count - MostRead)} more in the table" : "") + ".";

    /// <summary>What is to be doubted: lengths that are less than the route as found. Nothing where there are none.</summary>
    public static ImmutableArray<string> Doubts(ImmutableArray<AsFoundPath> paths)
    {
        // Fifty millimetres are within what a tape laid over rungs is off by (common practice, no source).
        var wrong = paths.Where(path => path.Slack is { } slack && slack < -TapeError).Select(path => path.Cable.Id).ToList();
        if (wrong.Count == 0) return [];
        var named = string.Join(", ", wrong.Take(MostRead))
            + (wrong.Count > MostRead ? $" and {Phrase.Count(wrong.Count - MostRead)} more" : "");
        return [$"Recorded as shorter than {(wrong.Count == 1 ? "its" : "their")} own route as found, so the length or the route must be wrong: {named}."];
    }

    // A sum of many shortages is no better than a metre.
    private static string Together(Length shortage, UnitFormatter text) =>
        shortage.Meters < 10
            ? text.FormatComputed(shortage)
            : text.Format(Length.FromMeters(Math.Round(shortage.Meters, MidpointRounding.AwayFromZero)));

    private static string Verb(ReachVerdict verdict, int count) => verdict switch
    {
        ReachVerdict.NoWay => count == 1 ? "has no route" : "have no route",
        ReachVerdict.TooShort => count == 1 ? "is too short" : "are too short",
        ReachVerdict.Unknown => count == 1 ? "is unknown" : "are unknown",
        _ => count == 1 ? "reaches" : "reach",
    };

    private static string Measuring(HallReach reach)
    {
        var settle = reach.Cables.Count(cable => cable is { IsHere: true, Verdict: ReachVerdict.Unknown, Needed: not null });
        return settle == 0
            ? ""
            : $" {Phrase.Count(settle)} of the unknown can be settled by measuring {(settle == 1 ? "it: the minimum length is shown" : "them: the minimum lengths are shown")}.";
    }

    private static string Away(HallReach reach)
    {
        var away = reach.Cables.Count(cable => !cable.IsHere && cable.First is not null);
        return away == 0 ? "" : $" {Phrase.Count(away, "more cable ends", "more cables end")} at a frame that is not in this hall.";
    }

    private static string Unmeasured(HallReach reach) => reach.Network.Unmeasured.IsEmpty
        ? ""
        : $" Trays left out, because their height or path is missing or unusable: {string.Join(", ", reach.Network.Unmeasured.Take(12).Select(tray => tray.Id))}.";
}

using System.Collections.Immutable;
using Archive.Halls.Floor;
using Archive.Halls.Layout;
using Archive.Halls.Loads;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;
using UnitsNet;

namespace Archive.Plans.Moving;

/// <summary>What the movers' sheet says in words.</summary>
public static class MovingSentences
{
    /// <summary>The result of the list, in sentences.</summary>
    public static ImmutableArray<string> Describe(MovingList list, ArchiveModel record)
    {
        var text = new UnitFormatter(record.Statement.Units?.Value ?? DisplayUnits.Metric);
        var sides = list.Frames.ToLookup(frame => frame.Side);
        var undecided = sides[BoundarySide.Astride].Count();
        var unknown = sides[BoundarySide.Unknown].Count();
        var unweighed = list.Loads.Sum(load => load.Unweighed);
        var stuck = list.Loads.SelectMany(load => load.Frames).Where(IsStuck).Select(frame => frame.Frame.Id).ToList();
        return
        [
            $"{list.Layout.Hall.Title}: {Phrase.Count(list.Loads.Sum(load => load.Frames.Length), "frame leaves", "frames leave")}, {Phrase.Count(sides[BoundarySide.Outside].Count(), "stays", "stay")}{(undecided > 0 ? $"; the taped line crosses {Phrase.Count(undecided)}, so someone must decide" : "")}{(unknown > 0 ? $"; for {Phrase.Count(unknown)} the place is not known well enough" : "")}.",
            $"Total weight with cables: {Weight(text, list.Weight, list.IsHeavier)}{(unweighed > 0 ? $"; {Phrase.Count(unweighed, "frame has", "frames have")} no recorded weight" : "")}.",
            .. list.Loose.Count > 0
                ? [$"Of that, {Phrase.Count(list.Loose.Count, "cable")} taken out whole {(list.Loose.Count == 1 ? "weighs" : "weigh")} {Weight(text, list.Loose.Weight, list.Loose.Unweighed > 0)}{(list.Loose.Unweighed > 0 ? $"; {Phrase.Count(list.Loose.Unweighed)} of them {(list.Loose.Unweighed == 1 ? "is" : "are")} not included, because the length or mass is not recorded" : "")}."]
                : Array.Empty<string>(),
            .. list.Loads.SelectMany(load => load.Frames).Count(frame => frame.Weights is { Out: > 0 }) is > 0 and var lighter
                ? [$"Weights are of frames as they are moved: {Phrase.Count(lighter, "frame is", "frames are")} without the units that must be out before; all other units are in."]
                : Array.Empty<string>(),
            list.Layout.Hall.Openings.IsEmpty
                ? "No door is recorded, so frames are in the order of the record."
                : "Frames are in loading order: the row nearest to a door first, and in a row the frame nearest to it. The distance is straight, over whatever stands between: look before you begin.",
            $"{Phrase.Count(list.Loads.Sum(load => load.Frames.Count(frame => frame.Frame.MayLieDown is { Value: false })), "frame")} must not be laid down; for {Phrase.Count(list.Loads.Sum(load => load.Frames.Count(frame => frame.Frame.MayLieDown is null)))} the record does not say (may_lie_down), so keep them upright.",
            .. stuck.Count > 0
                ? [$"Do not fit through any recorded opening: {string.Join(", ", stuck.Take(12))}{(stuck.Count > 12 ? $" and {Phrase.Count(stuck.Count - 12)} more" : "")}."]
                : Array.Empty<string>(),
        ];
    }

    /// <summary>
    /// How a frame goes through an opening, with the opening's name. What must not be laid down, or where nobody knows, is never offered on
    /// its side.
    /// </summary>
    public static string Fits(MovingFrame frame, Passage passage) =>
        $"{passage.Opening.Name?.Value ?? "opening"}: {Way(frame.Frame.MayLieDown?.Value, passage)}";

    private static string Way(bool? mayLieDown, Passage passage) => (passage.Upright, passage.OnItsSide) switch
    {
        (Fit.Goes, Fit.Goes) => mayLieDown == true ? "upright or on its side" : "upright",
        (Fit.Goes, _) => "upright",
        (Fit.Unknown, Fit.Goes) => mayLieDown == true ? "on its side; upright unknown" : "unknown",
        (Fit.Stays, Fit.Goes) => mayLieDown switch
        {
            true => "on its side only",
            false => "no: upright it is too large, and it must not be laid down",
            null => "not upright; the record does not say whether it may be laid down",
        },
        (Fit.Stays, Fit.Stays) => "no",
        (Fit.Stays, _) when mayLieDown == false => "no",
        _ => "unknown",
    };

    /// <summary>Whether it may be laid down, for the movers.</summary>
    public static string LayingDown(MovingFrame frame) => frame.Frame.MayLieDown switch
    {
        { Value: false } => "Must not be laid down.",
        { Value: true } => frame.Headroom.CanBeLaid == Fit.Stays ? "May be laid down, but not under this ceiling." : "May be laid down.",
        _ => "Keep it upright: the record does not say whether it may be laid down.",
    };

    /// <summary>Whether a frame goes through none of the openings, all of them known.</summary>
    public static bool IsStuck(MovingFrame frame) =>
        frame.Passages.Length > 0 && frame.Passages.All(passage => passage.Upright == Fit.Stays && frame.OnItsSide(passage) == Fit.Stays);

    /// <summary>A weight, with the words that say whether it is all.</summary>
    /// <param name="isHeavier">Whether something in it is not recorded.</param>
    public static string Weight(UnitFormatter text, Mass weight, bool isHeavier) =>
        $"{(isHeavier ? "at least " : "")}{text.Format(weight)}";
}

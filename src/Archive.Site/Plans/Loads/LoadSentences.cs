using System.Collections.Immutable;
using Archive.Hall;
using Archive.Records;

namespace Archive.Site;

/// <summary>What the movers' sheet says in words.</summary>
internal static class LoadSentences
{
    /// <summary>What comes of the list, in sentences.</summary>
    public static ImmutableArray<string> Of(MovingList list, AsFound record)
    {
        var text = new QuantityText(record.Statement.Units?.Value ?? UnitChoice.Metric);
        var sides = list.Frames.ToLookup(frame => frame.Side);
        var undecided = sides[TakeSide.Astride].Count();
        var unknown = sides[TakeSide.Unknown].Count();
        var unweighed = list.Loads.Sum(load => load.Unweighed);
        var stuck = list.Loads.SelectMany(load => load.Frames).Where(IsStuck).Select(frame => frame.Frame.Id).ToList();
        return
        [
            $"{list.Layout.Hall.Title}: {Words.Count(list.Loads.Sum(load => load.Frames.Length), "frame leaves", "frames leave")}, {Words.Count(sides[TakeSide.Outside].Count(), "stays", "stay")}{(undecided > 0 ? $"; the taped line crosses {Words.Count(undecided)}, so someone must decide" : "")}{(unknown > 0 ? $"; for {Words.Count(unknown)} the place is not known well enough" : "")}.",
            $"Total weight, as far as recorded, with cables: {text.Of(list.Weight)}{(unweighed > 0 ? $"; {Words.Count(unweighed, "frame has", "frames have")} no recorded weight" : "")}.",
            .. list.Loose.Count > 0 ? [$"Of that, {Words.Count(list.Loose.Count, "cable")} taken out whole {(list.Loose.Count == 1 ? "weighs" : "weigh")} {text.Of(list.Loose.Weight)}{(list.Loose.Unweighed > 0 ? $"; {Words.Count(list.Loose.Unweighed)} of them {(list.Loose.Unweighed == 1 ? "is" : "are")} not included, because the length or mass is not recorded" : "")}."] : Array.Empty<string>(),
            .. stuck.Count > 0 ? [$"Do not fit through any recorded opening: {string.Join(", ", stuck.Take(12))}{(stuck.Count > 12 ? $" and {Words.Count(stuck.Count - 12)} more" : "")}."] : Array.Empty<string>(),
        ];
    }

    /// <summary>How a frame goes through an opening.</summary>
    public static string Fits(Passage passage) => (passage.Upright, passage.OnItsSide) switch
    {
        (Fit.Goes, Fit.Goes) => "upright or on its side",
        (Fit.Goes, _) => "upright",
        (Fit.Unknown, Fit.Goes) => "on its side; upright unknown",
        (_, Fit.Goes) => "on its side only",
        (Fit.Stays, Fit.Stays) => "no",
        _ => "unknown",
    };

    /// <summary>Whether a frame goes through none of the openings, all of them known.</summary>
    public static bool IsStuck(MovingFrame frame) =>
        frame.Passages.Length > 0 && frame.Passages.All(passage => passage is { Upright: Fit.Stays, OnItsSide: Fit.Stays });
}

using System.Collections.Immutable;
using Archive.Halls.Floor;
using Archive.Halls.Layout;
using Archive.Halls.Loads;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;

namespace Archive.Plans.Moving;

/// <summary>What the movers' sheet says in words.</summary>
public static class MovingSentences
{
    /// <summary>What comes of the list, in sentences.</summary>
    public static ImmutableArray<string> Describe(MovingList list, ArchiveModel record)
    {
        var text = new UnitFormatter(record.Statement.Units?.Value ?? DisplayUnits.Metric);
        var sides = list.Frames.ToLookup(frame => frame.Side);
        var undecided = sides[TakeSide.Astride].Count();
        var unknown = sides[TakeSide.Unknown].Count();
        var unweighed = list.Loads.Sum(load => load.Unweighed);
        var stuck = list.Loads.SelectMany(load => load.Frames).Where(IsStuck).Select(frame => frame.Frame.Id).ToList();
        return
        [
            $"{list.Layout.Hall.Title}: {Phrase.Count(list.Loads.Sum(load => load.Frames.Length), "frame leaves", "frames leave")}, {Phrase.Count(sides[TakeSide.Outside].Count(), "stays", "stay")}{(undecided > 0 ? $"; the taped line crosses {Phrase.Count(undecided)}, so someone must decide" : "")}{(unknown > 0 ? $"; for {Phrase.Count(unknown)} the place is not known well enough" : "")}.",
            $"Total weight, as far as recorded, with cables: {text.Format(list.Weight)}{(unweighed > 0 ? $"; {Phrase.Count(unweighed, "frame has", "frames have")} no recorded weight" : "")}.",
            .. list.Loose.Count > 0 ? [$"Of that, {Phrase.Count(list.Loose.Count, "cable")} taken out whole {(list.Loose.Count == 1 ? "weighs" : "weigh")} {text.Format(list.Loose.Weight)}{(list.Loose.Unweighed > 0 ? $"; {Phrase.Count(list.Loose.Unweighed)} of them {(list.Loose.Unweighed == 1 ? "is" : "are")} not included, because the length or mass is not recorded" : "")}."] : Array.Empty<string>(),
            .. stuck.Count > 0 ? [$"Do not fit through any recorded opening: {string.Join(", ", stuck.Take(12))}{(stuck.Count > 12 ? $" and {Phrase.Count(stuck.Count - 12)} more" : "")}."] : Array.Empty<string>(),
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

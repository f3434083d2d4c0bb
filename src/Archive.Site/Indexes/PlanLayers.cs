using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Drawings.Halls;
using Archive.Halls.Layout;
using Archive.Halls.Reach;
using Archive.Plans.Progress;
using Archive.Plans.Reach;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Wiring.Journeys;
using UnitsNet;

namespace Archive.Site.Indexes;

/// <summary>A layer of a hall's plan as pages want it.</summary>
/// <param name="Name">Its part of the address, such as <c>weight</c>.</param>
/// <param name="Title">What it is called in a list of layers.</param>
/// <param name="Explains">What the marks on the frames mean, in a sentence.</param>
/// <param name="Others">What frames are of which it says nothing, lower case.</param>
internal sealed record NamedLayer(string Name, string Title, string Explains, string Others, PlanLayer Layer);

/// <summary>What plans can show of frames: module, working sets, state, reach, weight, photos.</summary>
internal static class PlanLayers
{
    // Steps of weight: what two, four, six and eight people might lift between them are no limits, only round numbers (common practice, no
    // source).
    private const double StepKilograms = 100, StepPounds = 200;
    private const int Steps = 4;

    private static readonly PlanPattern[] _byWeight =
        [PlanPattern.Blank, PlanPattern.Level, PlanPattern.Rising, PlanPattern.Crossed, PlanPattern.Close];

    /// <summary>The layers that a hall's plan has: those that say something of at least one of its frames.</summary>
    public static ImmutableArray<NamedLayer> Of(HallLayout layout, SiteContents site, DisplayUnits units) =>
        layout.PlacedFrames.IsEmpty ? [] : [.. All(layout, site, units).Where(layer => !layer.Layer.Marks.IsEmpty())];

    private static IEnumerable<NamedLayer> All(HallLayout layout, SiteContents site, DisplayUnits units)
    {
        var frames = layout.ByFrame.Values.Select(placed => placed.Frame).OrderBy(frame => frame.Id, StringComparer.Ordinal).ToList();
        yield return Modules(frames);
        yield return Sets(frames, site);
        yield return States(layout.Hall, frames, site);
        if (site.Basis.Runs.Reaches.FirstOrDefault(reach => reach.Layout == layout) is { } reach) yield return Reach(reach);
        yield return Weights(frames, site, units);
        if (layout == site.HallLayouts.AsFound) yield return Photos(frames, site);
    }

    private static NamedLayer Modules(List<Frame> frames)
    {
        var modules = frames.Select(frame => frame.Module?.Value).OfType<string>().Distinct().Order(StringComparer.Ordinal).ToList();
        const string Explains = "The letter on a frame is that of its module.";
        return new("modules", "Modules", Explains, "no module recorded", new PlanLayer(
            "modules",
            [.. modules.Select((module, i) => new PlanClass($"{Letter(i)}: {Phrase.OneLine(module)}", PatternOf(i)))],
            Marked(frames, frame =>
                frame.Module is { } module && modules.IndexOf(module.Value) is var i ? new PlanMark(i, Letter(i)) : null)));
    }

    // A class for each choice of displays that share frames.
    private static NamedLayer Sets(List<Frame> frames, SiteContents site)
    {
        var sets = site.Basis.Sets.All.Where(set => set.IsMet).ToList();
        var choices = frames.ToDictionary(
            frame => frame.Id,
            frame => Phrase.Listed([.. sets.Where(set => set.Holds(frame.Id)).Select(set => $"“{Phrase.OneLine(set.Display.Title)}”")]),
            StringComparer.Ordinal);
        var classes = choices.Values.Where(choice => choice.Length > 0).Distinct().OrderBy(choice => choice.Length)
            .ThenBy(choice => choice, StringComparer.Ordinal).ToList();
        return new(
            "working-sets",
            "Working sets",
            "The letter on a frame says which displays need it to run.",
            "needed by no display",
            new PlanLayer(
                "working sets",
                [.. classes.Select((choice, i) => new PlanClass($"{Letter(i)}: needed by {choice}", PatternOf(i)))],
                Marked(frames, frame => classes.IndexOf(choices[frame.Id]) is >= 0 and var i ? new PlanMark(i, Letter(i)) : null)));
    }

    private static NamedLayer States(Hall hall, List<Frame> frames, SiteContents site)
    {
        var isAsFound = hall.AsFound is { Value: true };
        var words = frames.ToDictionary(frame => frame.Id, StateOf, StringComparer.Ordinal);
        var states = words.Values.Distinct().Order(StringComparer.Ordinal).ToList();
        return new(
            "state",
            "Status",
            "The letter on a frame says how far its move has come, by the events of the record.",
            "unknown",
            new PlanLayer(
                "status",
                [.. states.Select((state, i) => new PlanClass($"{Letter(i)}: {state}", PatternOf(i)))],
                Marked(frames, frame => states.IndexOf(words[frame.Id]) is var i ? new PlanMark(i, Letter(i)) : null)));

        string StateOf(Frame frame)
        {
            if (frame.Owner is not null) return "not ours, do not touch";
            var journey = site.Basis.Progress.JourneyOf(frame.Id);
            var situation = SituationText.Describe(journey?.Situation ?? Situation.AsFound);
            return isAsFound || journey?.Hall == hall.Id ? situation : $"not here yet, {situation}";
        }
    }

    private static NamedLayer Reach(HallReach reach)
    {
        var verdicts = Enum.GetValues<ReachVerdict>().OrderDescending().ToList();
        var frames = reach.Frames.Where(frame => frame.Cables.Any(cable => cable.IsHere)).ToList();
        const string Explains = "A frame is marked by the worst of its cables, with how many of them are so.";
        return new("reach", "Reach", Explains, "no cable between frames of this hall", new PlanLayer(
            "which cables reach",
            [.. verdicts.Select((verdict, i) => new PlanClass(
                $"{Short(verdict)}: {ReachSentences.Heading(verdict).ToLowerInvariant()}",
                verdict switch
                {
                    ReachVerdict.Reaches => PlanPattern.Blank,
                    ReachVerdict.Unknown => PlanPattern.Level,
                    ReachVerdict.TooShort => PlanPattern.Rising,
                    _ => PlanPattern.Crossed,
                }))],
            frames.ToFrozenDictionary(frame => frame.Placed.Frame.Id, MarkOf, StringComparer.Ordinal)));

        PlanMark MarkOf(FrameReach frame)
        {
            var worst = frame.Cables.Where(cable => cable.IsHere).Min(cable => cable.Verdict);
            var count = frame.Count(worst);
            return new PlanMark(
                verdicts.IndexOf(worst), worst == ReachVerdict.Reaches ? Short(worst) : Short(worst) + Phrase.Count(count));
        }
    }

    private static string Short(ReachVerdict verdict) => verdict switch
    {
        ReachVerdict.Reaches => "+",
        ReachVerdict.Unknown => "?",
        ReachVerdict.TooShort => "−",
        _ => "×",
    };

    private static NamedLayer Weights(List<Frame> frames, SiteContents site, DisplayUnits units)
    {
        var isPounds = units == DisplayUnits.InchPound;
        var step = isPounds ? Mass.FromPounds(StepPounds) : Mass.FromKilograms(StepKilograms);
        var text = new UnitFormatter(units);
        return new(
            "weight",
            "Weight",
            $"The number on a frame is its weight in {(isPounds ? "pounds" : "kilograms")}, with its units in it.",
            "weight not recorded",
            new PlanLayer(
                "weights of frames",
                [.. _byWeight.Select((pattern, i) => new PlanClass(
                    i == 0 ? $"less than {text.Format(step)}"
                        : i == Steps ? $"{text.Format(step * i)} and more"
                        : $"{text.Format(step * i)} to {text.Format(step * (i + 1))}",
                    pattern))],
                Marked(frames, frame => site.Basis.Units.WeightOf(frame)?.With is { } weight && weight > Mass.Zero
                    ? new PlanMark((int)Math.Min(Steps, Math.Floor(weight / step)), Figure(weight))
                    : null)));

        string Figure(Mass weight) => Phrase.Number((int)Math.Round(Math.Min(isPounds ? weight.Pounds : weight.Kilograms, 1e9)));
    }

    private static NamedLayer Photos(List<Frame> frames, SiteContents site)
    {
        var coverage = site.Basis.Coverage;
        var (all, unseen) = frames.Select(frame => coverage.EndsAt(frame.Id))
            .Aggregate((All: 0, Unseen: 0), (sum, ends) => (sum.All + ends.All, sum.Unseen + ends.Unseen));
        return new(
            "photos",
            "Photos",
            $"{Phrase.Heading(Phrase.Count(unseen))} of the {Phrase.Count(all)} cable ends that were seen in this hall are in no photo. "
            + "Ends that only labels give are not counted. "
            + "The letter on a frame says whether photos show it and its ends, the number how many of its ends none shows.",
            "in a photo, no cable end recorded here",
            new PlanLayer(
                "what photos show",
                [
                    new PlanClass("A: all its recorded ends are in photos", PlanPattern.Blank),
                    new PlanClass("S: some ends are in no photo", PlanPattern.Rising),
                    new PlanClass("N: none of its ends is in a photo", PlanPattern.Crossed),
                    new PlanClass("F: no photo shows the frame itself", PlanPattern.Close),
                ],
                Marked(frames, MarkOf)));

        PlanMark? MarkOf(Frame frame)
        {
            var ends = coverage.EndsAt(frame.Id);
            if (!coverage.Shows(frame.Id)) return new PlanMark(3, With("F", ends.Unseen));
            if (ends.All == 0) return null;
            return ends.Unseen == 0 ? new PlanMark(0, "A")
                : ends.Unseen < ends.All ? new PlanMark(1, With("S", ends.Unseen))
                : new PlanMark(2, With("N", ends.Unseen));
        }

        static string With(string letter, int count) => count == 0 ? letter : letter + Phrase.Count(count);
    }

    private static FrozenDictionary<string, PlanMark> Marked(List<Frame> frames, Func<Frame, PlanMark?> mark) => frames
        .Select(frame => (frame.Id, Mark: mark(frame)))
        .Where(pair => pair.Mark is not null)
        .ToFrozenDictionary(pair => pair.Id, pair => pair.Mark!.Value, StringComparer.Ordinal);

    private static bool IsEmpty(this FrozenDictionary<string, PlanMark> marks) => marks.Count == 0;

    // A, B … Z, AA, AB …
    private static string Letter(int index) =>
        (index < 26 ? "" : Letter((index / 26) - 1)) + (char)('A' + (index % 26));

    // Patterns come again where there are more classes than patterns: their letters tell them apart.
    private static PlanPattern PatternOf(int index) => (PlanPattern)(index % Enum.GetValues<PlanPattern>().Length);
}

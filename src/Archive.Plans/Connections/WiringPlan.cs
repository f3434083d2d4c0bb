using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Wiring.Graph;
using Archive.Wiring.Labels;

namespace Archive.Plans.Connections;

/// <summary>
/// What is connected to what: frame by frame, between frames, between modules; what leaves the record, and what nothing reaches.
/// </summary>
public sealed class WiringPlan : Plan
{
    public static new PlanKind Kind { get; } = new(
        "wiring",
        "What is connected to what",
        "How many cables run between which frames and modules, which cables have an unknown end, and which frames have no cables.",
        (context, _) => new WiringPlan(context));

    private static readonly DataShape<FrameWiring> Shape = new DataShape<FrameWiring>()
        .Text("frame", "id of the frame", of => of.Frame.Id)
        .Text("module", "its module", of => of.Frame.Module?.Value)
        .Count("cables", "cables known to end there", of => of.Cables)
        .Count("within", "those of them that stay within it", of => of.Within)
        .Count("leaving", "those of them whose other end is unknown", of => of.Leaving)
        .Count("from_print", "those of them whose end there was read from a label and not seen", of => of.Derived)
        .Count("reached", "number of frames that cables run to", of => of.Neighbours.Length)
        .List("frames", "ids of these frames, most cables first", of => of.Neighbours.Select(pair => pair.Other));

    private static readonly DataShape<ModulePair> Modules = new DataShape<ModulePair>()
        .Text("module_a", "one module, the first in order; empty for frames without a module", pair => pair.A)
        .Text("module_b", "the other; the same for cables within one module", pair => pair.B)
        .Count("count", "number of cables between them", pair => pair.Count);

    private static readonly DataShape<CableReading> LeavingCables = new DataShape<CableReading>()
        .Text("cable", "id of the cable", reading => reading.Cable.Id)
        .Text("at", "address of its known end; empty if there is none", reading => reading.Ends.IsEmpty
            ? null
            : reading.Ends[0].At.ToString())
        .Text("label", "its label, exactly as written", reading => reading.Cable.Label?.Value)
        .Text("verdict", "how reliable its label is", reading => reading.Verdict.Word());

    private WiringPlan(PlanContext context)
        : base(Kind)
    {
        Graph = context.Graph;
        HallLayouts = context.HallLayouts;
        var walk = (context.HallLayouts.AsFound?.PlacedFrames ?? []).Select(placed => placed.Frame);
        var pairs = Graph.FramePairs.SelectMany(pair => pair.A == pair.B
            ? []
            : new[] { (At: pair.A, Other: pair.B, pair.Cables.Length), (At: pair.B, Other: pair.A, pair.Cables.Length) })
            .ToLookup(pair => pair.At, pair => (pair.Other, pair.Length), StringComparer.Ordinal);
        Frames = [.. walk.Concat(context.Record.Frames.Where(frame => !frame.IsWithdrawn))
            .DistinctBy(frame => frame.Id)
            .Select(frame => Create(frame, pairs[frame.Id]))];
    }

    public WiringGraph Graph { get; }

    /// <summary>Where frames stand.</summary>
    public Archive.Halls.Layout.HallLayouts HallLayouts { get; }

    /// <summary>All frames in walking order, then those that stand nowhere, by id.</summary>
    public ImmutableArray<FrameWiring> Frames { get; }

    public override ImmutableArray<string> Summary
    {
        get
        {
            var within = Graph.FramePairs.Where(pair => pair.A == pair.B).Sum(pair => pair.Cables.Length);
            var between = Graph.FramePairs.Count(pair => pair.A != pair.B);
            return
            [
                $"{Phrase.Count(Frames.Count(frame => frame.Cables > 0), "frame")} with cables; cables run between {Phrase.Count(between, "pair")} of frames{(within > 0 ? $"; {Phrase.Count(within, "cable stays", "cables stay")} within one frame" : "")}.",
                .. Graph.Leaving.IsEmpty
                    ? ImmutableArray<string>.Empty
                    : [$"{Phrase.Count(Graph.Leaving.Length, "cable has", "cables have")} an unknown end."],
                .. Graph.Unreached.IsEmpty
                    ? ImmutableArray<string>.Empty
                    : [$"{Phrase.Count(Graph.Unreached.Length, "frame has", "frames have")} no known cables."],
            ];
        }
    }

    public override ImmutableArray<DataTable> Tables =>
    [
        new DataTable<FrameWiring>("plans/wiring", "a frame and what it is connected to, in walking order", Shape, Frames),
        new DataTable<ModulePair>("plans/wiring-modules", "two modules that cables run between", Modules, Graph.ModulePairs),
        new DataTable<CableReading>("plans/wiring-leaving", "a cable with an unknown end", LeavingCables, Graph.Leaving),
    ];

    internal override ImmutableArray<string> Shown => ["frame", "module", "cables", "within", "leaving", "reached", "frames"];

    private FrameWiring Create(Frame frame, IEnumerable<(string Other, int Count)> neighbours)
    {
        var ends = Graph.At(frame.Id);
        var cables = ends.Select(end => end.Reading).Distinct<CableReading>(ReferenceEqualityComparer.Instance).ToList();
        return new FrameWiring(
            frame, cables.Count, [.. neighbours.OrderByDescending(pair => pair.Count).ThenBy(pair => pair.Other, StringComparer.Ordinal)])
        {
            Within = cables.Count(cable => cable.Ends.Length > 1 && cable.Ends.All(end => end.At.Frame == frame.Id)),
            Leaving = cables.Count(cable => cable.Ends.Length < 2),
            Derived = ends.Count(end => end.Here.IsDerived),
        };
    }
}

/// <summary>What a frame is connected to.</summary>
/// <param name="Cables">Cables that are known to end there.</param>
/// <param name="Neighbours">The frames that cables run to from there, with their number, most first.</param>
public sealed record FrameWiring(Frame Frame, int Cables, ImmutableArray<(string Other, int Count)> Neighbours)
{
    /// <summary>Cables that stay within it.</summary>
    public required int Within { get; init; }

    /// <summary>Cables whose other end is not known.</summary>
    public required int Leaving { get; init; }

    /// <summary>Ends there that print alone gives.</summary>
    public required int Derived { get; init; }
}

using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;

namespace Archive.Wiring.Sets;

/// <summary>The smallest set of frames with which a display runs, and what comes with it.</summary>
public sealed record WorkingSet(Display Display)
{
    /// <summary>The frames, by id; none where the needs cannot be met.</summary>
    public ImmutableArray<Frame> Frames { get; init; } = [];

    /// <summary>
    /// Whether the set is shown to be the smallest; false where the search was given up at its limit, and this is the best that was met
    /// with.
    /// </summary>
    public bool IsProven { get; init; } = true;

    /// <summary>Why the needs cannot be met: the display's need that fails, then those that make it fail; empty where they can.</summary>
    public ImmutableArray<UnmetNeed> Unmet { get; init; } = [];

    /// <summary>Cables with all their known ends, two at least, in the set; by id.</summary>
    public ImmutableArray<CableReading> Inside { get; init; } = [];

    /// <summary>Cables with ends in the set and ends outside of it; by id.</summary>
    public ImmutableArray<EdgeCable> Edge { get; init; } = [];

    /// <summary>Cables with a single known end, in the set: whether they cross its edge is not known; by id.</summary>
    public ImmutableArray<CableReading> Loose { get; init; } = [];

    /// <summary>What the set weighs, takes up and draws.</summary>
    public SetTotals Figures { get; init; } = SetTotals.From([]);

    /// <summary>Whether the needs can be met.</summary>
    public bool IsMet => Unmet.IsEmpty;

    /// <summary>Whether a frame belongs to the set.</summary>
    public bool Holds(string frame) => Frames.Any(each => each.Id == frame);
}

/// <summary>A cable that crosses the edge of a working set: one end stays connected, the other has nowhere to go and is parked.</summary>
/// <param name="Staying">Its ends at frames of the set.</param>
/// <param name="Parked">Its ends at frames outside.</param>
public sealed record EdgeCable(CableReading Reading, ImmutableArray<KnownEnd> Staying, ImmutableArray<KnownEnd> Parked);

/// <summary>The working sets of all displays that stand.</summary>
public sealed class WorkingSets
{
    private WorkingSets(ImmutableArray<WorkingSet> all)
    {
        All = all;
        Wanted = all.SelectMany(set => set.Frames).Select(frame => frame.Id).ToFrozenSet(StringComparer.Ordinal);
    }

    /// <summary>One entry for each display that stands, by id.</summary>
    public ImmutableArray<WorkingSet> All { get; }

    /// <summary>Ids of the frames that any display's set holds.</summary>
    public FrozenSet<string> Wanted { get; }

    /// <summary>Finds the sets.</summary>
    /// <param name="readings">Its labels as read.</param>
    public static WorkingSets Compute(ArchiveModel record, LabelReadings readings)
    {
        var modules = record.Frames
            .Where(frame => frame is { IsWithdrawn: false, Module: not null })
            .ToLookup(frame => frame.Module!.Value.Value, StringComparer.Ordinal);
        return new WorkingSets([.. record.Displays
            .Where(display => !display.IsWithdrawn)
            .Select(display => Compute(record, readings, modules, display))]);
    }

    /// <summary>The set of a display.</summary>
    /// <returns>Null where no such display stands.</returns>
    public WorkingSet? Find(string display) => All.FirstOrDefault(set => set.Display.Id == display);

    private static WorkingSet Compute(ArchiveModel record, LabelReadings readings, ILookup<string, Frame> modules, Display display)
    {
        var net = NeedGraph.From(record, modules, display.Needs);
        if (SmallestSet.Find(net, [.. net.Frames.Select(Weight)]) is not { } smallest)
            return new WorkingSet(display) { Unmet = UnmetNeeds.Find(record, modules, display) };
        ImmutableArray<Frame> frames = [.. smallest.Frames.Select(frame => net.Frames[frame])];
        var cables = SetCables.From(readings, frames.Select(frame => frame.Id).ToHashSet(StringComparer.Ordinal));
        return new WorkingSet(display)
        {
            Frames = frames,
            IsProven = smallest.IsProven,
            Inside = cables.Inside,
            Edge = cables.Edge,
            Loose = cables.Loose,
            Figures = SetTotals.From(frames),
        };
    }

    // In hundredths of a milligram a kilogram and a pound are both whole, so that equal weights are equal however they were written.
    private static long Weight(Frame frame) => frame.Weight is { } weight ? (long)Math.Round(weight.Value.Kilograms * 1e8) : 0;
}

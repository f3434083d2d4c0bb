using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Wiring.Graph;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;

namespace Archive.Wiring.Ports;

/// <summary>A port and what is known of it.</summary>
/// <param name="Name">As the record declares it, else as the end names it.</param>
/// <param name="Ends">The ends of cables there; none where it is free.</param>
public sealed record PortLine(string Name, PortState State, ImmutableArray<FrameEnd> Ends);

/// <summary>What is known of the ports of a frame.</summary>
public sealed class FramePorts
{
    /// <summary>A position with more ports than these is not listed port by port, but for those at which cables end.</summary>
    public const int MostListed = 96;

    private readonly Frame _frame;
    private readonly WorkProgress _progress;
    private readonly ILookup<string, FrameEnd> _atPosition;

    /// <param name="ends">The ends of cables at the frame.</param>
    public FramePorts(Frame frame, IEnumerable<FrameEnd> ends, WorkProgress progress)
    {
        (_frame, _progress) = (frame, progress);
        _atPosition = ends.Where(end => end.Here.At is { Position: not null, Port: not null })
            .ToLookup(end => end.Here.At.Position!, LeadingZeros.Comparer);
    }

    /// <summary>The ports of a position: those that it declares, in its order, then others at which cables end.</summary>
    public ImmutableArray<PortLine> Of(Position position)
    {
        var byPort = _atPosition[position.Id.Value].ToLookup(end => end.Here.At.Port!, LeadingZeros.Comparer);
        var declared = position.Ports.Sum(range => (long)range.Count) <= MostListed
            ? position.Ports.SelectMany(range => range.Names).ToList()
            : [];
        var known = declared.ToHashSet(LeadingZeros.Comparer);
        return
        [
            .. declared.Select(name => Line(name, [.. byPort[name]])),
            .. byPort.Where(port => !known.Contains(port.Key)).OrderBy(port => new NaturalSortKey(port.Key))
                .Select(port => Line(port.Key, [.. port])),
        ];
    }

    private PortLine Line(string name, ImmutableArray<FrameEnd> ends) => new(name, StateOf(ends), ends);

    private PortState StateOf(ImmutableArray<FrameEnd> ends)
    {
        if (ends.IsEmpty) return PortState.Free;
        if (ends.Select(end => end.Cable.Id).Distinct(StringComparer.Ordinal).Skip(1).Any() || ends.Any(IsDisputed))
            return PortState.Disputed;
        return ends.Any(end => _progress.IsFreedAt(end.Reading, _frame.Id)) ? PortState.Done
            : ends.Any(end => end.Here.IsDerived) ? PortState.Unseen
            : PortState.Used;
    }

    // Where the label of a cable speaks against one end, the other is not in dispute.
    private static bool IsDisputed(FrameEnd end) => end.Reading.Verdict == LabelVerdict.Contradicts
        && (end.Reading.Disagreements.IsEmpty || end.Reading.Disagreements.Any(one => one.Seen == end.Here.At));
}

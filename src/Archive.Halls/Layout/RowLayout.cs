using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Halls.Layout;

/// <summary>A row set out on the floor.</summary>
/// <param name="Row">The row as recorded.</param>
/// <param name="Frames">Its frames in order.</param>
public sealed record RowLayout(FrameRow Row, ImmutableArray<PlacedFrame> Frames)
{
    /// <summary>What its frames cover together; null without frames.</summary>
    public Footprint? Extent { get; } = Frames.Length == 0
        ? null
        : Frames.Select(frame => frame.Footprint).Aggregate((a, b) => a.Joined(b));
}

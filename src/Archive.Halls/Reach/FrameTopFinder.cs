using Archive.Halls.Layout;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;

namespace Archive.Halls.Reach;

/// <summary>What is known of where a frame's top is in a hall.</summary>
internal static class FrameTopFinder
{
    /// <summary>What is missing to know where the frame's top is; null where nothing is.</summary>
    internal static string? MissingFor(HallLayout layout, Frame frame)
    {
        if (!layout.ByFrame.TryGetValue(frame.Id, out var placed)) return $"a place for {frame.Id}";
        if (!placed.IsSized) return $"the size of {frame.Id}";
        return placed.IsPlaced ? null : $"the size of a frame before {frame.Id} in its row";
    }

    /// <summary>The top of a frame of which everything is known.</summary>
    internal static FrameTop TopOf(HallLayout layout, Frame frame) =>
        new(layout.ByFrame[frame.Id].Footprint.Centre, frame.Size!.Value.Value.Height.Millimeters);
}

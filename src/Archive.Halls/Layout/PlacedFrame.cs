using Archive.Diagnostics;
using Archive.Records.Model;

namespace Archive.Halls.Layout;

/// <summary>A frame in its place in a hall.</summary>
/// <remarks>Where widths are missing, footprints are drawn but prove nothing: see <see cref="IsCertain"/>.</remarks>
public sealed record PlacedFrame
{
    /// <summary>
    /// Width and depth that a frame without a recorded size is drawn with, in millimetres: a common cabinet's; never used to judge.
    /// </summary>
    public const double DrawnSize = 600;

    public required Frame Frame { get; init; }

    /// <summary>The row it stands in.</summary>
    public required FrameRow Row { get; init; }

    /// <summary>Its place among the frames of the row, from 0.</summary>
    public required int Index { get; init; }

    /// <summary>What it covers on the floor.</summary>
    public required Footprint Footprint { get; init; }

    /// <summary>Whether its own width and depth are recorded; else the footprint is <see cref="DrawnSize"/> square.</summary>
    public required bool IsSized { get; init; }

    /// <summary>Whether the widths of all frames before it in the row are recorded, so that its place is known.</summary>
    public required bool IsPlaced { get; init; }

    /// <summary>Where the row names it.</summary>
    public required SourceSpan Span { get; init; }

    /// <summary>The side its front looks to.</summary>
    public Compass Faces => Row.Faces.Value;

    /// <summary>Whether the footprint rests on recorded sizes alone; only then is it judged.</summary>
    public bool IsCertain => IsSized && IsPlaced;
}

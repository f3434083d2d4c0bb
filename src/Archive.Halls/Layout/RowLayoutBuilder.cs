using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Halls.Layout;

/// <summary>Sets a row out on the floor: frames side by side by their widths, from the front corner of the first.</summary>
internal static class RowLayoutBuilder
{
    /// <summary>The row on the floor. Frames that do not exist take no place, but leave all behind them uncertain.</summary>
    internal static RowLayout Set(FrameRow row, Func<string, Frame?> frameOf)
    {
        var standing = ImmutableArray.CreateBuilder<PlacedFrame>(row.Places.Length);
        var corner = row.At;
        var isPlaced = true;
        foreach (var place in row.Places)
        {
            if (place.Gap is { } gap) corner = corner.Step(row.Runs.Value, gap.Value.Millimeters);
            if (place.Frame is not { } named) continue;
            var frame = frameOf(named.Value);
            if (frame is not null)
            {
                var (width, depth) = SizeOnFloor(frame);
                var far = corner.Step(row.Runs.Value, width);
                var footprint = Footprint.Between(corner, far.Step(row.Faces.Value, -depth));
                if (!footprint.IsFinite) break; // numbers past all measure: the row ends where they begin
                standing.Add(new PlacedFrame
                {
                    Frame = frame,
                    Row = row,
                    Index = standing.Count,
                    Footprint = footprint,
                    IsSized = frame.Size is not null,
                    IsPlaced = isPlaced,
                    Span = named.Span,
                });
                corner = far;
            }

            isPlaced &= frame?.Size is not null;
        }

        return new RowLayout(row, standing.DrainToImmutable());
    }

    private static (double Width, double Depth) SizeOnFloor(Frame frame) => frame.Size is { Value: var size }
        ? (size.Width.Millimeters, size.Depth.Millimeters)
        : (PlacedFrame.DrawnSize, PlacedFrame.DrawnSize);
}

using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Site.PhotoPlaces;

/// <summary>A frame of a row as a camera before it has it: from left to right, in millimetres along the row.</summary>
/// <param name="Frame">Its id.</param>
/// <param name="Left">Where it begins.</param>
/// <param name="Right">Where it ends.</param>
/// <param name="Height">How high it is.</param>
public sealed record RowSpan(string Frame, double Left, double Right, double Height);

/// <summary>Estimates where the frames of a row are in a photo of it, from their places in the row.</summary>
public static class RowEstimate
{
    // A photo of a row is usually taken so that the row nearly fills its width, and its middle is a little below that of the picture
    // (common practice, no source).
    private const double Margin = 0.06, Middle = 0.54;

    private const double LeastWidth = 0.005;

    /// <summary>A box for each frame, in the order given; frames that would be outside the picture are left out.</summary>
    /// <param name="spans">What the photo shows; not empty.</param>
    /// <param name="recorded">Boxes of frames of this row that the record states for this photo.</param>
    /// <param name="shape">Width of the picture by its height.</param>
    /// <remarks>
    /// Where boxes are recorded, the others are fitted to them: a straight line through their edges, by least squares. That passes over
    /// perspective, by which frames farther off are narrower; so these are estimates and are called so.
    /// </remarks>
    public static ImmutableArray<(string Frame, ImageBox Box)> Place(
        ImmutableArray<RowSpan> spans, IReadOnlyDictionary<string, ImageBox> recorded, double shape)
    {
        var (from, to) = (spans.Min(span => span.Left), spans.Max(span => span.Right));
        var known = spans.Where(span => recorded.ContainsKey(span.Frame)).ToList();
        var usual = (1 - (2 * Margin)) / Math.Max(1, to - from);
        var (perMillimetre, start) = Line(
            [.. known.SelectMany(span => new[]
            {
                (span.Left, recorded[span.Frame].Left),
                (span.Right, recorded[span.Frame].Left + recorded[span.Frame].Width)
            })],
            (usual, Margin - (usual * from)));
        var tallest = spans.Max(span => span.Height);
        var (upright, floor) = known.Count > 0
            ? (
                known.Average(span => recorded[span.Frame].Height / span.Height),
                known.Average(span => recorded[span.Frame].Top + recorded[span.Frame].Height))
            : (Math.Min(perMillimetre * shape, 0.9 / tallest), Middle + (Math.Min(perMillimetre * shape * tallest, 0.9) / 2));
        return
        [
            .. spans.Select(span => (span.Frame, Box: Within(
                (perMillimetre * span.Left) + start,
                floor - (upright * span.Height),
                (perMillimetre * span.Right) + start,
                floor)))
                .Where(placed => placed.Box.Width > LeastWidth && placed.Box.Height > LeastWidth)
        ];
    }

    private static (double Slope, double Start) Line(ImmutableArray<(double Along, double Across)> points, (double, double) usual)
    {
        if (points.IsEmpty) return usual;
        var (x, y) = (points.Average(point => point.Along), points.Average(point => point.Across));
        var spread = points.Sum(point => (point.Along - x) * (point.Along - x));
        var slope = spread > 0 ? points.Sum(point => (point.Along - x) * (point.Across - y)) / spread : 0;

        // Boxes in the wrong order say nothing of the others.
        return slope > 0 ? (slope, y - (slope * x)) : usual;
    }

    private static ImageBox Within(double left, double top, double right, double bottom)
    {
        var (l, t) = (Math.Clamp(left, 0, 1), Math.Clamp(top, 0, 1));
        return new ImageBox(l, t, Math.Clamp(right, 0, 1) - l, Math.Clamp(bottom, 0, 1) - t);
    }
}

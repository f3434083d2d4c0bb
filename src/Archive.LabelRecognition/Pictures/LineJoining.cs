using System.Collections.Immutable;

namespace Archive.LabelRecognition.Pictures;

/// <summary>Joins boxes that continue each other: a detector finds words, and a label may have spaces.</summary>
internal static class LineJoining
{
    // In heights of the longer box: how far apart, how far out of line, and how different in height.
    private const double WidestGap = 1;
    private const double MostOffset = 0.35;
    private const double LeastHeight = 0.6;
    private const double MostHeight = 1.6;

    // Beyond this a photo is a page of print.
    private const int MostBoxes = 500;

    /// <summary>Joins them. Time: the square of their number, of which no more than 500 are looked at.</summary>
    /// <returns>Each line with the boxes that it is made of.</returns>
    internal static List<(LineBox Box, ImmutableArray<int> Parts)> Join(IReadOnlyList<LineBox> boxes)
    {
        var lines = boxes.Select((box, at) => (Box: box, Parts: ImmutableArray.Create(at)))
            .OrderByDescending(line => line.Box.Length)
            .ToList();
        if (lines.Count > MostBoxes) return lines;
        for (var at = 0; at < lines.Count; at++)
        {
            for (var other = at + 1; other < lines.Count; other++)
            {
                if (IsWithin(lines[at].Box, lines[other].Box))
                {
                    lines.RemoveAt(other--);
                    continue;
                }

                if (!Continues(lines[at].Box, lines[other].Box)) continue;
                var corners = lines[at].Box.Corners().Concat(lines[other].Box.Corners()).ToList();
                lines[at] = (SmallestRectangle.Around(corners), lines[at].Parts.AddRange(lines[other].Parts));
                lines.RemoveAt(other);
                // The longer line may now reach one that was passed over.
                other = at;
            }
        }

        return lines;
    }

    // A fragment of a line is no line of its own.
    private static bool IsWithin(LineBox line, LineBox other)
    {
        var (left, right, top, bottom) = SeenFrom(line, other);
        return Math.Max(right, -left) <= line.Length / 2 && Math.Max(bottom, -top) <= line.Height / 2;
    }

    // Where the corners of another box are, along and across a line, from its middle.
    private static (double Left, double Right, double Top, double Bottom) SeenFrom(LineBox line, LineBox other)
    {
        var (sin, cos) = Math.SinCos(line.Angle);
        var corners = other.Corners().Select(corner => (X: corner.X - line.CentreX, Y: corner.Y - line.CentreY))
            .Select(corner => (Along: (corner.X * cos) + (corner.Y * sin), Across: (corner.Y * cos) - (corner.X * sin)))
            .ToList();
        return (
            corners.Min(corner => corner.Along), corners.Max(corner => corner.Along),
            corners.Min(corner => corner.Across), corners.Max(corner => corner.Across));
    }

    private static bool Continues(LineBox line, LineBox other)
    {
        var (left, right, top, bottom) = SeenFrom(line, other);
        var gap = Math.Max(left, -right) - (line.Length / 2);
        return gap <= WidestGap * line.Height
            && gap > -line.Height
            && Math.Abs(top + bottom) / 2 <= MostOffset * line.Height
            && bottom - top >= LeastHeight * line.Height
            && bottom - top <= MostHeight * line.Height;
    }
}

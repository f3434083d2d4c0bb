using System.Collections.Immutable;
using Archive.Drawings.Svg;
using Archive.Records.Model;

namespace Archive.Drawings.Frames;

/// <summary>Where positions lie on a frame's face: as wide as the face, and side by side where they share a height.</summary>
internal static class ElevationLanes
{
    // Shelves that share less than this stand on each other.
    private const double Touch = 1;
    private const double Upright = 0.04;

    /// <summary>
    /// Boxes of positions whose heights are known; positions that share a height are set side by side in the record's order of bottoms.
    /// </summary>
    /// <param name="placed">Positions with height above the floor and own height.</param>
    /// <param name="face">The frame's face on the sheet.</param>
    /// <param name="perMillimetre">Units a millimetre.</param>
    internal static IEnumerable<(Position Position, PaperBox Box)> Arrange(
        ImmutableArray<Position> placed, PaperBox face, double perMillimetre)
    {
        var inner = new PaperBox(face.X + (face.Width * Upright), face.Y, face.Width * (1 - (2 * Upright)), face.Height);
        foreach (var shelf in Shelves(placed))
        {
            var lanes = new List<double>();
            var set = shelf.Select(position => (Position: position, Lane: Lane(position, lanes))).ToList();
            var width = inner.Width / lanes.Count;
            foreach (var (position, lane) in set)
            {
                var (bottom, top) = Ends(position);
                yield return (
                    position,
                    new PaperBox(inner.X + (lane * width), face.Bottom - (top * perMillimetre), width, (top - bottom) * perMillimetre));
            }
        }
    }

    // Runs of positions of which each shares a height with one before it.
    private static IEnumerable<List<Position>> Shelves(ImmutableArray<Position> placed)
    {
        var shelf = new List<Position>();
        var top = double.NegativeInfinity;
        foreach (var position in placed.OrderBy(position => Ends(position).Bottom))
        {
            var ends = Ends(position);
            if (ends.Bottom > top - Touch && shelf.Count > 0)
            {
                yield return shelf;
                shelf = [];
            }

            shelf.Add(position);
            top = Math.Max(top, ends.Top);
        }

        if (shelf.Count > 0) yield return shelf;
    }

    private static int Lane(Position position, List<double> lanes)
    {
        var (bottom, top) = Ends(position);
        var lane = lanes.FindIndex(filled => bottom > filled - Touch);
        if (lane < 0)
        {
            lane = lanes.Count;
            lanes.Add(top);
        }

        lanes[lane] = top;
        return lane;
    }

    private static (double Bottom, double Top) Ends(Position position)
    {
        var bottom = position.FromFloor!.Value.Value.Millimeters;
        return (bottom, bottom + position.Height!.Value.Value.Millimeters);
    }
}

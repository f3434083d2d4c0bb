namespace Archive.DemoPictures;

/// <summary>Finds the wear of whatever is at a place: that of the frame there.</summary>
internal sealed class FrameWear
{
    // Doors, plugs and what hangs on a face are part of it.
    private const double About = 130;
    private const double Square = 400;

    private readonly Dictionary<(int X, int Y), List<(Stand Stand, Wear Wear)>> _squares = [];

    public FrameWear(DemoArchive demo)
    {
        foreach (var stand in demo.Stands.Values.OrderBy(stand => stand.Rack, StringComparer.Ordinal))
        {
            var wear = Wear.Of(stand.Rack);
            var box = stand.Box;
            for (var x = SquareOf(box.Left - About); x <= SquareOf(box.Right + About); x++)
            {
                for (var y = SquareOf(box.Top - About); y <= SquareOf(box.Bottom + About); y++)
                {
                    if (!_squares.TryGetValue((x, y), out var stands)) _squares[(x, y)] = stands = [];
                    stands.Add((stand, wear));
                }
            }
        }
    }

    public Wear At(in Point3 at)
    {
        if (!_squares.TryGetValue((SquareOf(at.X), SquareOf(at.Y)), out var stands)) return Wear.Hall;
        var (nearest, wear) = (About, Wear.Hall);
        foreach (var (stand, of) in stands)
        {
            var box = stand.Box;
            var off = Math.Max(Math.Max(box.Left - at.X, at.X - box.Right), Math.Max(box.Top - at.Y, at.Y - box.Bottom));
            if (off < nearest) (nearest, wear) = (off, of);
        }

        return wear;
    }

    private static int SquareOf(double place) => (int)Math.Floor(place / Square);
}

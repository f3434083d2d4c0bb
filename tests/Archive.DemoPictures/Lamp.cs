using System.Globalization;

namespace Archive.DemoPictures;

/// <summary>A lamp that shines from a rectangle.</summary>
/// <param name="At">Its middle.</param>
/// <param name="Toward">Where it shines.</param>
/// <param name="Wide">Millimetres along the level.</param>
/// <param name="High">Millimetres the other way.</param>
/// <param name="Watts">What it gives; none is a dark one.</param>
/// <param name="Colour">Of its light, written <c>#rrggbb</c>.</param>
internal sealed record Lamp(Point3 At, Point3 Toward, double Wide, double High, double Watts, string Colour)
{
    /// <summary>The tubes under the ceiling: old, of several makes, a few out.</summary>
    public static IEnumerable<Lamp> Fluorescents(DemoArchive demo)
    {
        var chance = SeededRandom.For("tubes");
        for (var y = 1000.0; y < demo.Walls.Depth; y += 1900)
        {
            for (var x = 1500.0; x < demo.Walls.Width; x += 3000)
            {
                var (strength, make, at) =
                    (chance.Between(0.65, 1.1), chance.Between(0, 1), new Point3(x + 750, y, demo.Walls.Ceiling - 100));
                // The second in the third line, and one in the corner, are out.
                var isOut = (y, x) is (4800, 1500) or (8600, 10500) or (1000, 7500);
                yield return new Lamp(
                    at, Point3.Up * -1, 1480, 120, isOut ? 0 : 55 * strength, make > 0.6 ? "#fff1d6" : make > 0.2 ? "#f6fbe9" : "#e9f4ff");
            }
        }
    }

    /// <summary>
    /// The sky in each window of the south wall: bluish in the morning, bright at noon, warm in the afternoon; clouds pass.
    /// </summary>
    public static IEnumerable<Lamp> Skies(DemoArchive demo, Shot shot)
    {
        var taken = DateTime.Parse(shot.Taken, CultureInfo.InvariantCulture);
        var (hour, cloud) = (taken.Hour == 0 ? 12 : taken.Hour + (taken.Minute / 60.0), SeededRandom.For("cloud " + shot.Id));
        var height = Math.Max(0.25, Math.Sin((hour - 5) / 15 * Math.PI));
        var (watts, warmth) = (190 * height * cloud.Between(0.45, 1.25), Math.Clamp((hour - 11.5) / 5, 0, 1));
        return HallModel.Windows.Select(t => new Lamp(
            new Point3(demo.Walls.Width * (1 - t - (HallModel.WindowWide / 2)), demo.Walls.Depth + 120, 1850),
            new Point3(0, -1, -0.25),
            demo.Walls.Width * HallModel.WindowWide * 0.9,
            1250,
            watts,
            Palette.Mix("#d3e3ff", "#ffe9cc", warmth)));
    }

    /// <summary>The camera's own flash, up and to the left of the lens.</summary>
    public static Lamp Flash(Camera camera, double distance) => new(
        camera.Eye + (camera.Above * (distance * 0.2)) - (camera.Right * (distance * 0.16)), camera.Ahead
            - (camera.Above * 0.2)
            + (camera.Right * 0.16), 60 + (distance * 0.1), 50 + (distance * 0.1), 55 * distance * distance / 1e6, "#fffaf2");
}

namespace Archive.DemoPictures;

/// <summary>The room itself: tiled floor, walls with their windows, lamps, columns.</summary>
internal sealed class HallDrawing(Sheet sheet, Demo demo)
{
    private const double Tile = 600;

    public void Draw()
    {
        var (w, d, h) = (demo.Walls.Width, demo.Walls.Depth, demo.Walls.Ceiling);
        sheet.Raw($"""<rect width="{sheet.Width}" height="{sheet.Height}" fill="{Wash.Paper}"/>""");
        Floor(w, d);
        if (sheet.Camera.Eye.Z < h) sheet.Fill([new(0, 0, h), new(w, 0, h), new(w, d, h), new(0, d, h)], "#e9e4d8");
        Wall(new(0, 0, 0), new(w, 0, 0), new(0, 1, 0), "#dad7cc", windows: false);
        Wall(new(w, d, 0), new(0, d, 0), new(0, -1, 0), "#cfcdc6", windows: true);
        Wall(new(0, d, 0), new(0, 0, 0), new(1, 0, 0), "#d5d2c7", windows: false);
        Wall(new(w, 0, 0), new(w, d, 0), new(-1, 0, 0), "#d0cdc4", windows: false);
        for (var y = 1000.0; y < d; y += 1900)
        {
            for (var x = 1500.0; x < w; x += 3000) Lamp(x, y, h);
        }
    }

    /// <summary>The columns and boxes that stand on the floor, as far as they are wanted.</summary>
    public void Columns(Func<Footprint, bool> wanted)
    {
        foreach (var box in demo.Walls.Obstacles.Where(wanted))
        {
            foreach (var outward in new Point3[] { new(0, -1, 0), new(0, 1, 0), new(-1, 0, 0), new(1, 0, 0) })
            {
                var face = Face.Of(box, outward);
                if ((sheet.Camera.Eye - face.Origin).Dot(outward) <= 0) continue;
                sheet.Fill(RackDrawing.Rectangle(face, 0, face.Width, 0, demo.Walls.Ceiling), outward.X == 0 ? "#d9d5c8" : "#c3c0b5", 1.1);
                sheet.Fill(RackDrawing.Rectangle(face, 0, face.Width, 0, 1100), "#a5a698", 0, 0.6);
            }
        }
    }

    private void Floor(double w, double d)
    {
        // The floor goes on under the feet of whoever stands where a wall was taken away.
        sheet.Fill([new(-8000, -8000, 0), new(w + 8000, -8000, 0), new(w + 8000, d + 8000, 0), new(-8000, d + 8000, 0)], "#c3bcab");
        sheet.Fill([new(0, 0, 0), new(w, 0, 0), new(w, d, 0), new(0, d, 0)], "#bcb5a5");
        var chance = Chance.For("floor");
        for (var x = 0.0; x < w; x += Tile)
        {
            for (var y = 0.0; y < d; y += Tile)
            {
                var t = chance.Between(0, 1);
                if (t < 0.4) continue;
                sheet.Fill([new(x, y, 0), new(x + Tile, y, 0), new(x + Tile, y + Tile, 0), new(x, y + Tile, 0)], t > 0.8 ? "#c3bcab" : "#aea797", 0, 0.6);
            }
        }

        for (var x = 0.0; x <= w; x += Tile) Seam(new(x, 0, 0), new(x, d, 0));
        for (var y = 0.0; y <= d; y += Tile) Seam(new(0, y, 0), new(w, y, 0));
        for (var y = 1000.0; y < d; y += 1900)
        {
            for (var x = 1500.0; x < w; x += 3000) Pool(x + 750, y);
        }

        for (var i = 0; i < demo.Walls.Take.Count; i++) Tape(demo.Walls.Take[i], demo.Walls.Take[(i + 1) % demo.Walls.Take.Count]);
    }

    /// <summary>What a lamp throws on the floor, and the floor throws back.</summary>
    private void Pool(double x, double y)
    {
        var ring = Enumerable.Range(0, 24).Select(i => Math.Tau * i / 24).Select(a => new Point3(x + (1500 * Math.Cos(a)), y + (900 * Math.Sin(a)), 0)).ToArray();
        sheet.Shade(ring, "pool", 0.8);
    }

    /// <summary>The take line: tape on the floor, scuffed where one walks.</summary>
    private void Tape(Point3 a, Point3 b)
    {
        var n = Math.Max(1, (int)((b - a).Length / 130));
        var chance = Chance.For($"tape {a.X} {a.Y}");
        var half = Point3.Up.Cross((b - a).Unit) * 24;
        for (var i = 0; i < n; i++)
        {
            var (p, q) = (Point3.Between(a, b, (double)i / n), Point3.Between(a, b, (i + 0.985) / n));
            sheet.Fill([p - half, q - half, q + half, p + half], i % 2 == 0 ? "#d3ab3d" : "#34322e", 0, chance.Between(0.55, 0.95));
        }
    }

    /// <summary>Conduit and a cable channel along a wall, with the boxes they run to.</summary>
    private void Conduit(Point3 a, Point3 b, Point3 inward)
    {
        var chance = Chance.For($"conduit {a.X} {a.Y}");
        foreach (var z in new[] { 2950.0, 3010, 3240 })
        {
            Run(z, 26, "#b7b5aa");
            Run(z + 7, 6, "#dedbd0");
        }

        for (var t = 0.07; t < 0.96; t += chance.Between(0.1, 0.2))
        {
            var p = Point3.Between(a, b, t) + (inward * 30);
            sheet.Stroke([p + (Point3.Up * 1500), p + (Point3.Up * 2950)], "#aeaca1", 22);
            var side = (b - a).Unit * 75;
            foreach (var (low, high) in new[] { (1380.0, 1520.0), (2900.0, 3040.0) })
            {
                sheet.Fill([p - side + (Point3.Up * (low - 14)), p + side + (Point3.Up * (low - 14)), p + side + (Point3.Up * high), p - side + (Point3.Up * high)], "#8e8c83", 0, 0.6);
                sheet.Fill([p - side + (Point3.Up * low), p + side + (Point3.Up * low), p + side + (Point3.Up * high), p - side + (Point3.Up * high)], "#c9c6bb", 0.8);
            }
        }

        void Run(double z, double thick, string colour)
        {
            for (var i = 0; i < 12; i++) sheet.Stroke([Point3.Between(a, b, i / 12.0) + (Point3.Up * z) + (inward * 20), Point3.Between(a, b, (i + 1) / 12.0) + (Point3.Up * z) + (inward * 20)], colour, thick);
        }
    }

    private void Seam(Point3 a, Point3 b)
    {
        for (var i = 0; i < 30; i++)
        {
            var (p, q) = (Point3.Between(a, b, i / 30.0), Point3.Between(a, b, (i + 1) / 30.0));
            sheet.Ink([p, q], 0.7, "#8f897b", 0.6);
        }
    }

    private void Wall(Point3 a, Point3 b, Point3 inward, string tone, bool windows)
    {
        if ((sheet.Camera.Eye - a).Dot(inward) <= 0) return;
        var h = demo.Walls.Ceiling;
        var up = Point3.Up;
        sheet.Fill([a, b, b + (up * h), a + (up * h)], tone, 1);
        sheet.Fill([a, b, b + (up * 1200), a + (up * 1200)], "#9fa396", 0, 0.55);
        Line(a + (up * 1200), b + (up * 1200), 1.2);
        Line(a + (up * 110), b + (up * 110), 1);
        sheet.Shade([a, b, b + (up * h), a + (up * h)], "plaster");
        Conduit(a, b, inward);
        if (!windows) return;
        for (var t = 0.06; t < 0.9; t += 0.16) Window(Point3.Between(a, b, t), Point3.Between(a, b, t + 0.11));
    }

    private void Window(Point3 a, Point3 b)
    {
        var up = Point3.Up;
        Point3 At(double t, double z) => Point3.Between(a, b, t) + (up * z);
        sheet.Fill([At(0, 1100), At(1, 1100), At(1, 2500), At(0, 2500)], "#dfe8ea", 1.6);
        sheet.Fill([At(0, 1100), At(1, 1100), At(1, 1620), At(0, 1620)], "#9db4bd");
        sheet.Fill([At(0, 1100), At(1, 1100), At(1, 1230), At(0, 1190)], "#8d9579");
        for (var k = 0; k < 5; k++) Line(At(0.05, 1260 + (70 * k)), At(0.95, 1262 + (70 * k)), 0.7, "#c9d6d9");
        foreach (var t in new[] { 0, 0.5, 1.0 }) Line(At(t, 1100), At(t, 2500), 2.4, "#f4f0e6");
        foreach (var z in new[] { 1100.0, 2050, 2500 }) Line(At(0, z), At(1, z), 2.4, "#f4f0e6");
    }

    private void Line(Point3 a, Point3 b, double weight, string colour = Wash.Ink)
    {
        for (var i = 0; i < 12; i++) sheet.Ink([Point3.Between(a, b, i / 12.0), Point3.Between(a, b, (i + 1) / 12.0)], weight, colour, 0.8);
    }

    private void Lamp(double x, double y, double h)
    {
        sheet.Shade([new(x - 500, y - 400, h - 90), new(x + 2000, y - 400, h - 90), new(x + 2000, y + 400, h - 90), new(x - 500, y + 400, h - 90)], "glow");
        sheet.Fill([new(x - 40, y - 90, h - 60), new(x + 1540, y - 90, h - 60), new(x + 1540, y + 90, h - 60), new(x - 40, y + 90, h - 60)], "#d9d6ca", 0.6);
        sheet.Fill([new(x, y - 60, h - 90), new(x + 1500, y - 60, h - 90), new(x + 1500, y + 60, h - 90), new(x, y + 60, h - 90)], "#fbf8ee", 0.8);
    }
}

namespace Archive.DemoPictures;

/// <summary>The room itself: tiled floor, walls with their windows and doors, lamps, columns.</summary>
/// <param name="shown">What is before the camera and nearer than the subject is left away.</param>
internal sealed class HallModel(Model model, DemoArchive demo, Func<Point3, bool> shown)
{
    private const double Tile = 600;
    private const double Deep = 180;
    private static readonly ColouredMaterial Cream = new(Material.Plaster, "#cfc9b8");
    private static readonly ColouredMaterial Green = new(Material.Paint, "#7c8a78");

    private readonly record struct Opening(double From, double To, double Low, double High, bool Door);

    /// <summary>South windows, as fractions of the wall: where each begins; all are as wide.</summary>
    public static IEnumerable<double> Windows => Enumerable.Range(0, 6).Select(i => 0.06 + (i * 0.16));

    public const double WindowWide = 0.11;

    public void Build()
    {
        var (w, d, h) = (demo.Walls.Width, demo.Walls.Depth, demo.Walls.Ceiling);
        Floor(w, d);
        Wall(Face.Of(new Footprint(0, -300, w, 0), new Point3(0, 1, 0)), []);
        Wall(Face.Of(new Footprint(-300, 0, 0, d), new Point3(1, 0, 0)), [new(d - 4400, d - 2600, 0, 2300, Door: true)]);
        Wall(Face.Of(new Footprint(w, 0, w + 300, d), new Point3(-1, 0, 0)), [new(6900, 7800, 0, 2040, Door: true)]);
        Wall(
            Face.Of(new Footprint(0, d, w, d + 300), new Point3(0, -1, 0)),
            [.. Windows.Select(t => new Opening(t * w, (t + WindowWide) * w, 1100, 2500, Door: false))]);
        Ceiling(w, d, h);
        foreach (var box in demo.Walls.Obstacles.Where(b => shown(b.Centre))) Column(box, h);
    }

    private void Column(Footprint box, double h)
    {
        var face = Face.Of(box, new Point3(0, 1, 0));
        model.Block(face, (0, face.Width), (0, h), (-(box.Bottom - box.Top), 0), Cream, 12);
        model.Block(face, (-1.5, face.Width + 1.5), (0, 1200), (-(box.Bottom - box.Top) - 1.5, 1.5), Green, 10);
    }

    private void Floor(double w, double d)
    {
        model.Facet(
            [new(-9000, -9000, -3), new(w + 9000, -9000, -3), new(w + 9000, d + 9000, -3), new(-9000, d + 9000, -3)],
            new ColouredMaterial(Material.Tile, "#6a655a"));
        var chance = SeededRandom.For("floor");
        for (var x = 0.0; x < w; x += Tile)
        {
            for (var y = 0.0; y < d; y += Tile)
            {
                var t = chance.Between(0, 1);
                var tile = new ColouredMaterial(Material.Tile, t > 0.8 ? "#a39b89" : t > 0.4 ? "#999180" : "#8f8878");
                model.Facet(
                    [new(x + 1, y + 1, 0), new(x + Tile - 1, y + 1, 0), new(x + Tile - 1, y + Tile - 1, 0), new(x + 1, y + Tile - 1, 0)],
                    tile);
            }
        }

        for (var i = 0; i < demo.Walls.Take.Count; i++) Tape(demo.Walls.Take[i], demo.Walls.Take[(i + 1) % demo.Walls.Take.Count]);
    }

    /// <summary>The take line: tape on the floor, scuffed where one walks.</summary>
    private void Tape(Point3 a, Point3 b)
    {
        var n = Math.Max(1, (int)((b - a).Length / 130));
        var half = Point3.Up.Cross((b - a).Unit) * 24;
        var lift = Point3.Up * 0.7;
        for (var i = 0; i < n; i++)
        {
            var (p, q) = (Point3.Between(a, b, (double)i / n) + lift, Point3.Between(a, b, (i + 1.0) / n) + lift);
            model.Facet(
                [p - half, q - half, q + half, p + half], new ColouredMaterial(Material.Plastic, i % 2 == 0 ? "#c4962a" : "#232220"));
        }
    }

    private void Wall(Face face, Opening[] openings)
    {
        // Seen from outside it would hide the room.
        model.Hides = (model.Camera.Eye - face.Origin).Dot(face.W) <= 0;
        Field(face, openings, 0, demo.Walls.Ceiling, 0, Cream);
        Field(face, openings, 110, 1200, 1.5, Green);
        Field(face, openings, 0, 110, 14, new ColouredMaterial(Material.Paint, "#4b4a44"));
        foreach (var opening in openings)
        {
            Reveal(face, opening);
            if (opening.Door) Leaf(face, opening);
            else Window(face, opening);
        }

        if (openings.Length < 2) Conduit(face);
        model.Hides = false;
    }

    /// <summary>A band of the wall, but for its openings.</summary>
    private void Field(Face face, Opening[] openings, double low, double high, double w, ColouredMaterial matter)
    {
        var u = 0.0;
        foreach (var o in openings)
        {
            Fill(u, o.From, low, high);
            Fill(o.From, o.To, low, Math.Min(high, o.Low));
            Fill(o.From, o.To, Math.Max(low, o.High), high);
            u = o.To;
        }

        Fill(u, face.Width, low, high);

        void Fill(double u0, double u1, double v0, double v1)
        {
            if (u1 > u0 && v1 > v0) model.Facet([face.At(u0, v0, w), face.At(u1, v0, w), face.At(u1, v1, w), face.At(u0, v1, w)], matter);
        }
    }

    private void Reveal(Face face, Opening o)
    {
        var white = new ColouredMaterial(Material.Paint, "#d9d5c8");
        model.Block(face, (o.From - 1, o.From), (o.Low, o.High), (-Deep, 2), white);
        model.Block(face, (o.To, o.To + 1), (o.Low, o.High), (-Deep, 2), white);
        model.Block(face, (o.From, o.To), (o.High, o.High + 1), (-Deep, 2), white);
        if (!o.Door) model.Block(face, (o.From - 40, o.To + 40), (o.Low - 30, o.Low), (-Deep, 50), white, 6);
    }

    private void Leaf(Face face, Opening o)
    {
        var paint = new ColouredMaterial(Material.Paint, "#5f6d66");
        var leaves = o.To - o.From > 1200 ? 2 : 1;
        var wide = (o.To - o.From) / leaves;
        for (var i = 0; i < leaves; i++)
        {
            var (u0, u1) = (o.From + (i * wide) + 3, o.From + ((i + 1) * wide) - 3);
            model.Block(face, (u0, u1), (8, o.High - 4), (-Deep, -Deep + 44), paint, 3);
            foreach (var (v0, v1) in new[] { (180.0, o.High * 0.45), ((o.High * 0.45) + 110, o.High - 180) })
                model.Block(face, (u0 + 110, u1 - 110), (v0, v1), (-Deep + 44, -Deep + 52), paint, 8);
            model.Tube(
                [face.At(i == 0 ? u1 - 60 : u0 + 60, 980, -Deep + 90), face.At(i == 0 ? u1 - 60 : u0 + 60, 1160, -Deep + 90)],
                22,
                new ColouredMaterial(Material.Steel, "#9a9d9a"));
        }
    }

    /// <summary>Steel bars, and beyond them the shore, the sea and an overcast sky.</summary>
    private void Window(Face face, Opening o)
    {
        var white = new ColouredMaterial(Material.Paint, "#e3e0d6");
        foreach (var u in new[] { o.From + 22, (o.From + o.To) / 2, o.To - 22 })
            model.Block(face, (u - 22, u + 22), (o.Low, o.High), (-Deep, -Deep + 46), white, 4);
        foreach (var v in new[] { o.Low + 22, 2050.0, o.High - 22 })
            model.Block(face, (o.From, o.To), (v - 22, v + 22), (-Deep, -Deep + 46), white, 4);
        var far = -2600.0;
        foreach (var (low, high, colour) in new[]
        {
            (-600.0, 1000.0, "#3d4033"), (1000.0, 1180.0, "#4b4f3e"), (1180.0, 1520.0, "#8ea3ad"), (1520.0, 2400.0, "#dfe6ea"),
            (2400.0, 4600.0, "#d3dde4")
        })
        {
            model.Facet([
                face.At(o.From - 1900, low, far),
                face.At(o.To + 1900, low, far),
                face.At(o.To + 1900, high, far),
                face.At(o.From - 1900, high, far)
            ], new ColouredMaterial(Material.Glow, colour));
        }
    }

    /// <summary>Conduit along a wall, with the boxes it runs to.</summary>
    private void Conduit(Face face)
    {
        var grey = new ColouredMaterial(Material.Paint, "#aaa79a");
        foreach (var z in new[] { 2950.0, 3010, 3240 }) model.Tube([face.At(0, z, 20), face.At(face.Width, z, 20)], 26, grey);
        var chance = SeededRandom.For($"conduit {face.Origin.X} {face.Origin.Y}");
        for (var t = 0.07; t < 0.96; t += chance.Between(0.1, 0.2))
        {
            var u = face.Width * t;
            model.Tube([face.At(u, 1500, 16), face.At(u, 2950, 16)], 22, grey);
            foreach (var (low, high) in new[] { (1380.0, 1520.0), (2900.0, 3040.0) })
                model.Block(face, (u - 75, u + 75), (low, high), (0, 60), new ColouredMaterial(Material.Paint, "#b9b6aa"), 4);
        }
    }

    private void Ceiling(double w, double d, double h)
    {
        model.Hides = model.Camera.Eye.Z >= h;
        model.Facet([new(0, 0, h), new(w, 0, h), new(w, d, h), new(0, d, h)], new ColouredMaterial(Material.Plaster, "#d6d2c4"));
        for (var x = 2250.0; x < w; x += 3000)
        {
            var beam = Face.Of(new Footprint(x + 600, 0, x + 850, d), new Point3(1, 0, 0));
            model.Block(beam, (0, d), (h - 160, h), (-250, 0), new ColouredMaterial(Material.Plaster, "#cfcbbd"), 8);
        }

        model.Hides = false;
        foreach (var lamp in Lamp.Fluorescents(demo)) Fitting(lamp, h);
    }

    /// <summary>Two tubes under a white trough; some are dark.</summary>
    private void Fitting(Lamp lamp, double h)
    {
        var face = new Face(lamp.At + new Point3(-770, 0, 0) with { Z = 0 }, new Point3(1, 0, 0), new Point3(0, -1, 0), 1540);
        model.Block(face, (0, 1540), (h - 60, h), (-90, 90), new ColouredMaterial(Material.Paint, "#d9d6ca"), 4);
        foreach (var w in new[] { -38, 38 }) model.Tube(
            [face.At(30, h - 78, w), face.At(1510, h - 78, w)],
            26,
            lamp.Watts > 0 ? new ColouredMaterial(Material.Glow, "#fff6e6") : new ColouredMaterial(Material.Paper, "#d8d5cb"));
    }
}

namespace Archive.DemoPictures;

/// <summary>
/// What a survey leaves lying about: tools, coils, cartons, clipboards, the ladder. None of it is recorded, so it is where nothing recorded
/// is hidden: low and before the subject, or beside it.
/// </summary>
internal sealed class Clutter(Model model)
{
    /// <summary>Strews a few things along a line on the floor.</summary>
    /// <param name="from">Left end of the line, on the floor.</param>
    /// <param name="to">Right end.</param>
    /// <param name="toward">Level direction towards anyone who looks.</param>
    /// <param name="name">What chance hangs on.</param>
    public void Strew(Point3 from, Point3 to, Point3 toward, string name)
    {
        var chance = SeededRandom.For("clutter " + name);
        var along = (to - from).Unit;
        var reach = (to - from).Length;
        // Before a single frame only what is flat: the frame is what the picture is for.
        Action<Face>[] things = reach > 1500 ? [Toolbox, Coil, Carton, Board, Torch, Crate] : [Coil, Board, Torch, Reel];
        var first = (int)chance.Between(0, things.Length);
        var count = reach > 2500 ? 5 : (int)chance.Between(0.6, 2.99);
        for (var i = 0; i < count; i++)
        {
            var at = from + (along * (reach * ((i + chance.Between(0.1, 0.8)) / count))) + (toward * chance.Between(260, 820));
            things[(first + i) % things.Length](Turned(at, along, toward, chance.Between(-0.4, 0.4)));
        }

        if (reach > 2500) StepLadder(Turned(to + (along * 520) - (toward * 250), along, toward, -0.25));
    }

    /// <summary>A chair, for anyone who sat there.</summary>
    public void Chair(Point3 at, Point3 along, Point3 toward)
    {
        var face = Turned(at, along, toward, 0.35);
        var (steel, seat) = (new ColouredMaterial(Material.Steel, "#6d7072"), new ColouredMaterial(Material.Sheath, "#4a3a2c"));
        for (var i = 0; i < 5; i++)
        {
            var angle = (Math.Tau * i / 5) + 0.3;
            Point3 foot = face.At(300 * Math.Cos(angle), 60, 300 * Math.Sin(angle));
            model.Tube([face.At(0, 95), foot], 30, steel);
            model.Turn(foot
                - (Point3.Up * 60), Point3.Up, new ColouredMaterial(Material.Plastic, "#1a1b1d"), (20, 0), (25, 12), (25, 40), (14, 50));
        }

        model.Turn(face.At(0, 80), Point3.Up, steel, (26, 0), (26, 180), (15, 182), (15, 350));
        model.Block(face, (-220, 220), (430, 495), (-210, 210), seat, 22);
        model.Tube(Curve.Rounded([face.At(0, 440, 120), face.At(0, 440, 270), face.At(0, 700, 255)], 60), 28, steel);
        model.Block(face, (-200, 200), (640, 960), (215, 262), seat, 20);
    }

    /// <summary>The step ladder, opened.</summary>
    public void StepLadder(Face face)
    {
        var alloy = new ColouredMaterial(Material.Steel, "#b9bcba");
        foreach (var u in new[] { -230, 230 })
        {
            model.Tube([face.At(u * 1.2, 0, 420), face.At(u, 1650, 30)], 34, alloy);
            model.Tube([face.At(u * 1.2, 0, -420), face.At(u, 1630, -30)], 26, alloy);
            model.Tube([face.At(u * 1.1, 700, 240), face.At(u * 1.1, 700, -240)], 9, new ColouredMaterial(Material.Sheath, "#8a2f24"));
        }

        for (var v = 260.0; v < 1600; v += 260)
        {
            var (w, half) = (420 - (v * 0.237), 276 - (v * 0.028));
            model.Block(face, (-half, half), (v - 12, v + 12), (w - 45, w + 45), alloy, 3);
        }

        model.Block(face, (-235, 235), (1640, 1668), (-90, 90), new ColouredMaterial(Material.Plastic, "#8a2f24"), 6);
    }

    /// <summary>A torch, left on.</summary>
    public void Torch(Face face)
    {
        var black = new ColouredMaterial(Material.Plastic, "#1a1b1d");
        model.Turn(face.At(-90, 22), face.U, black, (17, 0), (18, 4), (18, 140), (22, 150), (27, 170), (27, 190), (24, 192));
        model.Turn(face.At(-90, 22), face.U, new ColouredMaterial(Material.Glass, "#d9dcd8"), (23, 191), (18, 193));
        model.Turn(face.At(0, 40), Point3.Up, new ColouredMaterial(Material.Plastic, "#8a2f24"), (6, 0), (5, 3));
    }

    private static Face Turned(Point3 at, Point3 along, Point3 toward, double angle)
    {
        var (cos, sin) = (Math.Cos(angle), Math.Sin(angle));
        return new Face(at, (along * cos) + (toward * sin), (toward * cos) - (along * sin), 0);
    }

    private void Toolbox(Face face)
    {
        var red = new ColouredMaterial(Material.Paint, "#7e2a1f");
        model.Block(face, (-230, 230), (0, 185), (-105, 105), red, 5);
        model.Block(face, (-226, 226), (187, 214), (-101, 101), red, 8);
        model.Tube(
            Curve.Rounded([face.At(-90, 212), face.At(-90, 262), face.At(90, 262), face.At(90, 212)], 25),
            16,
            new ColouredMaterial(Material.Plastic, "#1a1b1d"));
        foreach (var u in new[] { -150, 150 })
            model.Block(face, (u - 16, u + 16), (150, 205), (105, 111), new ColouredMaterial(Material.Steel, "#b9bcba"), 2);
    }

    private void Carton(Face face)
    {
        var board = new ColouredMaterial(Material.Paper, "#96764a");
        foreach (var (u, w) in new[]
        {
            ((-200.0, 200.0), (-160.0, -155.0)),
            ((-200, 200), (155, 160)),
            ((-200, -195), (-155, 155)),
            ((195, 200), (-155, 155))
        }) model.Block(face, u, (0, 280), w, board);
        model.Facet(
            [face.At(-198, 60, -158), face.At(198, 60, -158), face.At(198, 60, 158), face.At(-198, 60, 158)],
            new ColouredMaterial(Material.Plastic, "#2b2c2e"));
        model.Facet([face.At(-200, 280, 160), face.At(200, 280, 160), face.At(188, 236, 300), face.At(-206, 240, 300)], board);
        model.Facet([face.At(-200, 280, -160), face.At(200, 280, -160), face.At(190, 330, -290), face.At(-195, 322, -290)], board);
        model.Facet([face.At(-200, 280, -155), face.At(-200, 280, 155), face.At(-330, 310, 150), face.At(-326, 316, -150)], board);
        for (var i = 0; i < 7; i++) model.Tube(Curve.Rounded([
            face.At(-150 + (i * 44), 70, -120),
            face.At(-140 + (i * 44), 210 + (i % 3 * 40), -40),
            face.At(-120 + (i * 40), 200, 60),
            face.At(-150 + (i * 44), 70, 120)
        ], 60), 9, new ColouredMaterial(Material.Sheath, i % 2 == 0 ? "#1d1e20" : "#c9c4b4"));
        model.WriteCentred("SLEEVES", face.At(0, 180, 160.4), face.U, Point3.Up, 34, "#3c2e1b");
    }

    private void Crate(Face face)
    {
        var wood = new ColouredMaterial(Material.Wood, "#a58a5e");
        for (var i = 0; i < 4; i++)
        {
            foreach (var w in new[] { (-190.0, -172.0), (172.0, 190.0) })
                model.Block(face, (-300, 300), (20 + (i * 78), 88 + (i * 78)), w, wood, 2);
            foreach (var u in new[] { (-318.0, -300.0), (300.0, 318.0) })
                model.Block(face, u, (20 + (i * 78), 88 + (i * 78)), (-190, 190), wood, 2);
        }

        model.Block(face, (-300, 300), (8, 20), (-190, 190), wood);
        foreach (var u in new[] { -285, 255 }) model.Block(face, (u, u + 30), (0, 326), (190, 206), wood, 2);
    }

    private void Coil(Face face)
    {
        var chance = SeededRandom.For($"coil {face.Origin.X:0}");
        for (var turn = 0; turn < 11; turn++)
        {
            var (radius, lift) = (chance.Between(185, 240), 9 + (turn * 7.5));
            var (du, dw) = (chance.Between(-14, 14), chance.Between(-14, 14));
            model.Tube([.. Enumerable.Range(0, 49).Select(i => Math.Tau * i / 48).Select(a => face.At(
                du + (radius * Math.Cos(a)),
                lift + (4 * Math.Sin(a * 2)),
                dw + (radius * Math.Sin(a))))], 15, new ColouredMaterial(Material.Sheath, "#1d1e20"));
        }

        foreach (var a in new[] { 0.4, 2.5, 4.4 })
        {
            model.Tube(
                Curve.Rounded([Rim(172, 6), Rim(172, 98), Rim(255, 98), Rim(255, 6)], 20),
                6,
                new ColouredMaterial(Material.Plastic, "#d2cdbb"));
            Point3 Rim(double r, double v) => face.At(r * Math.Cos(a), v, r * Math.Sin(a));
        }
    }

    /// <summary>A roll of tape with its end loose.</summary>
    private void Reel(Face face) => model.Turn(
        face.At(0, 0), Point3.Up, new ColouredMaterial(Material.Plastic, "#c4962a"), (38, 0), (62, 0), (62, 48), (38, 48), (38, 2));

    /// <summary>A clipboard with the sheet of the day, and a pencil.</summary>
    private void Board(Face face)
    {
        model.Block(face, (-120, 120), (0, 5), (-165, 165), new ColouredMaterial(Material.Wood, "#6a4d2c"), 1.5);
        Point3 On(double x, double y) => face.At(x, 5.6, -y);
        model.Facet([On(-105, -150), On(105, -150), On(105, 140), On(-105, 140)], new ColouredMaterial(Material.Paper, "#e6e1d2"));
        var chance = SeededRandom.For($"board {face.Origin.X:0}");
        for (var y = 120.0; y > -130; y -= 15)
            model.Write(new string('N', (int)chance.Between(6, 24)), On(-92, y), face.U, face.W * -1, 5, "#3d4661");
        model.Block(face, (-46, 46), (5, 16), (-168, -140), new ColouredMaterial(Material.Steel, "#b9bcba"), 4);
        model.Tube([face.At(20, 10, 120), face.At(104, 10, -10)], 7.5, new ColouredMaterial(Material.Wood, "#b78a2c"));
    }
}

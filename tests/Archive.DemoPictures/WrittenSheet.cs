namespace Archive.DemoPictures;

/// <summary>
/// Written sheets with names that the record covers: the circuits inside the door of the landline frame, the roster on the supervisor's
/// desk.
/// </summary>
internal static class WrittenSheet
{
    private static readonly (string Circuit, string Line, string Name)[] Circuits =
    [
        ("1", "TX 1-3 4-WIRE", "TRANSMITTING SITE"), ("2", "TX 4-6 4-WIRE", "TRANSMITTING SITE"), ("3", "TX KEYING", "TRANSMITTING SITE"),
        ("4", "SUBS 2-WIRE", "MRS A. PELLOWAY"), ("5", "SUBS 2-WIRE", "DR F. OXTABY"), ("6", "SUBS 2-WIRE", "HARBOUR M., HOME"),
        ("7", "SUBS 2-WIRE", "L'BOAT COX, HOME"), ("8", "HEADLAND N", "VHF SITE 1"), ("9", "HEADLAND E", "VHF SITE 2"),
        ("10", "HEADLAND S", "VHF SITE 3"), ("11", "HEADLAND W", "VHF SITE 4"), ("12", "SPARE", string.Empty),
    ];

    private static readonly (string Circuit, string Line, string Name)[] Roster =
    [
        ("1", "MORNING", "T. ASKERBY  4471"), ("2", "MORNING", "W. SORLEIGH  4480"), ("3", "AFTERNOON", "N. FENBRIDGE  512"),
        ("4", "AFTERNOON", "T. ASKERBY  4471"), ("5", "NIGHT", "H. COLWARREN  4502"), ("6", "NIGHT", "N. FENBRIDGE  512"),
        ("7", "LEAVE", "R. DUNMALLOW"), ("8", "RELIEF", "J. PENSHAW  4466"), ("9", "TECHNICIAN", "W. SORLEIGH  4480"),
        ("10", "TECHNICIAN", "W. SORLEIGH  4480"), ("11", "CLOSING WATCH", "ALL"), ("12", string.Empty, string.Empty),
    ];

    /// <summary>Left, top, width and height of the names, as fractions of the picture.</summary>
    public static double[] Names(Camera camera)
    {
        Pixel[] corners =
            [.. new[] { (0.0, 680.0), (240, 680), (0, 240), (240, 240) }.Select(at => camera.Project(On(at.Item1, at.Item2)))];
        var (left, top) = (corners.Min(p => p.X), corners.Min(p => p.Y));
        var (w, h) = (camera.Frame.Width, camera.Frame.Height);
        return [left / w, top / h, (corners.Max(p => p.X) - left) / w, (corners.Max(p => p.Y) - top) / h];
    }

    public static Scene Set(Shot shot)
    {
        var isRoster = shot.Shows[0].StartsWith("OP", StringComparison.Ordinal);
        var (entries, title) = isRoster ? (Roster, "roster, November") : (Circuits, "circuits");
        var eye = new Point3(-35, 1010, 560);
        var model = new Model(Camera.Tilted(eye, new Point3(20, 0, 470), 1010 * 2.4, new Frame(2000, 1500)));
        Ground(model, isRoster);
        Paper(model);
        model.Write($"{shot.Shows[0]}  {title}", On(-230, 706), new Point3(1, 0, 0), Point3.Up, 19, Palette.Ink);
        Rule(model, (-235, 694), (235, 694), 1.6, "#3a3a3e");
        for (var i = 0; i < entries.Length; i++)
        {
            var z = 658 - (i * 35.5);
            var (circuit, line, name) = entries[i];
            foreach (var (text, x, colour) in new[] { (circuit, -230.0, Palette.Ink), (line, -180, "#2f3b56"), (name, 8, "#2f3b56") })
                model.Write(text, On(x, z), new Point3(1, 0, 0), Point3.Up, 12, colour);
            Rule(model, (-235, z - 10), (235, z - 10), 0.7, "#a89b7d");
        }

        foreach (var x in new[] { -192.0, -6 }) Rule(model, (x, 694), (x, 250), 0.7, "#a89b7d");
        var window = new Lamp(new Point3(-1500, 1300, 1500), new Point3(1500, -1200, -1000), 900, 1300, 120, "#dfeaff");
        var tube = new Lamp(new Point3(500, 900, 1900), new Point3(-300, -700, -1300), 1200, 120, 22, "#fff3da");
        return new Scene(model, [window, tube], 1.2);
    }

    private static Point3 On(double x, double z) => new(x, 7.3, z);

    /// <summary>What the sheet is fixed to: the inside of a door, or a desk top, from above, under its glass.</summary>
    private static void Ground(Model model, bool isDesk)
    {
        var plane = new Face(default, new Point3(1, 0, 0), new Point3(0, 1, 0), 0);
        model.Block(
            plane,
            (-1400, 1400),
            (-900, 1900),
            (-30, 0),
            isDesk ? new ColouredMaterial(Material.Wood, "#7d6040") : new ColouredMaterial(Material.Paint, "#838b82"));
        if (isDesk)
        {
            model.Tube([new Point3(330, 14, 250), new Point3(372, 14, 420)], 8, new ColouredMaterial(Material.Wood, "#b78a2c"));
            model.Turn(new Point3(-420, 0, 640), plane.W, new ColouredMaterial(
                Material.Paint, "#d9d6cb"), (34, 0), (41, 10), (41, 92), (37, 94), (36, 20), (0.1, 20));
            return;
        }

        foreach (var u in new[] { -360, 330 })
            model.Block(plane, (u, u + 30), (-900, 1900), (0, 22), new ColouredMaterial(Material.Paint, "#7a8279"), 3);
        model.Tube(
            Curve.Rounded([new Point3(-330, 16, 1200), new Point3(-318, 16, 500), new Point3(-322, 16, -300)], 300),
            9,
            new ColouredMaterial(Material.Sheath, "#9c968a"));
        foreach (var (x, z) in new[] { (-258.0, 748.0), (258.0, 748.0), (-258.0, 237.0), (258.0, 237.0) })
            model.Turn(On(x, z), plane.W, new ColouredMaterial(Material.Brass, Palette.Brass), (7, 0), (7, 1.5), (5, 3));
    }

    /// <summary>A sheet whose lower edge curls, with an old fold across it.</summary>
    private static void Paper(Model model)
    {
        var paper = new ColouredMaterial(Material.Paper, "#e2d8bf");
        Point3 At(double x, double z, double y) => new(x, y, z);
        model.Facet([At(-270, 240, 6.6), At(270, 240, 6.6), At(270, 760, 6.6), At(-270, 760, 6.6)], paper);
        for (var k = 0; k < 6; k++)
        {
            var (a, b) = (k / 6.0, (k + 1) / 6.0);
            model.Facet([
                At(-270, 240 - (a * 26), 6.6 + (a * a * 14)),
                At(270, 240 - (a * 30), 6.6 + (a * a * 22)),
                At(270, 240 - (b * 30), 6.6 + (b * b * 22)),
                At(-270, 240 - (b * 26), 6.6 + (b * b * 14))
            ], paper);
        }
    }

    private static void Rule(Model model, (double X, double Z) a, (double X, double Z) b, double wide, string colour)
    {
        var (p, q) = (On(a.X, a.Z), On(b.X, b.Z));
        var half = (q - p).Unit.Cross(new Point3(0, 1, 0)) * (wide / 2);
        model.Facet([p - half, q - half, q + half, p + half], new ColouredMaterial(Material.Print, colour));
    }
}

namespace Archive.DemoPictures;

/// <summary>What is not a rack of panels: desks, the battery stand, and the small hardware that all have.</summary>
internal sealed class Furniture(Model model)
{
    /// <summary>A slotted screw, its slot as it came to rest.</summary>
    public static void Screw(Model model, Face face, double u, double v, double w)
    {
        if (model.Camera.Detail(face.At(u, v, w)) < 0.25) return;
        model.Turn(face.At(u, v, w), face.W, new ColouredMaterial(Material.Steel, "#a8aaa6"), (4.2, 0), (4.2, 1.2), (3, 2));
        var a = Math.PI * (((u * 7) + (v * 13)) % 17) / 17;
        var (du, dv) = (Math.Cos(a), Math.Sin(a));
        model.Facet([At(-3, -0.5), At(3, -0.5), At(3, 0.5), At(-3, 0.5)], new ColouredMaterial(Material.Plastic, "#202224"));

        Point3 At(double x, double y) => face.At(u + (x * du) - (y * dv), v + (x * dv) + (y * du), w + 2.1);
    }

    /// <summary>A hexagon bolt on its washer.</summary>
    public static void Bolt(Model model, Point3 at, Point3 axis, double radius)
    {
        model.Turn(at, axis, new ColouredMaterial(Material.Steel, "#a8aaa6"), (radius * 1.35, 0), (radius * 1.35, 1.4));
        model.Turn(at, axis, new ColouredMaterial(Material.Brass, Palette.Brass), (radius, 1.4), (radius, 5), (radius * 0.8, 6.2));
    }

    /// <summary>The desk of a console, with what lay on it on the last day.</summary>
    public void Desk(Face face)
    {
        const double deep = 430;
        var wood = new ColouredMaterial(Material.Wood, "#8a6e4c");
        model.Block(face, (-10, face.Width + 10), (728, 760), (0, deep), wood, 3);
        foreach (var u in new[] { 8.0, face.Width - 48 })
            model.Block(face, (u, u + 40), (0, 728), (4, deep - 60), new ColouredMaterial(Material.Paint, "#7d827c"), 2);
        Key(face, face.Width * 0.68);
        Pad(face, 420, 250, 0.06);
        Handset(face, face.Width * 0.33);
        model.Turn(face.At(face.Width * 0.82, 760, 300), Point3.Up, new ColouredMaterial(
            Material.Paint, "#d9d6cb"), (38, 0), (41, 8), (41, 88), (37, 90), (36, 20), (0.1, 20));
    }

    /// <summary>Twelve cells of glass in two rows on a wooden stand, their posts linked in series.</summary>
    public void Cells(Face face, Rack rack)
    {
        var wood = new ColouredMaterial(Material.Wood, "#6a563c");
        foreach (var u in new[] { 0.0, face.Width / 2 - 35, face.Width - 70 })
        {
            model.Block(face, (u, u + 70), (0, 1060), (-70, 0), wood, 3);
            model.Block(face, (u, u + 70), (0, 1060), (-560, -490), wood, 3);
        }

        foreach (var (v0, n) in new[] { (140.0, 6), (640.0, 6) })
        {
            model.Block(face, (-20, face.Width + 20), (v0 - 60, v0), (-580, 20), wood, 3);
            var pitch = (face.Width - 80) / n;
            for (var i = 0; i < n; i++) Cell(face, 40 + (i * pitch), pitch - 18, v0);
            for (var i = 0; i + 1 < n; i++)
            {
                var (a, b) = (40 + ((i + 1) * pitch) - 50, 40 + ((i + 1) * pitch) + 32);
                model.Block(face, (a - 12, b + 12), (v0 + 356, v0 + 366), (-272, -240), new ColouredMaterial(Material.Steel, "#7c7f82"), 2);
            }
        }

        model.Block(
            face,
            ((face.Width / 2) - 110, (face.Width / 2) + 110),
            (40, 100),
            (18, 24),
            new ColouredMaterial(Material.Paint, "#2b2d2f"),
            2);
        model.WriteCentred(rack.Id, face.At(face.Width / 2, 70, 24), face.U, Point3.Up, 34, "#efe9d8");
    }

    private void Cell(Face face, double u, double wide, double v)
    {
        var lead = new ColouredMaterial(Material.Steel, "#6d7276");
        model.Block(face, (u, u + wide), (v + 4, v + 300), (-510, -6), new ColouredMaterial(Material.Glass, "#8f9f97"), 5);
        // The plates show dark through the jar.
        for (var k = 0; k < 9; k++) model.Block(
            face,
            (u + 16 + (k * (wide - 36) / 8), u + 23 + (k * (wide - 36) / 8)),
            (v + 30, v + 262),
            (-500, -5.5),
            k % 2 == 0 ? new ColouredMaterial(Material.Glass, "#4f463d") : new ColouredMaterial(Material.Glass, "#63706c"));
        model.Block(face, (u - 3, u + wide + 3), (v + 300, v + 326), (-514, -2), new ColouredMaterial(Material.Plastic, "#3a3d40"), 4);
        foreach (var at in new[] { u + 40, u + wide - 40 })
            model.Turn(face.At(at, v + 326, -256), Point3.Up, lead, (15, 0), (15, 30), (11, 42));
        model.Turn(
            face.At(u + (wide / 2), v + 326, -200),
            Point3.Up,
            new ColouredMaterial(Material.Plastic, "#8b3a2e"),
            (19, 0),
            (19, 12),
            (12, 20));
    }

    /// <summary>A telegraph key on its board.</summary>
    private void Key(Face face, double u)
    {
        var brass = new ColouredMaterial(Material.Brass, Palette.Brass);
        model.Block(face, (u, u + 110), (760, 776), (130, 240), new ColouredMaterial(Material.Wood, "#3a2c20"), 3);
        model.Tube([face.At(u + 24, 796, 175), face.At(u + 98, 800, 178)], 9, brass);
        foreach (var du in new[] { 44, 92 }) model.Turn(face.At(u + du, 776, 177), Point3.Up, brass, (7, 0), (7, 18), (4, 26));
        model.Turn(
            face.At(u + 20, 797, 175), Point3.Up, new ColouredMaterial(Material.Plastic, "#17181a"), (4, 0), (13, 8), (15, 12), (11, 17));
    }

    /// <summary>A pad of forms, a sheet askew on it, and a pencil.</summary>
    private void Pad(Face face, double u, double w, double askew)
    {
        model.Block(face, (u, u + 230), (760, 769), (w - 170, w + 140), new ColouredMaterial(Material.Paper, "#d8d2bf"));
        Point3 On(double x, double y) => face.At(u + 8 + x + (y * askew), 770, w + 130 - y + (x * askew));
        model.Facet([On(0, 0), On(210, 0), On(210, 290), On(0, 290)], new ColouredMaterial(Material.Paper, "#ece8dc"));
        var chance = SeededRandom.For($"pad {u:0}");
        for (var y = 30; y < 270; y += 17)
        {
            if (y > 160 && chance.Between(0, 1) < 0.5) continue;
            for (var x = 14.0; x < chance.Between(90, 195); x += chance.Between(9, 24))
                model.Write("NUMW", On(x, y) + (Point3.Up * 0.3), face.U * 0.5, face.W * -1, 3.4, "#3d4661");
        }

        model.Tube([face.At(u + 150, 775, w - 60), face.At(u + 268, 764, w + 30)], 7.5, new ColouredMaterial(Material.Wood, "#b78a2c"));
    }

    private void Handset(Face face, double u)
    {
        var black = new ColouredMaterial(Material.Plastic, "#1b1c1e");
        model.Block(face, (u, u + 150), (760, 800), (90, 270), black, 12);
        model.Tube(Curve.Rounded(
            [face.At(u - 20, 812, 180), face.At(u - 10, 836, 180), face.At(u + 160, 836, 180), face.At(u + 170, 812, 180)], 30), 26, black);
        foreach (var du in new[] { -20, 170 }) model.Turn(face.At(u + du, 796, 180), Point3.Up, black, (26, 0), (28, 8), (24, 24));
        var coil = Enumerable.Range(0, 120)
            .Select(i => face.At(u - 30 - (i * 0.9) + (6 * Math.Cos(i * 1.2)), 768 + (6 * Math.Sin(i * 1.2)), 150 - (i * 0.6)))
            .ToArray();
        model.Tube(coil, 4, black);
    }
}

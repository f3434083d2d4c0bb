namespace Archive.DemoPictures;

/// <summary>The rear of a frame: plates with their jacks, and on each recorded cable its plug and its label.</summary>
internal sealed class RearFace(Model model, DemoArchive demo)
{
    private static readonly ColouredMaterial Dark = new(Material.Plastic, "#1a1b1d");

    public void Build(Face face, Rack rack, string tone)
    {
        foreach (var u in new[] { 12.0, face.Width - 12 }) Ladder(face, u, rack.Height);
        foreach (var panel in rack.Panels) Plate(face, panel, tone);
        model.Block(
            face,
            (40, face.Width - 40),
            (rack.Height - 56, rack.Height - 14),
            (-4, 0),
            new ColouredMaterial(Material.Paint, "#cfcab9"),
            1.5);
        model.WriteCentred(rack.Id, face.At(face.Width / 2, rack.Height - 35), face.U, Point3.Up, 26, Palette.Ink);
        foreach (var rear in RearRun.All(demo, face, rack))
        {
            Plug(rear);
            Label(rear);
        }
    }

    private void Ladder(Face face, double u, double height)
    {
        var steel = new ColouredMaterial(Material.Steel, "#8d9290");
        model.Block(face, (u - 8, u + 8), (40, height - 20), (0, 6), steel, 1.5);
        for (var v = 120.0; v < height - 60; v += 150) model.Tube([face.At(u - 16, v, 10), face.At(u + 16, v, 10)], 7, steel);
    }

    private void Plate(Face face, Panel panel, string tone)
    {
        if (panel.Id == "EB")
        {
            model.Block(
                face,
                (70, face.Width - 70),
                (panel.FromFloor + 14, panel.Top - 14),
                (-2, 4),
                new ColouredMaterial(Material.Brass, Palette.Copper),
                1);
            for (var u = 95.0; u < face.Width - 90; u += 48) Furniture.Bolt(model, face.At(u, panel.Middle, 4), face.W, 6);
            return;
        }

        var metal = Palette.Mix(tone, "#a9aca8", 0.6);
        model.Block(face, (52, face.Width - 52), (panel.FromFloor, panel.Top), (-12, 0), new ColouredMaterial(Material.Paint, metal), 1.4);
        model.Block(face, (58, 96), (panel.Top - 20, panel.Top - 4), (0, 1.2), Dark, 0.5);
        model.WriteCentred(panel.Id, face.At(77, panel.Top - 12, 1.2), face.U, Point3.Up, 8.5, "#f2efe6");
        model.Write(Instruments.Short(panel.Holds), face.At(106, panel.Top - 16), face.U, Point3.Up, 7.5, "#2a2c30");
        Fittings(face, panel);
        foreach (var port in panel.Ports) Jack(face, panel, port);
    }

    /// <summary>What fills the rest of a rear plate: screws, a rating plate, and a perforated field where there is room.</summary>
    private void Fittings(Face face, Panel panel)
    {
        foreach (var u in new[] { 62.0, face.Width - 62 })
        {
            foreach (var v in new[] { panel.FromFloor + 12, panel.Top - 28 }) Furniture.Screw(model, face, u, v, 0);
        }

        if (panel.Height < 120) return;
        var (low, right) = (panel.FromFloor + 12, face.Width - 80);
        model.Block(face, (right - 64, right), (low, low + 26), (0, 0.8), new ColouredMaterial(Material.Brass, "#b9ad8a"), 0.3);
        var chance = SeededRandom.For(panel.Holds + panel.Id);
        foreach (var (row, text) in new[] { "SERIAL", $"{chance.Between(1000, 9999):0}", "24 V" }.Index())
            model.Write(text, face.At(right - 60, low + 18 - (row * 7.5), 0.8), face.U, Point3.Up, 4, "#4a4436");
        if (panel.Ports.Count > 8 || model.Camera.Detail(face.At(face.Width / 2, low)) < 0.3) return;
        for (var u = 96.0; u < right - 90; u += 11)
        {
            for (var v = low; v < panel.FromFloor + (panel.Height * 0.32); v += 10)
                model.Turn(face.At(u, v), face.W, new ColouredMaterial(Material.Plastic, "#0c0d0e"), (2.5, 0), (2.5, 0.2));
        }
    }

    private void Jack(Face face, Panel panel, string port)
    {
        var (u, v) = RearRun.Port(face, panel, port);
        if (port[0] is 'T' or 'B' or 'L')
        {
            model.Block(face, (u - 16, u + 16), (v - 12, v + 12), (0, 9), Dark, 1.5);
            foreach (var du in new[] { -7, 7 })
                model.Turn(face.At(u + du, v, 9), face.W, new ColouredMaterial(Material.Brass, Palette.Brass), (5, 0), (5, 2), (4, 3));
        }
        else
        {
            model.Turn(face.At(u, v), face.W, new ColouredMaterial(
                Material.Steel, "#b4b7b3"), (8, 0), (8, 2.4), (7.4, 3), (5.6, 3), (5.6, 9), (4.2, 9), (4, 5), (3.2, 4.6));
            model.Turn(face.At(u, v), face.W, Dark, (3.2, 7.6), (3.1, 8));
        }

        model.WriteCentred(port, face.At(u, v + 15), face.U, Point3.Up, 5, "#1f2125");
    }

    /// <summary>
    /// A barrel on the jack, a knurled ring round it, and the strain relief behind; on a terminal, a lug under its screw.
    /// </summary>
    private void Plug(RearRun rear)
    {
        var (d, w) = (demo.Diameter(rear.Run), rear.Face.W);
        var brass = rear.Run.Kind is "feeder-twin" or "busbar-link" or "earth-bond" or "earth-main";
        var metal = brass ? new ColouredMaterial(Material.Brass, Palette.Brass) : new ColouredMaterial(Material.Steel, "#b9bbb7");
        var r = Math.Max(6.4, d * 0.62);
        model.Turn(
            rear.Line[0] - (w * 4), w, metal,
            (r, 0), (r, 5), (r * 1.07, 5.4), (r * 1.16, 6), (r * 1.16, 7), (r * 1.1, 7.4), (r * 1.1, 7.8), (r * 1.16, 8.2), (r * 1.16, 9.2),
            (r * 1.1, 9.6), (r * 1.1, 10), (r * 1.16, 10.4), (r * 1.16, 11.4), (r * 1.07, 12), (r, 12.4), (r * 0.95, 15), (r * 0.82, 16));
        // The boot closes on the cable, which bends only behind it.
        model.Turn(
            rear.Line[0] - (w * 4), w, Dark,
            (Math.Max(d * 0.62, r * 0.76), 16), (Math.Max(d * 0.6, r * 0.7), 18), (d * 0.58, 21), (d * 0.55, 23.5), (d * 0.5, 24.2));
    }

    /// <summary>The label near the end: a black sleeve, a brass tag, or a card, as the kind of cable has it.</summary>
    private void Label(RearRun rear)
    {
        var (run, (a, b)) = (rear.Run, rear.Sleeve);
        var (u, v) = ((b - a).Unit, Point3.Up);
        var d = demo.Diameter(run);
        var thick = Math.Max(7.4, d + 1.2);
        if (rear.End.Tag is { Length: > 0 } tag)
            Tag(rear, tag, a + (rear.Face.W * ((d * 0.5) + 3)) - (v * (run.Label is null ? 9 : 13 + (thick / 2))), u);
        if (run.Label is { } label) Sleeve.Build(model, [a, b], v, rear.Face.W, thick, label);
    }

    private void Tag(RearRun rear, string text, Point3 foot, Point3 u)
    {
        var width = Math.Max(26, StrokeFont.Width(text, 4.4) + 11);
        var matter = rear.Run.Kind is "feeder-twin" or "earth-bond" or "earth-main"
            ? new ColouredMaterial(Material.Brass, "#c29a52")
            : new ColouredMaterial(Material.Paper, "#e6dfcc");
        var plane = new Face(foot, u, rear.Face.W, width);
        model.Block(plane, (0, width), (0, 10.5), (0, 1), matter, 0.4);
        model.Turn(plane.At(3.2, 5.2, 1), rear.Face.W, Dark, (1.3, 0), (1.3, 0.2));
        // Tied on with waxed thread.
        model.Tube(
            [plane.At(3.2, 5.2, 1.5), plane.At(2, 12, 2), plane.At(1, 16, -6)], 0.9, new ColouredMaterial(Material.Sheath, "#b9a06a"));
        model.Write(text, plane.At(7.5, 3, 1), u, Point3.Up, 4.4, "#22180f");
    }
}

namespace Archive.DemoPictures;

/// <summary>The front of a frame: uprights, name plate, and a panel for each position with what it holds.</summary>
internal sealed class FrontFace(Model model)
{
    /// <summary>How far a panel stands out from the uprights.</summary>
    public const double Proud = 4;

    private const double Upright = 34;
    private readonly Instruments _instruments = new(model);
    private readonly Furniture _furniture = new(model);

    public void Build(Face face, Rack rack, string tone)
    {
        if (rack.Id == "PW-04")
        {
            _furniture.Cells(face, rack);
            return;
        }

        Opening(face, rack, tone);
        if (rack.Id.StartsWith("OP", StringComparison.Ordinal)) _furniture.Desk(face);
        foreach (var panel in rack.Panels) Build(face, rack, panel);
        NamePlate(face, rack);
    }

    private void Opening(Face face, Rack rack, string tone)
    {
        var (w, h) = (face.Width, rack.Height);
        foreach (var u in new[] { 18.0, w - Upright })
        {
            model.Block(face, (u, u + Upright - 18), (40, h - 20), (-30, 0), new ColouredMaterial(Material.Steel, "#8d9290"), 1);
            for (var v = 90.0; v < h - 60 && model.Camera.Detail(face.At(u, v)) > 0.35; v += 44)
                model.Turn(face.At(u + 8, v), face.W, new ColouredMaterial(Material.Plastic, "#141516"), (3.2, 0), (3.2, 0.4));
        }

        foreach (var (v0, v1) in Gaps(rack, 44, h - PlateHeight(rack) - 4)) Blank(face, v0, v1, Palette.Darker(tone, 0.1));
    }

    private static IEnumerable<(double From, double To)> Gaps(Rack rack, double floor, double top)
    {
        var v = floor;
        foreach (var panel in rack.Panels.OrderBy(p => p.FromFloor))
        {
            if (panel.FromFloor - v > 24) yield return (v + 2, panel.FromFloor - 2);
            v = Math.Max(v, panel.Top);
        }

        if (top - v > 24) yield return (v + 2, top);
    }

    /// <summary>A panel where no position was recorded; a tall one is louvred.</summary>
    private void Blank(Face face, double v0, double v1, string tone)
    {
        var (left, right) = Plate(face, v0, v1, tone);
        if (v1 - v0 > 90) Louvre(face, left + 60, right - 60, v0 + 28, v1 - 24, tone);
    }

    private void Build(Face face, Rack rack, Panel panel)
    {
        if (panel.Id == "EB")
        {
            model.Block(
                face,
                (60, face.Width - 60),
                (panel.FromFloor + 12, panel.Top - 12),
                (-4, 4),
                new ColouredMaterial(Material.Brass, Palette.Copper),
                1);
            for (var u = 90.0; u < face.Width - 80; u += 60) Furniture.Bolt(model, face.At(u, panel.Middle, 4), face.W, 7);
            return;
        }

        var tone = Wear.PanelTone(rack.Id, panel.Id, panel.Id is "PD" or "FA" or "FB" ? "#aeada3" : "#bcbfb6");
        Plate(face, panel.FromFloor, panel.Top, tone);
        var (left, right) = (Upright + 22, face.Width - Upright - 22);
        if (right - left > 900)
        {
            // A console is three bays wide; what the position holds is in the middle one.
            foreach (var u in new[] { left + 30, right - 470 }) Louvre(face, u + 30, u + 410, panel.FromFloor + 26, panel.Top - 20, tone);
            (left, right) = ((face.Width / 2) - 330, (face.Width / 2) + 330);
        }

        var bay = new Bay(face, left, right, panel.FromFloor, panel.Top);
        _instruments.Build(bay, panel);
        Label(bay, panel);
        Sticker(bay, rack, panel);
    }

    /// <summary>What people stuck on in sixty years: a date of calibration, a strip of tape, or what is left of one.</summary>
    private void Sticker(Bay bay, Rack rack, Panel panel)
    {
        var chance = SeededRandom.For($"sticker {rack.Id} {panel.Id}");
        if (chance.Between(0, 1) > 0.42) return;
        string[] colours = ["#e4dcc0", "#d8c24c", "#b9503c", "#d9d6cc", "#7fa08a", "#c6b48c"];
        var colour = colours[(int)chance.Between(0, colours.Length)];
        var (wide, high) = (chance.Between(20, 46), chance.Between(9, 14));
        var from = bay.Left + ((bay.Width - wide) * chance.Between(0.3, 0.95));
        var low = bay.Bottom + chance.Between(3, 9);
        model.Block(bay.Face, (from, from + wide), (low, low + high), (Proud, Proud + 0.3), new ColouredMaterial(Material.Paper, colour));
        if (wide > 32 && chance.Between(0, 1) > 0.35)
            model.Write(
                $"CAL {chance.Between(1, 12):00}/{chance.Between(81, 99):00}",
                bay.Face.At(from + 3, low + (high / 2) - 2, Proud + 0.4), bay.Face.U, Point3.Up, 4, "#2c2721");
    }

    private (double Left, double Right) Plate(Face face, double v0, double v1, string tone)
    {
        var (u0, u1) = (Upright + 2, face.Width - Upright - 2);
        model.Block(face, (u0, u1), (v0 + 0.8, v1 - 0.8), (-3, Proud), new ColouredMaterial(Material.Paint, tone), 1.6);
        foreach (var u in new[] { u0 + 10, u1 - 10 })
        {
            foreach (var v in v1 - v0 > 60 ? new[] { v0 + 14, v1 - 14 } : [(v0 + v1) / 2]) Furniture.Screw(model, face, u, v, Proud);
        }

        return (u0, u1);
    }

    /// <summary>Slats that lean out at the top, and the dark under each.</summary>
    private void Louvre(Face face, double u0, double u1, double v0, double v1, string tone)
    {
        for (var v = v0; v < v1; v += 17)
        {
            model.Facet([
                face.At(u0, v - 1, Proud + 0.3),
                face.At(u1, v - 1, Proud + 0.3),
                face.At(u1, v + 4, Proud + 0.3),
                face.At(u0, v + 4, Proud + 0.3)
            ], new ColouredMaterial(Material.Plastic, "#17181a"));
            model.Facet([
                face.At(u0, v + 11, Proud + 0.2),
                face.At(u1, v + 11, Proud + 0.2),
                face.At(u1, v + 3, Proud + 6),
                face.At(u0, v + 3, Proud + 6)
            ], new ColouredMaterial(Material.Paint, tone));
        }
    }

    private void Label(Bay bay, Panel panel)
    {
        var face = bay.Face;
        model.Block(
            face,
            (bay.Left, bay.Left + 40),
            (bay.Top - 25, bay.Top - 8),
            (Proud, Proud + 1.5),
            new ColouredMaterial(Material.Plastic, "#25282b"),
            0.6);
        model.WriteCentred(panel.Id, face.At(bay.Left + 20, bay.Top - 16.5, Proud + 1.5), face.U, Point3.Up, 9, "#f2efe6");
        model.Write(Instruments.Short(panel.Holds), face.At(bay.Left + 48, bay.Top - 21, Proud), face.U, Point3.Up, 8.5, "#26282c");
    }

    private void NamePlate(Face face, Rack rack)
    {
        var (h, p) = (rack.Height, PlateHeight(rack));
        model.Block(face, (20, face.Width - 20), (h - p + 8, h - 10), (-3, Proud), new ColouredMaterial(Material.Paint, "#cfcab9"), 2);
        var big = Math.Min(38, p * 0.42);
        model.Write(rack.Id, face.At(36, h - (p / 2) - (big / 2), Proud), face.U, Point3.Up, big, Palette.Ink);
        var x = 36 + StrokeFont.Width(rack.Id, big) + 24;
        var small = Math.Min(big * 0.5, (face.Width - x - 40) / Math.Max(1, StrokeFont.Width(rack.Name, 1)));
        model.Write(rack.Name, face.At(x, h - (p / 2) - (small / 2), Proud), face.U, Point3.Up, small, "#3c3c40");
    }

    private static double PlateHeight(Rack rack) => Math.Clamp(rack.Height - rack.Panels.Max(p => p.Top) - 4, 60, 120);
}

/// <summary>The part of a face that one panel takes.</summary>
internal readonly record struct Bay(Face Face, double Left, double Right, double Bottom, double Top)
{
    public double Width => Right - Left;

    public double Height => Top - Bottom;

    /// <summary>A point of the panel by fractions of its width and height, and how far out from its front.</summary>
    public Point3 At(double x, double y, double w = 0) => Face.At(Left + (Width * x), Bottom + (Height * y), FrontFace.Proud + w);

    public (double From, double To) U(double x0, double x1) => (Left + (Width * x0), Left + (Width * x1));

    public (double From, double To) V(double y0, double y1) => (Bottom + (Height * y0), Bottom + (Height * y1));
}

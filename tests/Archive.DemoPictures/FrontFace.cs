namespace Archive.DemoPictures;

/// <summary>The front of a frame: uprights, name plate, and a panel for each position with what it holds.</summary>
internal sealed class FrontFace(Sheet sheet)
{
    private const double Upright = 34;
    private readonly Instruments _instruments = new(sheet);

    public void Draw(Face face, Rack rack, string tone)
    {
        if (sheet.Camera.Scale(face.At(face.Width / 2, rack.Height / 2)) < 0.02) return;
        if (rack.Id == "PW-04")
        {
            Cells(face, rack);
            return;
        }

        Opening(face, rack, tone);
        if (rack.Id.StartsWith("OP", StringComparison.Ordinal)) Desk(face, rack, tone);
        foreach (var panel in rack.Panels) Draw(face, rack, panel);
        NamePlate(face, rack);
        Wear(face, rack);
    }

    private void Opening(Face face, Rack rack, string tone)
    {
        var (w, h) = (face.Width, rack.Height);
        var cap = h - PlateHeight(rack);
        sheet.Fill(RackDrawing.Rectangle(face, Upright, w - Upright, 40, cap), Wash.Darker(tone, 0.45), 0.8);
        // Blank panels where no position was recorded, a shade lighter than the dark between them.
        var gaps = Gaps(rack, 44, cap - 4);
        foreach (var (v0, v1) in gaps) Plate(face, v0, v1, Wash.Darker(tone, 0.12), vents: v1 - v0 > 90);
        for (var i = 0; i < 24; i++)
        {
            var v = 90 + (i * (h - 160) / 23);
            sheet.Disc(face.At(Upright / 2, v), face.U, Point3.Up, 3.2, Wash.Darker(tone, 0.5));
            sheet.Disc(face.At(w - (Upright / 2), v), face.U, Point3.Up, 3.2, Wash.Darker(tone, 0.5));
        }
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

    private void Draw(Face face, Rack rack, Panel panel)
    {
        if (panel.Id == "EB")
        {
            sheet.Fill(RackDrawing.Rectangle(face, 60, face.Width - 60, panel.FromFloor + 12, panel.Top - 12), Wash.Copper, 0.8);
            return;
        }

        var tone = panel.Id is "PD" or "FA" or "FB" ? "#b9b7ae" : "#c6c8c0";
        Plate(face, panel.FromFloor, panel.Top, tone, vents: false);
        var (left, right) = (Upright + 22, face.Width - Upright - 22);
        if (right - left > 900)
        {
            // A console is three bays wide; what the position holds is in the middle one.
            foreach (var u in new[] { left + 30, right - 470 }) Louvre(face, u, u + 440, panel, tone);
            (left, right) = ((face.Width / 2) - 330, (face.Width / 2) + 330);
        }

        var inner = new Bay(face, left, right, panel.FromFloor, panel.Top);
        _instruments.Draw(inner, panel);
        Label(inner, panel);
    }

    private void Louvre(Face face, double u0, double u1, Panel panel, string tone)
    {
        sheet.Fill(RackDrawing.Rectangle(face, u0, u1, panel.FromFloor + 10, panel.Top - 10), Wash.Darker(tone, 0.1), 0.6);
        for (var v = panel.FromFloor + 26; v < panel.Top - 20; v += 18) sheet.Ink([face.At(u0 + 30, v), face.At(u1 - 30, v)], 1.4, Wash.Darker(tone, 0.4));
    }

    private void Plate(Face face, double v0, double v1, string tone, bool vents)
    {
        var (u0, u1) = (Upright + 2, face.Width - Upright - 2);
        sheet.Fill(RackDrawing.Rectangle(face, u0 + 4, u1 + 4, v0 - 5, v1 - 3), Wash.Shadow, 0, 0.35);
        sheet.Fill(RackDrawing.Rectangle(face, u0, u1, v0, v1), tone, 0.9);
        // Evening light from the upper left: a bright edge there, a dark one opposite, a wash across the lower half.
        sheet.Fill(RackDrawing.Rectangle(face, u0, u1, v0, v0 + ((v1 - v0) * 0.4)), Wash.Shadow, 0, 0.05);
        sheet.Ink([face.At(u0 + 2, v0 + 2), face.At(u0 + 2, v1 - 2), face.At(u1 - 2, v1 - 2)], 1.1, Wash.Lighter(tone, 0.65));
        sheet.Ink([face.At(u0 + 2, v0 + 1), face.At(u1 - 1, v0 + 1), face.At(u1 - 1, v1 - 2)], 1.0, Wash.Darker(tone, 0.45));
        foreach (var u in new[] { u0 + 10, u1 - 10 })
        {
            foreach (var v in v1 - v0 > 60 ? new[] { v0 + 14, v1 - 14 } : [(v0 + v1) / 2]) Screw(face, u, v, tone);
        }

        if (!vents) return;
        for (var v = v0 + 28; v < v1 - 24; v += 16) sheet.Ink([face.At(u0 + 60, v), face.At(u1 - 60, v)], 1.5, Wash.Darker(tone, 0.35));
    }

    private void Screw(Face face, double u, double v, string tone)
    {
        sheet.Disc(face.At(u, v), face.U, Point3.Up, 4.2, Wash.Lighter(tone, 0.25), 0.5);
        sheet.Ink([face.At(u - 2.6, v - 1.8), face.At(u + 2.6, v + 1.8)], 0.6);
    }

    private void Label(Bay bay, Panel panel)
    {
        var face = bay.Face;
        sheet.Fill(RackDrawing.Rectangle(face, bay.Left, bay.Left + 40, bay.Top - 25, bay.Top - 8), "#2f3236", 0.4);
        sheet.WriteCentred(panel.Id, face.At(bay.Left + 20, bay.Top - 16.5), face.U, Point3.Up, 9, "#f2efe6");
        var text = Instruments.Short(panel.Holds);
        sheet.Write(text, face.At(bay.Left + 48, bay.Top - 21), face.U, Point3.Up, 8.5, "#33353a");
    }

    private void NamePlate(Face face, Rack rack)
    {
        var (h, p) = (rack.Height, PlateHeight(rack));
        sheet.Fill(RackDrawing.Rectangle(face, 20, face.Width - 20, h - p + 8, h - 10), "#d9d4c4", 0.9);
        var big = Math.Min(38, p * 0.42);
        sheet.Write(rack.Id, face.At(36, h - (p / 2) - (big / 2)), face.U, Point3.Up, big, Wash.Ink);
        var x = 36 + Lettering.Width(rack.Id, big) + 24;
        var small = Math.Min(big * 0.5, (face.Width - x - 40) / Math.Max(1, Lettering.Width(rack.Name, 1)));
        sheet.Write(rack.Name, face.At(x, h - (p / 2) - (small / 2)), face.U, Point3.Up, small, "#4a4a4e");
    }

    private static double PlateHeight(Rack rack) => Math.Clamp(rack.Height - rack.Panels.Max(p => p.Top) - 4, 60, 120);

    /// <summary>Knees, feet and trolleys leave their marks in the same places everywhere.</summary>
    private void Wear(Face face, Rack rack)
    {
        var chance = Chance.For(rack.Id);
        for (var i = 0; i < 14; i++)
        {
            var (u, v) = (chance.Between(20, face.Width - 20), chance.Between(10, rack.Height * 0.4));
            var slant = chance.Between(-14, 14);
            sheet.Ink([face.At(u, v), face.At(u + slant, v + chance.Between(3, 20))], 0.8, "#e9e6da", 0.55);
        }
    }

    private void Desk(Face face, Rack rack, string tone)
    {
        sheet.Fill([face.At(-10, 730, 320), face.At(face.Width + 10, 730, 320), face.At(face.Width + 10, 760, 0), face.At(-10, 760, 0)], "#a08a68", 1.2);
        sheet.Fill(RackDrawing.Rectangle(face, -10, face.Width + 10, 700, 730, 320), "#7c6a4f", 1.0);
        sheet.Fill(RackDrawing.Rectangle(face, 620, face.Width - 620, 60, 700, 4), Wash.Darker(tone, 0.6), 0.8);
        var (key, v) = (face.Width * 0.68, 742.0);
        sheet.Fill([face.At(key, v, 220), face.At(key + 110, v, 220), face.At(key + 110, v, 130), face.At(key, v, 130)], "#3a332c", 0.8);
        sheet.Stroke([face.At(key + 20, v + 22, 175), face.At(key + 95, v + 26, 175)], Wash.Brass, 7);
        sheet.Disc(face.At(key + 14, v + 30, 175), face.U, Point3.Up, 12, Wash.Dark, 0.6);
        sheet.Fill([face.At(420, v, 260), face.At(820, v, 260), face.At(820, v, 90), face.At(420, v, 90)], "#e8e2d0", 0.7);
    }

    private void Cells(Face face, Rack rack)
    {
        sheet.Fill(RackDrawing.Rectangle(face, 0, face.Width, 0, rack.Height), "#6f5f4a", 1.2);
        foreach (var (v0, n) in new[] { (140.0, 6), (640.0, 6) })
        {
            for (var i = 0; i < n; i++)
            {
                var u = 40 + (i * (face.Width - 80) / n);
                var w = ((face.Width - 80) / n) - 14;
                sheet.Fill(RackDrawing.Rectangle(face, u, u + w, v0, v0 + 340, 6), "#d5ddda", 1.0);
                sheet.Fill(RackDrawing.Rectangle(face, u + 6, u + w - 6, v0 + 8, v0 + 270, 7), "#aebdb9", 0.4);
                for (var k = 0; k < 7; k++) sheet.Stroke([face.At(u + 18 + (k * (w - 36) / 6), v0 + 20, 8), face.At(u + 18 + (k * (w - 36) / 6), v0 + 250, 8)], "#6f7a78", 6, 0.8);
                foreach (var du in new[] { 40, w - 40 }) sheet.Stroke([face.At(u + du, v0 + 340, 8), face.At(u + du, v0 + 372, 8)], "#585a5c", 22);
            }

            sheet.Stroke([face.At(90, v0 + 376, 10), face.At(face.Width - 90, v0 + 376, 10)], "#77797b", 12);
        }

        sheet.WriteCentred(rack.Id, face.At(face.Width / 2, 70, 4), face.U, Point3.Up, 34, "#efe9d8");
    }
}

/// <summary>The part of a face that one panel takes.</summary>
internal readonly record struct Bay(Face Face, double Left, double Right, double Bottom, double Top)
{
    public double Width => Right - Left;

    public double Height => Top - Bottom;

    public Point3 At(double x, double y) => Face.At(Left + (Width * x), Bottom + (Height * y));
}

/// <summary>Chance that is the same on every run: a small generator seeded by a name.</summary>
internal sealed class Chance
{
    private ulong _state;

    private Chance(ulong seed) => _state = seed;

    public static Chance For(string name)
    {
        // FNV-1a, 64 bits.
        var hash = 14695981039346656037UL;
        foreach (var c in name) hash = (hash ^ c) * 1099511628211UL;
        return new Chance(hash | 1);
    }

    public double Between(double low, double high)
    {
        // xorshift64*, Vigna 2016; the upper 53 bits as a fraction.
        _state ^= _state >> 12;
        _state ^= _state << 25;
        _state ^= _state >> 27;
        return low + ((high - low) * ((_state * 2685821657736338717UL) >> 11) / (1UL << 53));
    }
}

namespace Archive.DemoPictures;

/// <summary>What is seen on the front of a panel, drawn from what the record says it holds.</summary>
internal sealed partial class Instruments(Model model)
{
    private static readonly (string Word, Action<Instruments, Bay, Panel> Build)[] Motifs =
    [
        ("receiver inputs", (i, bay, panel) => i.Cards(bay, panel, 12)),
        ("receiver", (i, bay, _) => i.Receiver(bay)),
        ("broadcast monitor", (i, bay, _) => i.Receiver(bay)),
        ("multicoupler", (i, bay, panel) => i.Multicoupler(bay, panel)),
        ("preselector", (i, bay, panel) => i.Cards(bay, panel, 4)),
        ("matrix in", (i, bay, _) => i.Jacks(bay, 12, 2)),
        ("matrix out", (i, bay, _) => i.Jacks(bay, 12, 2)),
        ("crosspoint", (i, bay, panel) => i.Cards(bay, panel, 24)),
        ("patch field", (i, bay, _) => i.Patch(bay)),
        ("arrester", (i, bay, _) => i.Arresters(bay)),
        ("feeder term", (i, bay, _) => i.Jacks(bay, 12, 1)),
        ("filters", (i, bay, panel) => i.Cards(bay, panel, 6)),
        ("fuse panel", (i, bay, panel) => i.Fuses(bay, panel.Ports.Count)),
        ("fuse and alarm", (i, bay, _) => i.Alarm(bay)),
        ("recorder a", (i, bay, _) => i.Reels(bay)),
        ("recorder b", (i, bay, _) => i.Reels(bay)),
        ("clock", (i, bay, _) => i.Clock(bay)),
        ("turret", (i, bay, _) => i.Clock(bay)),
        ("time code", (i, bay, _) => i.Digits(bay, "88:88:88", 0.5)),
        ("announcer", (i, bay, _) => i.Digits(bay, "88:88", 0.5)),
        ("rubidium", (i, bay, _) => i.Meters(bay, 1)),
        ("crystal", (i, bay, _) => i.Meters(bay, 1)),
        ("alarm", (i, bay, _) => i.Meters(bay, 2)),
        ("busbar", (i, bay, _) => i.Bars(bay)),
        ("output terminals", (i, bay, _) => i.Bars(bay)),
        ("mains", (i, bay, _) => i.Blank(bay)),
        ("terminal strip", (i, bay, _) => i.Blank(bay)),
        ("processor", (i, bay, panel) => i.Cards(bay, panel, 14)),
    ];

    public void Build(Bay bay, Panel panel)
    {
        var motif = Array.Find(Motifs, m => panel.Holds.Contains(m.Word, StringComparison.OrdinalIgnoreCase)).Build;
        if (motif is null) Cards(bay, panel, 10);
        else motif(this, bay, panel);
    }

    /// <summary>What fits on a panel's own label: the words up to the first comma or bracket.</summary>
    public static string Short(string holds) => holds.Split([',', '('])[0].Trim();

    private static ColouredMaterial Dark => new(Material.Plastic, "#17181a");

    private static ColouredMaterial Bare => new(Material.Steel, "#b0b3b0");

    private static Point3 U(Bay bay) => bay.Face.U;

    /// <summary>A skirted knob with a white line, turned to where it was left.</summary>
    private void Knob(Bay bay, Point3 at, double radius, string colour)
    {
        var w = bay.Face.W;
        model.Turn(
            at,
            w,
            new ColouredMaterial(Material.Plastic, colour),
            (radius, 0),
            (radius, 3),
            (radius * 0.72, 5),
            (radius * 0.66, 15),
            (radius * 0.56, 17));
        var a = Math.PI * 1.4 * ((((at.X * 3) + (at.Z * 7)) % 11 / 11) - 0.5);
        var (along, aside) = ((U(bay) * Math.Sin(a)) + (Point3.Up * Math.Cos(a)), (U(bay) * Math.Cos(a)) - (Point3.Up * Math.Sin(a)));
        var top = at + (w * 17.2);
        model.Facet([
            top + (along * radius * 0.1) - (aside * 0.8),
            top + (along * radius * 0.1) + (aside * 0.8),
            top + (along * radius * 0.55) + (aside * 0.8),
            top + (along * radius * 0.55) - (aside * 0.8)
        ], new ColouredMaterial(Material.Print, "#f0ede2"));
    }

    private void Lamp(Bay bay, Point3 at, string colour = "#5c1f18")
    {
        model.Turn(at, bay.Face.W, Bare, (5.4, 0), (5.4, 2), (4.2, 3));
        model.Turn(at, bay.Face.W, new ColouredMaterial(Material.Glass, colour), (3.9, 2.9), (3.4, 5), (2, 6.4));
    }

    /// <summary>A framed window let into the panel.</summary>
    private void Window(Bay bay, double x0, double x1, double y0, double y1, ColouredMaterial glass)
    {
        var ((u0, u1), (v0, v1), p) = (bay.U(x0, x1), bay.V(y0, y1), FrontFace.Proud);
        foreach (var (u, v) in new[]
        {
            ((u0, u1), (v0 - 4, v0)),
            ((u0, u1), (v1, v1 + 4)),
            ((u0 - 4, u0), (v0 - 4, v1 + 4)),
            ((u1, u1 + 4), (v0 - 4, v1 + 4))
        }) model.Block(bay.Face, u, v, (p, p + 5), Dark, 1.2);
        model.Facet([bay.At(x0, y0, 0.5), bay.At(x1, y0, 0.5), bay.At(x1, y1, 0.5), bay.At(x0, y1, 0.5)], glass);
    }

    private void Handle(Bay bay, double x)
    {
        var (low, high) = (bay.At(x, 0.2), bay.At(x, 0.72));
        model.Tube(Curve.Rounded([low, low + (bay.Face.W * 36), high + (bay.Face.W * 36), high], 10), 8, Bare);
        foreach (var at in new[] { low, high }) model.Turn(at, bay.Face.W, Bare, (8, 0), (8, 2.4));
    }

    private void Receiver(Bay bay)
    {
        var h = bay.Height;
        Window(bay, 0.12, 0.46, 0.46, 0.72, new ColouredMaterial(Material.Glass, "#120c0b"));
        // Unlit, as it was found.
        model.Write("88888.88", bay.At(0.14, 0.53, 0.5), U(bay), Point3.Up, Math.Min(h * 0.12, bay.Width * 0.034), "#3a2420");
        Knob(bay, bay.At(0.60, 0.46), Math.Min(h * 0.25, 34), "#1f2123");
        model.Turn(bay.At(0.60, 0.46) + (bay.Face.W * 17) + (U(bay) * 9) + (Point3.Up * 7), bay.Face.W, Bare, (4, 0), (4, 7), (3, 8));
        foreach (var x in new[] { 0.14, 0.25, 0.36 }) Knob(bay, bay.At(x, 0.2), Math.Min(h * 0.09, 11), "#2c2e31");
        for (var i = 0; i < 5; i++)
        {
            model.Block(
                bay.Face,
                bay.U(0.46 + (i * 0.03), 0.48 + (i * 0.03)),
                bay.V(0.12, 0.2),
                (FrontFace.Proud, FrontFace.Proud + (i == 1 ? 2.5 : 6)),
                new ColouredMaterial(Material.Plastic, i == 1 ? "#d9d5c6" : "#6e706c"),
                1.2);
        }

        Grille(bay, (0.74, 0.93), (0.2, 0.8));
        Lamp(bay, bay.At(0.96, 0.84));
        foreach (var x in new[] { 0.985, 0.02 }) Handle(bay, x);
        if (h < 120) return;
        foreach (var (x, text) in new[] { (0.14, "AF"), (0.25, "RF"), (0.36, "BFO"), (0.60, "TUNE") })
            model.WriteCentred(text, bay.At(x, text == "TUNE" ? 0.1 : 0.335), U(bay), Point3.Up, 4.6, "#2b2d30");
    }

    /// <summary>The slots that a loudspeaker speaks through.</summary>
    private void Grille(Bay bay, (double From, double To) x, (double From, double To) y)
    {
        var dark = new ColouredMaterial(Material.Plastic, "#101113");
        for (var at = y.From; at < y.To; at += 0.05)
        {
            var (p, q) = (bay.At(x.From, at, 0.4), bay.At(x.To, at, 0.4));
            model.Facet([p, q, q + (Point3.Up * 4), p + (Point3.Up * 4)], dark);
            model.Block(
                bay.Face,
                bay.U(x.From, x.To),
                (bay.V(at, at).From + 4.2, bay.V(at, at).From + 6),
                (FrontFace.Proud, FrontFace.Proud + 2.4),
                new ColouredMaterial(Material.Paint, "#a9aca5"));
        }
    }

    private void Multicoupler(Bay bay, Panel panel)
    {
        var ways = panel.Ports.Count - 1;
        // The block diagram is engraved and filled with black.
        Line(bay, (0.12, 0.42), (0.3, 0.42));
        Line(bay, (0.3, 0.26), (0.3, 0.58));
        Line(bay, (0.3, 0.26), (0.42, 0.42));
        Line(bay, (0.3, 0.58), (0.42, 0.42));
        Line(bay, (0.42, 0.42), (0.5, 0.42));
        for (var i = 0; i < ways; i++)
        {
            var y = 0.14 + (i * 0.56 / Math.Max(1, ways - 1));
            Line(bay, (0.5, 0.42), (0.5, y));
            Line(bay, (0.5, y), (0.8, y));
            Lamp(bay, bay.At(0.84, y));
            model.Write($"{i + 2}", bay.At(0.88, y - 0.02), U(bay), Point3.Up, 8, Palette.Ink);
        }

        Socket(bay, bay.At(0.12, 0.42));
        foreach (var x in new[] { 0.02, 0.98 }) Handle(bay, x);
    }

    private void Line(Bay bay, (double X, double Y) a, (double X, double Y) b)
    {
        var (p, q) = (bay.At(a.X, a.Y, 0.3), bay.At(b.X, b.Y, 0.3));
        if ((q - p).Length < 1) return;
        var half = (q - p).Unit.Cross(bay.Face.W) * 0.7;
        model.Facet([p - half, q - half, q + half, p + half], new ColouredMaterial(Material.Print, "#1c1d20"));
    }

    private void Socket(Bay bay, Point3 at)
    {
        model.Turn(at, bay.Face.W, Bare, (9, 0), (9, 2.2), (8, 3), (6, 3), (6, 8), (4.4, 8), (4.2, 4), (3.8, 3.6));
        model.Turn(at, bay.Face.W, Dark, (3.8, 7), (3.7, 7.4));
    }

    /// <summary>Plug-in cards side by side, each with a pull, a lamp and test points.</summary>
    private void Cards(Bay bay, Panel panel, int cards)
    {
        var chance = SeededRandom.For(panel.Id + panel.Holds);
        var (low, high) = (0.06, bay.Height > 120 ? 0.8 : 0.68);
        for (var i = 0; i < cards; i++)
        {
            var (x0, x1) = (0.02 + (0.96 * i / cards), 0.02 + (0.96 * (i + 0.94) / cards));
            var tone = Palette.Mix("#cfcec3", "#a2a49b", chance.Between(0, 0.6));
            // No two cards are home to the same depth.
            var out_ = FrontFace.Proud + chance.Between(1.5, 4.5);
            model.Block(bay.Face, bay.U(x0, x1), bay.V(low, high), (0, out_), new ColouredMaterial(Material.Paint, tone), 1);
            var (mid, on) = ((x0 + x1) / 2, out_ - FrontFace.Proud);
            model.Block(
                bay.Face,
                (bay.U(mid, mid).From - 2.6, bay.U(mid, mid).From + 2.6),
                bay.V(low + 0.05, low + 0.17),
                (out_, out_ + 9),
                Dark,
                1.5);
            Lamp(bay, bay.At(mid, high - 0.1, on));
            if (bay.Height <= 120) continue;
            model.Turn(bay.At(mid, 0.5, on), bay.Face.W, Dark, (3.4, 0), (3.4, 3), (1.6, 3), (1.4, 1.6));
            model.Turn(bay.At(
                mid, 0.4, on), bay.Face.W, new ColouredMaterial(Material.Plastic, "#7c2a20"), (3.4, 0), (3.4, 3), (1.6, 3), (1.4, 1.6));
            model.WriteCentred($"{i + 1}", bay.At(mid, 0.29, on), U(bay), Point3.Up, 4.4, "#303236");
        }
    }

    private void Jacks(Bay bay, int across, int rows)
    {
        for (var row = 0; row < rows; row++)
        {
            for (var i = 0; i < across; i++)
            {
                var at = bay.At(0.06 + (0.88 * i / (across - 1)), rows == 1 ? 0.4 : 0.58 - (0.36 * row));
                Point3 On(double x, double y) => at + (U(bay) * x) + (Point3.Up * y) + (bay.Face.W * 0.4);
                model.Facet([On(-11, 13), On(11, 13), On(11, 21), On(-11, 21)], new ColouredMaterial(Material.Paper, "#e6e2d2"));
                model.WriteCentred($"{(row * across) + i + 1}", On(0, 17), U(bay), Point3.Up, 5.5, Palette.Ink);
                Socket(bay, at);
            }
        }
    }

    private void Patch(Bay bay)
    {
        Jacks(bay, 12, 2);
        foreach (var (from, to, drop, colour) in new[]
        {
            (0, 3, 130.0, "#7a2f26"),
            (2, 4, 100.0, "#2c2e30"),
            (6, 9, 160.0, "#4d6a30"),
            (10, 8, 90.0, "#2c2e30")
        })
        {
            var (a, b) = (bay.At(0.06 + (0.08 * from), 0.58, 30), bay.At(0.06 + (0.08 * to), 0.22, 30));
            var sag = Enumerable.Range(0, 25)
                .Select(i => i / 24.0)
                .Select(t => Point3.Between(a, b, t) + (bay.Face.W * (80 * t * (1 - t))) - (Point3.Up * (4 * drop * t * (1 - t))))
                .ToArray();
            model.Tube(sag, 6.5, new ColouredMaterial(Material.Sheath, colour));
            foreach (var end in new[] { a, b }) model.Turn(end - (bay.Face.W * 26), bay.Face.W, new ColouredMaterial(
                Material.Brass, Palette.Brass), (7.5, 0), (7.5, 16), (5, 18), (4.4, 28));
        }
    }

    private void Arresters(Bay bay)
    {
        model.Block(
            bay.Face,
            bay.U(0.02, 0.98),
            bay.V(0.05, 0.12),
            (FrontFace.Proud, FrontFace.Proud + 8),
            new ColouredMaterial(Material.Brass, Palette.Copper),
            1);
        for (var i = 0; i < 12; i++)
        {
            var x = 0.06 + (0.88 * i / 11);
            var foot = bay.At(x, 0.12, 14);
            model.Tube([foot, bay.At(x, 0.75, 14)], 6, Bare);
            for (var k = 0; k < 3; k++) model.Turn(bay.At(
                x, 0.27 + (0.1 * k), 14), Point3.Up, new ColouredMaterial(Material.Glass, "#d9d2c0"), (8, 0), (13, 4), (13, 8), (8, 13));
            model.Turn(bay.At(x, 0.66), bay.Face.W, new ColouredMaterial(Material.Brass, Palette.Brass), (9, 0), (9, 18), (7, 20));
        }
    }

    private void Fuses(Bay bay, int count)
    {
        var rows = count > 12 ? 2 : 1;
        var across = count / rows;
        for (var i = 0; i < count; i++)
        {
            var (x, y) = (0.07 + (0.86 * (i % across) / (across - 1)), rows == 1 ? 0.42 : 0.62 - (0.36 * (i / across)));
            var (u, v, p) = (bay.U(x, x).From, bay.V(y, y).From, FrontFace.Proud);
            model.Block(bay.Face, (u - 14, u + 14), (v - 30, v + 30), (p, p + 8), new ColouredMaterial(Material.Glass, "#ddd6c4"), 2);
            foreach (var end in new[] { -23, 17 }) model.Block(
                bay.Face, (u - 8, u + 8), (v + end, v + end + 6), (p + 8, p + 18), new ColouredMaterial(Material.Brass, Palette.Brass), 1);
            // The ninth was drawn; a card is in its clips.
            if (i == 8 && count > 12)
                model.Block(bay.Face, (u - 9, u + 16), (v - 26, v + 24), (p + 18, p + 19), new ColouredMaterial(Material.Paper, "#ebe5d2"));
            else model.Turn(bay.At(x, y, 15)
                - (Point3.Up * 22), Point3.Up, new ColouredMaterial(Material.Plastic, "#6d382f"), (6, 0), (7.5, 2), (7.5, 42), (6, 44));
            model.WriteCentred($"{(rows == 1 ? 'G' : 'F')}{i + 1}", bay.At(x, y) + (Point3.Up * 42), U(bay), Point3.Up, 9, Palette.Ink);
        }
    }

    private void Alarm(Bay bay)
    {
        for (var i = 0; i < 6; i++) model.Turn(bay.At(0.32 + (i * 0.08), 0.4), bay.Face.W, new ColouredMaterial(
            Material.Plastic, "#6d2f26"), (8.5, 0), (8.5, 5), (6.5, 6), (6.5, 17), (5.6, 18));
        foreach (var x in new[] { 0.9, 0.95 }) Lamp(bay, bay.At(x, 0.4));
    }
}

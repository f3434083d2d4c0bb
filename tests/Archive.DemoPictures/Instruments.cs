namespace Archive.DemoPictures;

/// <summary>What is seen on the front of a panel, told from what the record says it holds.</summary>
internal sealed class Instruments(Sheet sheet)
{
    private static readonly (string Word, Action<Instruments, Bay, Panel> Draw)[] Motifs =
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

    public void Draw(Bay bay, Panel panel)
    {
        var motif = Array.Find(Motifs, m => panel.Holds.Contains(m.Word, StringComparison.OrdinalIgnoreCase)).Draw;
        if (motif is null) Cards(bay, panel, 10);
        else motif(this, bay, panel);
    }

    /// <summary>What fits on a panel's own label: the words up to the first comma or bracket.</summary>
    public static string Short(string holds) => holds.Split([',', '('])[0].Trim();

    private static Point3 U(Bay bay) => bay.Face.U;

    /// <summary>A point about a centre: the angle from upright, clockwise.</summary>
    private static Point3 Around(Bay bay, Point3 centre, double radius, double angle) =>
        centre + (U(bay) * (radius * Math.Sin(angle))) + (Point3.Up * (radius * Math.Cos(angle)));

    private void Knob(Bay bay, Point3 at, double radius, string colour)
    {
        var off = (U(bay) * 2.5) - (Point3.Up * 4);
        sheet.Disc(at + off, U(bay), Point3.Up, radius * 1.1, Wash.Darker("#c6c8c0", 0.4));
        sheet.Disc(at, U(bay), Point3.Up, radius, colour, 0.8);
        sheet.Disc(at - (U(bay) * radius * 0.15) + (Point3.Up * radius * 0.15), U(bay), Point3.Up, radius * 0.62, Wash.Lighter(colour, 0.22), 0.4);
        sheet.Ink([at + (Point3.Up * radius * 0.2), at + (Point3.Up * radius * 0.92)], 1.1, "#f4f1e7");
    }

    private void Lamp(Bay bay, Point3 at, bool lit)
    {
        sheet.Disc(at, U(bay), Point3.Up, 5.4, "#5a5b5c", 0.4);
        sheet.Disc(at, U(bay), Point3.Up, 3.8, lit ? Wash.LampOn : Wash.LampOff);
    }

    private void Window(Bay bay, double x0, double x1, double y0, double y1, string glass)
    {
        sheet.Fill([bay.At(x0, y0), bay.At(x1, y0), bay.At(x1, y1), bay.At(x0, y1)], glass, 1.0);
        sheet.Fill([bay.At(x0, y1 - ((y1 - y0) * 0.3)), bay.At(x1, y1 - ((y1 - y0) * 0.1)), bay.At(x1, y1), bay.At(x0, y1)], "#ffffff", 0, 0.12);
    }

    private void Receiver(Bay bay)
    {
        Window(bay, 0.12, 0.46, 0.46, 0.72, "#25282b");
        // Unlit, as it was found.
        sheet.Write("88888.88", bay.At(0.14, 0.53), U(bay), Point3.Up, Math.Min(bay.Height * 0.12, bay.Width * 0.034), "#4a3a36");
        Knob(bay, bay.At(0.60, 0.46), Math.Min(bay.Height * 0.25, 34), "#3b3d40");
        foreach (var x in new[] { 0.14, 0.25, 0.36 }) Knob(bay, bay.At(x, 0.2), Math.Min(bay.Height * 0.09, 11), "#54575a");
        for (var i = 0; i < 5; i++) sheet.Fill([bay.At(0.46 + (i * 0.03), 0.12), bay.At(0.48 + (i * 0.03), 0.12), bay.At(0.48 + (i * 0.03), 0.2), bay.At(0.46 + (i * 0.03), 0.2)], i == 1 ? "#e2dfd3" : "#8a8c88", 0.4);
        for (var y = 0.22; y < 0.78; y += 0.08) sheet.Ink([bay.At(0.74, y), bay.At(0.93, y)], 1.6, "#54575a");
        Lamp(bay, bay.At(0.96, 0.84), lit: false);
        Handle(bay, 0.985);
        Handle(bay, 0.02);
    }

    private void Handle(Bay bay, double x)
    {
        var reach = bay.Face.W * 34;
        sheet.Stroke([bay.At(x, 0.22), bay.At(x, 0.22) + reach, bay.At(x, 0.66) + reach, bay.At(x, 0.66)], Wash.Dark, 8);
        sheet.Stroke([bay.At(x, 0.24) + reach, bay.At(x, 0.64) + reach], "#a9aba8", 3);
    }

    private void Multicoupler(Bay bay, Panel panel)
    {
        var ways = panel.Ports.Count - 1;
        var root = bay.At(0.12, 0.42);
        sheet.Ink([root, bay.At(0.3, 0.42)], 1.2);
        sheet.Fill([bay.At(0.3, 0.28), bay.At(0.42, 0.42), bay.At(0.3, 0.56)], "#e9e6da", 1.1);
        for (var i = 0; i < ways; i++)
        {
            var y = 0.14 + (i * 0.56 / Math.Max(1, ways - 1));
            sheet.Ink([bay.At(0.42, 0.42), bay.At(0.5, y), bay.At(0.8, y)], 1.0);
            Lamp(bay, bay.At(0.84, y), lit: false);
            sheet.Write($"{i + 2}", bay.At(0.88, y - 0.02), U(bay), Point3.Up, 8, Wash.Ink);
        }

        sheet.Disc(root, U(bay), Point3.Up, 8, "#e9e6da", 1);
        Handle(bay, 0.02);
        Handle(bay, 0.98);
    }

    /// <summary>Plug-in cards side by side, each with a pull, a lamp and a test point.</summary>
    private void Cards(Bay bay, Panel panel, int cards)
    {
        var chance = Chance.For(panel.Id + panel.Holds);
        var (low, high) = (0.06, bay.Height > 120 ? 0.8 : 0.68);
        for (var i = 0; i < cards; i++)
        {
            var (x0, x1) = (0.02 + (0.96 * i / cards), 0.02 + (0.96 * (i + 0.92) / cards));
            var tone = Wash.Mix("#d6d5cb", "#a9aaa3", chance.Between(0, 0.6));
            sheet.Fill([bay.At(x0, low), bay.At(x1, low), bay.At(x1, high), bay.At(x0, high)], tone, 0.7);
            var mid = (x0 + x1) / 2;
            sheet.Stroke([bay.At(mid, low + 0.05), bay.At(mid, low + 0.17)], Wash.Dark, 5);
            Lamp(bay, bay.At(mid, high - 0.1), lit: false);
            if (bay.Height > 120) sheet.Disc(bay.At(mid, 0.5), U(bay), Point3.Up, 3.4, Wash.Ink);
            if (bay.Height > 120) sheet.Disc(bay.At(mid, 0.4), U(bay), Point3.Up, 3.4, Wash.LampOff);
        }
    }

    private void Jacks(Bay bay, int across, int rows)
    {
        for (var row = 0; row < rows; row++)
        {
            for (var i = 0; i < across; i++)
            {
                var at = bay.At(0.06 + (0.88 * i / (across - 1)), rows == 1 ? 0.4 : 0.58 - (0.36 * row));
                sheet.Fill([at + (U(bay) * -11) + (Point3.Up * 13), at + (U(bay) * 11) + (Point3.Up * 13), at + (U(bay) * 11) + (Point3.Up * 21), at + (U(bay) * -11) + (Point3.Up * 21)], "#ece8da", 0.3);
                sheet.WriteCentred($"{(row * across) + i + 1}", at + (Point3.Up * 17), U(bay), Point3.Up, 5.5, Wash.Ink);
                sheet.Disc(at, U(bay), Point3.Up, 8.5, "#8d8f8e", 0.6);
                sheet.Disc(at, U(bay), Point3.Up, 4.4, "#26282a");
            }
        }
    }

    private void Patch(Bay bay)
    {
        Jacks(bay, 12, 2);
        foreach (var (from, to, drop, colour) in new[] { (0, 3, 130.0, "#8a4238"), (2, 4, 100.0, "#55575a"), (6, 9, 160.0, "#6e8a49"), (10, 8, 90.0, "#55575a") })
        {
            var (a, b) = (bay.At(0.06 + (0.08 * from), 0.58), bay.At(0.06 + (0.08 * to), 0.22));
            var sag = Enumerable.Range(0, 13).Select(i => i / 12.0).Select(t => Point3.Between(a, b, t) + (bay.Face.W * (26 + (60 * t * (1 - t)))) - (Point3.Up * (4 * drop * t * (1 - t)))).ToArray();
            sheet.Stroke(sag, Wash.Darker(colour, 0.5), 9);
            sheet.Stroke(sag, colour, 6.5);
            foreach (var end in new[] { a, b }) sheet.Disc(end + (bay.Face.W * 24), U(bay), Point3.Up, 8, Wash.Brass, 0.7);
        }
    }

    private void Arresters(Bay bay)
    {
        sheet.Fill([bay.At(0.02, 0.05), bay.At(0.98, 0.05), bay.At(0.98, 0.12), bay.At(0.02, 0.12)], Wash.Copper, 0.9);
        for (var i = 0; i < 12; i++)
        {
            var x = 0.06 + (0.88 * i / 11);
            sheet.Stroke([bay.At(x, 0.12), bay.At(x, 0.75)], "#6b6d6e", 6);
            for (var k = 0; k < 3; k++) sheet.Stroke([bay.At(x - 0.018, 0.3 + (0.1 * k)), bay.At(x + 0.018, 0.3 + (0.1 * k))], "#efe9dd", 20);
            sheet.Disc(bay.At(x, 0.66), U(bay), Point3.Up, 9, Wash.Brass, 0.8);
        }
    }

    private void Fuses(Bay bay, int count)
    {
        var rows = count > 12 ? 2 : 1;
        var across = count / rows;
        for (var i = 0; i < count; i++)
        {
            var at = bay.At(0.07 + (0.86 * (i % across) / (across - 1)), rows == 1 ? 0.42 : 0.62 - (0.36 * (i / across)));
            sheet.Fill([at + (U(bay) * -14) + (Point3.Up * -30), at + (U(bay) * 14) + (Point3.Up * -30), at + (U(bay) * 14) + (Point3.Up * 30), at + (U(bay) * -14) + (Point3.Up * 30)], "#efe9dc", 0.7);
            sheet.Stroke([at + (Point3.Up * -20), at + (Point3.Up * 20)], i == 8 && count > 12 ? "#efe9dc" : "#77453c", 15);
            foreach (var end in new[] { -22, 22 }) sheet.Stroke([at + (U(bay) * -7) + (Point3.Up * end), at + (U(bay) * 7) + (Point3.Up * end)], Wash.Brass, 7);
            sheet.WriteCentred($"{(rows == 1 ? 'G' : 'F')}{i + 1}", at + (Point3.Up * 42), U(bay), Point3.Up, 9, Wash.Ink);
        }
    }

    private void Alarm(Bay bay)
    {
        for (var i = 0; i < 6; i++) sheet.Stroke([bay.At(0.32 + (i * 0.08), 0.28), bay.At(0.32 + (i * 0.08), 0.5)], "#77453c", 13);
        Lamp(bay, bay.At(0.9, 0.4), lit: false);
        Lamp(bay, bay.At(0.95, 0.4), lit: false);
    }

    private void Reels(Bay bay)
    {
        Window(bay, 0.08, 0.92, 0.05, 0.86, "#b4b6b0");
        var radius = bay.Height * 0.27;
        foreach (var x in new[] { 0.3, 0.7 })
        {
            var hub = bay.At(x, 0.55);
            sheet.Disc(hub + (U(bay) * 5) - (Point3.Up * 8), U(bay), Point3.Up, radius, Wash.Darker("#b4b6b0", 0.35));
            sheet.Disc(hub, U(bay), Point3.Up, radius, "#dcdcd4", 1.0);
            sheet.Disc(hub, U(bay), Point3.Up, radius * (x < 0.5 ? 0.84 : 0.55), "#5b463a", 0.6);
            for (var k = 0; k < 3; k++) sheet.Disc(Around(bay, hub, radius * 0.62, k * Math.Tau / 3), U(bay), Point3.Up, radius * 0.2, "#dcdcd4", 0.5);
            sheet.Disc(hub, U(bay), Point3.Up, radius * 0.3, "#c9c9c0", 0.8);
            sheet.Disc(hub, U(bay), Point3.Up, radius * 0.1, Wash.Ink);
        }

        sheet.Ink([bay.At(0.3 - (radius / bay.Width * 0.75), 0.4), bay.At(0.42, 0.16), bay.At(0.58, 0.16), bay.At(0.7 + (radius / bay.Width * 0.5), 0.42)], 1.2, "#4a382e");
        sheet.Fill([bay.At(0.42, 0.1), bay.At(0.58, 0.1), bay.At(0.58, 0.24), bay.At(0.42, 0.24)], "#6e7070", 1);
        for (var i = 0; i < 5; i++) Knob(bay, bay.At(0.14 + (i * 0.05), 0.1), 7, "#54575a");
    }

    private void Clock(Bay bay)
    {
        var at = bay.At(0.22, 0.44);
        var radius = bay.Height * 0.36;
        sheet.Disc(at, U(bay), Point3.Up, radius * 1.12, Wash.Dark, 0.8);
        sheet.Disc(at, U(bay), Point3.Up, radius, "#f4f0e4", 0.6);
        // The silence periods, as they are painted on a radio room's clock: 00-03, 30-33 and 15-18, 45-48.
        foreach (var (minute, colour) in new[] { (0, "#6e8a49"), (30, "#6e8a49"), (15, "#a1463a"), (45, "#a1463a") })
        {
            var wedge = Enumerable.Range(0, 5).Select(i => Around(bay, at, radius * 0.96, (minute + (i * 0.75)) * Math.Tau / 60));
            sheet.Fill([at, .. wedge], colour, 0, 0.75);
        }

        sheet.Disc(at, U(bay), Point3.Up, radius * 0.55, "#f4f0e4");
        sheet.Ink([at, at + (U(bay) * (radius * 0.5)) + (Point3.Up * (radius * 0.2))], 2);
        sheet.Ink([at, at + (U(bay) * (radius * 0.25)) + (Point3.Up * (radius * 0.75))], 1.4);
        for (var i = 0; i < 14; i++) Knob(bay, bay.At(0.42 + (i % 7 * 0.08), i < 7 ? 0.55 : 0.25), 7, i % 3 == 0 ? "#77453c" : "#54575a");
    }

    private void Digits(Bay bay, string text, double x)
    {
        Window(bay, x, 0.93, 0.15, 0.7, "#25282b");
        sheet.Write(text, bay.At(x + 0.04, 0.27), U(bay), Point3.Up, Math.Min(bay.Height * 0.28, bay.Width * 0.4 / Lettering.Width(text, 1)), "#4a3a36");
        for (var i = 0; i < 5; i++) Knob(bay, bay.At(0.1 + (i * 0.07), 0.3), 8, "#54575a");
    }

    private void Meters(Bay bay, int count)
    {
        for (var i = 0; i < count; i++)
        {
            var (x0, x1) = (0.1 + (i * 0.3), 0.34 + (i * 0.3));
            Window(bay, x0, x1, 0.14, 0.74, "#f2eee0");
            var pivot = bay.At((x0 + x1) / 2, 0.2);
            var radius = Math.Min(bay.Height * 0.42, bay.Width * 0.145);
            var arc = Enumerable.Range(0, 9).Select(k => (k - 4) * 0.2).Select(a => Around(bay, pivot, radius, a)).ToArray();
            sheet.Ink(arc, 1.1);
            sheet.Ink([pivot, arc[0]], 1.2, "#8c3d33");
        }

        for (var i = 0; i < 3; i++) Lamp(bay, bay.At(0.76 + (i * 0.06), 0.66), lit: false);
        Knob(bay, bay.At(0.84, 0.34), Math.Min(18, bay.Height * 0.16), "#3b3d40");
    }

    private void Bars(Bay bay)
    {
        Window(bay, 0.04, 0.96, 0.06, 0.82, "#8f9190");
        foreach (var y in new[] { 0.24, 0.58 })
        {
            sheet.Fill([bay.At(0.08, y), bay.At(0.92, y), bay.At(0.92, y + 0.13), bay.At(0.08, y + 0.13)], Wash.Copper, 0.9);
            for (var i = 0; i < 6; i++) sheet.Disc(bay.At(0.14 + (i * 0.144), y + 0.065), U(bay), Point3.Up, 8, Wash.Brass, 0.7);
        }
    }

    private void Blank(Bay bay)
    {
        for (var y = 0.2; y < 0.7; y += 0.12) sheet.Ink([bay.At(0.2, y), bay.At(0.8, y)], 1.4, "#6a6c6c");
    }
}

namespace Archive.DemoPictures;

/// <summary>What turns or points: reels, clocks, meters, digits.</summary>
internal sealed partial class Instruments
{
    /// <summary>A point about a centre: the angle from upright, clockwise.</summary>
    private static Point3 Around(Bay bay, Point3 centre, double radius, double angle) =>
        centre + (U(bay) * (radius * Math.Sin(angle))) + (Point3.Up * (radius * Math.Cos(angle)));

    private void Reels(Bay bay)
    {
        var (p, w) = (FrontFace.Proud, bay.Face.W);
        model.Block(bay.Face, bay.U(0.06, 0.94), bay.V(0.04, 0.87), (p, p + 5), new ColouredMaterial(Material.Steel, "#9c9f9c"), 2);
        var radius = bay.Height * 0.27;
        foreach (var x in new[] { 0.3, 0.7 })
        {
            var hub = bay.At(x, 0.55, 5);
            model.Turn(hub, w, new ColouredMaterial(Material.Steel, "#c3c5c2"), (radius, 4), (radius, 5.5));
            model.Turn(
                hub,
                w,
                new ColouredMaterial(Material.Plastic, "#3d2a20"),
                (radius * (x < 0.5 ? 0.84 : 0.55), 5.5),
                (radius * (x < 0.5 ? 0.84 : 0.55), 18));
            // The upper flange has three windows; its rim and spokes are what is left.
            var rim = Enumerable.Range(0, 49).Select(i => Around(bay, hub + (w * 19), radius * 0.97, Math.Tau * i / 48)).ToArray();
            model.Tube(rim, 4, new ColouredMaterial(Material.Steel, "#c3c5c2"));
            for (var k = 0; k < 3; k++)
            {
                var a = (k * Math.Tau / 3) + (x * 4);
                Point3[] spoke =
                [
                    Around(bay, hub + (w * 19), radius * 0.2, a - 0.7),
                    Around(bay, hub + (w * 19), radius * 0.97, a - 0.16),
                    Around(bay, hub + (w * 19), radius * 0.97, a + 0.16),
                    Around(bay, hub + (w * 19), radius * 0.2, a + 0.7)
                ];
                model.Facet(spoke, new ColouredMaterial(Material.Steel, "#c3c5c2"));
            }

            model.Turn(
                hub,
                w,
                new ColouredMaterial(Material.Steel, "#c3c5c2"),
                (radius * 0.3, 6),
                (radius * 0.3, 20),
                (radius * 0.12, 21),
                (radius * 0.1, 27));
        }

        // Still laced: from reel to reel past the heads.
        Point3[] tape =
        [
            bay.At(0.3 - (radius / bay.Width * 0.75), 0.4, 17),
            bay.At(0.42, 0.15, 17),
            bay.At(0.58, 0.15, 17),
            bay.At(0.7 + (radius / bay.Width * 0.5), 0.42, 17)
        ];
        for (var i = 0; i + 1 < tape.Length; i++) model.Facet(
            [tape[i] - (w * 6), tape[i + 1] - (w * 6), tape[i + 1] + (w * 6), tape[i] + (w * 6)],
            new ColouredMaterial(Material.Plastic, "#4a3224"));
        foreach (var x in new[] { 0.42, 0.58 }) model.Turn(bay.At(x, 0.15, 5), w, Bare, (6, 0), (6, 18));
        model.Block(bay.Face, bay.U(0.44, 0.56), bay.V(0.09, 0.24), (p + 5, p + 26), new ColouredMaterial(Material.Paint, "#4c4f50"), 3);
        for (var i = 0; i < 5; i++) Knob(bay, bay.At(0.12 + (i * 0.055), 0.1, 5), 7, "#2c2e31");
    }

    private void Clock(Bay bay)
    {
        var (at, radius, w) = (bay.At(0.22, 0.44), bay.Height * 0.36, bay.Face.W);
        model.Turn(at, w, Dark, (radius * 1.14, 0), (radius * 1.14, 9), (radius * 1.02, 12), (radius, 4));
        var dial = at + (w * 4.4);
        model.Turn(at, w, new ColouredMaterial(Material.Paper, "#ece7d6"), (radius, 3.6), (radius, 4.4));
        // The silence periods, as they are painted on a radio room's clock: 00-03, 30-33 and 15-18, 45-48.
        foreach (var (minute, colour) in new[] { (0, "#4d7a35"), (30, "#4d7a35"), (15, "#a3301f"), (45, "#a3301f") })
        {
            var wedge = Enumerable.Range(0, 5)
                .Select(i => Around(bay, dial + (w * 0.3), radius * 0.96, (minute + (i * 0.75)) * Math.Tau / 60));
            model.Facet([dial + (w * 0.3), .. wedge], new ColouredMaterial(Material.Paper, colour));
        }

        model.Turn(dial, w, new ColouredMaterial(Material.Paper, "#ece7d6"), (radius * 0.6, 0.4), (radius * 0.6, 0.7));
        for (var i = 0; i < 12; i++) model.Facet(Hand(
            Around(bay, dial + (w * 0.9), radius * 0.82, i * Math.Tau / 12),
            Around(bay, dial + (w * 0.9), radius * 0.95, i * Math.Tau / 12),
            1.1,
            w), new ColouredMaterial(Material.Print, "#1c1d20"));
        model.Facet(
            Hand(dial + (w * 2), Around(bay, dial + (w * 2), radius * 0.55, 1.19), 1.8, w),
            new ColouredMaterial(Material.Print, "#1c1d20"));
        model.Facet(
            Hand(dial + (w * 2.6), Around(bay, dial + (w * 2.6), radius * 0.82, 0.32), 1.3, w),
            new ColouredMaterial(Material.Print, "#1c1d20"));
        for (var i = 0; i < 14; i++)
        {
            // Key switches: a nut and a lever, up or down as it was left.
            var key = bay.At(0.42 + (i % 7 * 0.08), i < 7 ? 0.55 : 0.25);
            model.Turn(key, w, Bare, (6.5, 0), (6.5, 3));
            model.Tube(
                [key, key + (w * 16) + (Point3.Up * (i % 4 == 1 ? 7 : -7))],
                5,
                i % 3 == 0 ? new ColouredMaterial(Material.Plastic, "#7a2f26") : Dark);
        }
    }

    private static Point3[] Hand(Point3 a, Point3 b, double half, Point3 w)
    {
        var across = (b - a).Unit.Cross(w) * half;
        return [a - across, b - across, b + across, a + across];
    }

    private void Digits(Bay bay, string text, double x)
    {
        Window(bay, x, 0.93, 0.15, 0.7, new ColouredMaterial(Material.Glass, "#120c0b"));
        model.Write(
            text,
            bay.At(x + 0.04, 0.27, 0.5),
            U(bay),
            Point3.Up,
            Math.Min(bay.Height * 0.28, bay.Width * 0.4 / StrokeFont.Width(text, 1)),
            "#3a2420");
        for (var i = 0; i < 5; i++) Knob(bay, bay.At(0.1 + (i * 0.07), 0.3), 8, "#2c2e31");
    }

    private void Meters(Bay bay, int count)
    {
        for (var i = 0; i < count; i++)
        {
            var (x0, x1) = (0.1 + (i * 0.3), 0.34 + (i * 0.3));
            Window(bay, x0, x1, 0.14, 0.74, new ColouredMaterial(Material.Paper, "#e9e4d2"));
            var pivot = bay.At((x0 + x1) / 2, 0.2, 0.9);
            var radius = Math.Min(bay.Height * 0.42, bay.Width * 0.145);
            for (var k = -8; k <= 8; k++)
            {
                var (a, w) = (k * 0.1, bay.Face.W);
                model.Facet(
                    Hand(Around(bay, pivot, radius, a), Around(bay, pivot, radius * (k % 4 == 0 ? 1.12 : 1.06), a), 0.5, w),
                    new ColouredMaterial(Material.Print, "#1c1d20"));
                if (k < 8) model.Facet(
                    Hand(Around(bay, pivot, radius, a), Around(bay, pivot, radius, a + 0.1), 0.4, w),
                    new ColouredMaterial(Material.Print, k > 4 ? "#a3301f" : "#1c1d20"));
            }

            model.Facet(
                Hand(pivot, Around(bay, pivot + (bay.Face.W * 2), radius * 1.02, -0.8), 0.6, bay.Face.W),
                new ColouredMaterial(Material.Print, "#1c1d20"));
            model.Block(bay.Face, bay.U(x0, x1), bay.V(0.14, 0.26), (FrontFace.Proud, FrontFace.Proud + 4), Dark, 1);
        }

        for (var i = 0; i < 3; i++) Lamp(bay, bay.At(0.76 + (i * 0.06), 0.66));
        Knob(bay, bay.At(0.84, 0.34), Math.Min(18, bay.Height * 0.16), "#1f2123");
    }

    private void Bars(Bay bay)
    {
        var p = FrontFace.Proud;
        model.Block(bay.Face, bay.U(0.04, 0.96), bay.V(0.06, 0.82), (p, p + 3), new ColouredMaterial(Material.Plastic, "#5a4030"), 2);
        foreach (var y in new[] { 0.24, 0.58 })
        {
            foreach (var x in new[] { 0.1, 0.9 }) model.Turn(
                bay.At(x, y + 0.065, 3), bay.Face.W, new ColouredMaterial(Material.Glass, "#7a2f26"), (16, 0), (12, 10), (14, 20));
            model.Block(
                bay.Face,
                bay.U(0.08, 0.92),
                bay.V(y, y + 0.13),
                (p + 22, p + 30),
                new ColouredMaterial(Material.Brass, Palette.Copper),
                1.5);
            for (var i = 0; i < 6; i++) Furniture.Bolt(model, bay.At(0.14 + (i * 0.144), y + 0.065, 30), bay.Face.W, 8);
        }
    }

    private void Blank(Bay bay)
    {
        for (var y = 0.16; y < 0.7; y += 0.1)
        {
            model.Facet(
                [bay.At(0.2, y, 0.3), bay.At(0.8, y, 0.3), bay.At(0.8, y + 0.03, 0.3), bay.At(0.2, y + 0.03, 0.3)],
                new ColouredMaterial(Material.Plastic, "#17181a"));
        }
    }
}

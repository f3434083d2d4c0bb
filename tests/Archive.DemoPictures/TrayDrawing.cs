namespace Archive.DemoPictures;

/// <summary>Draws trays with the cables in them, as far as they lie beyond a plane (nearer parts would hide the subject).</summary>
internal sealed class TrayDrawing(Sheet sheet, Demo demo, Looms looms, Func<Point3, bool> shown)
{
    /// <summary>All but the near rail.</summary>
    public void Back(Ladder tray)
    {
        var below = sheet.Camera.Eye.Z < tray.Path[0].Z;
        Hangers(tray);
        if (below) Cables(tray);
        Rungs(tray);
        Rail(tray, far: true);
        if (!below) Cables(tray);
    }

    /// <summary>The near rail, which hides the feet of what climbs into the tray.</summary>
    public void Front(Ladder tray)
    {
        Rail(tray, far: false);
        Plate(tray);
    }

    /// <summary>Cables that climb from a frame into the trays.</summary>
    public void Drops(Stand stand)
    {
        foreach (var rear in looms.At(stand).Where(r => r.Run.LiesIn.Count > 0 && shown(r.Head)))
        {
            var tray = rear.Run.LiesIn.Select(id => demo.Ladders[id]).MinBy(t => Looms.Nearest(t, rear.Head).Off)!;
            var stretch = looms.In(tray).First(s => s.Run == rear.Run);
            var top = Point(stretch, Looms.Nearest(tray, rear.Head).Along);
            var over = top + (Point3.Up * 20);
            Cable(Curve.Rounded([rear.Head, Point3.Between(rear.Head, over with { X = rear.Head.X, Y = rear.Head.Y }, 0.35), over, top], 120), rear.Run.Kind, stretch.Diameter);
        }
    }

    private void Cables(Ladder tray)
    {
        var crossings = looms.CrossingsIn(tray);
        foreach (var stretch in looms.In(tray).OrderBy(s => s.Layer).ThenBy(s => s.Run.Id, StringComparer.Ordinal))
        {
            var bridges = crossings.Where(c => c.Upper == stretch).Select(c => (c.At - c.Half, c.At + c.Half)).OrderBy(b => b.Item1).ToList();
            var from = stretch.Low;
            foreach (var (low, high) in bridges)
            {
                Piece(stretch, from, low);
                from = high;
            }

            Piece(stretch, from, stretch.High);
        }

        foreach (var crossing in crossings) Bridge(crossing);
    }

    private void Piece(Stretch stretch, double from, double to)
    {
        var n = Math.Max(2, (int)((to - from) / 60));
        if (to <= from) return;
        foreach (var part in Visible([.. Enumerable.Range(0, n + 1).Select(i => Point(stretch, from + ((to - from) * i / n)))]))
        {
            Cable(part, stretch.Run.Kind, stretch.Diameter);
            if (stretch.Run.Label is { } label) Sleeves(stretch, label, from, to);
        }
    }

    /// <summary>Over the other and back, with the other's shadow under it.</summary>
    private void Bridge(Crossing crossing)
    {
        var (upper, lower) = (crossing.Upper, crossing.Lower);
        var reach = lower.Lane - upper.Lane + (Math.Sign(lower.Lane - upper.Lane) * (upper.Diameter + lower.Diameter) * 0.55);
        var rise = (Math.Max(0, lower.Layer - upper.Layer) * 11) + lower.Diameter + 6;
        var line = Enumerable.Range(0, 25).Select(i => i / 24.0).Select(t =>
        {
            var hump = 0.5 - (0.5 * Math.Cos(Math.Tau * t));
            var along = crossing.At + (crossing.Half * ((2 * t) - 1));
            return Point(upper, along) + (Looms.At(upper.Tray, along).Across * (reach * hump)) + (Point3.Up * (rise * hump));
        }).ToArray();
        foreach (var part in Visible(line)) Cable(part, upper.Run.Kind, upper.Diameter);
    }

    private static Point3 Point(Stretch stretch, double along)
    {
        var (point, across) = Looms.At(stretch.Tray, along);
        var chance = Chance.For(stretch.Run.Id + stretch.Tray.Id);
        var (phase, sway) = (chance.Between(0, 6), chance.Between(1.5, 5));
        var wander = sway * Math.Sin((along / chance.Between(260, 480)) + phase);
        return point + (across * (stretch.Lane + wander)) + (Point3.Up * ((stretch.Diameter / 2) + (stretch.Layer * 11)));
    }

    private void Cable(Point3[] line, string kind, double d)
    {
        var colour = Wash.Sheath(kind);
        if (sheet.Camera.Scale(line[line.Length / 2]) * d < 1.2)
        {
            sheet.Stroke(line, Wash.Darker(colour, 0.3), d);
            return;
        }

        sheet.Stroke([.. line.Select(p => p - (Point3.Up * (d * 0.5)) + new Point3(5, 5, 0))], Wash.Shadow, d * 1.1, 0.3);
        sheet.Stroke(line, Wash.Darker(colour, 0.62), d * 1.3);
        sheet.Stroke(line, colour, d);
        sheet.Stroke([.. line.Select(p => p + new Point3(-d * 0.16, -d * 0.16, d * 0.2))], Wash.Lighter(colour, 0.5), d * 0.26, 0.75);
        if (kind.StartsWith("earth", StringComparison.Ordinal)) sheet.Stroke(line, "#d8c25a", d * 0.22);
    }

    /// <summary>A sleeve near the ends of the stretch, where one reaches up to read it.</summary>
    private void Sleeves(Stretch stretch, string label, double from, double to)
    {
        if (to - from < 700) return;
        var at = from + 300 + (Chance.For(stretch.Run.Id).Between(0, 1) * (to - from - 400));
        var (a, b) = (Point(stretch, at), Point(stretch, at + 92));
        if (!shown(a) || !shown(b)) return;
        if (sheet.Camera.Project(a).X > sheet.Camera.Project(b).X) (a, b) = (b, a);
        var (u, lift) = ((b - a).Unit, Point3.Up * (stretch.Diameter * 0.7));
        var v = u.Cross(Point3.Up).Unit;
        if (sheet.Camera.Project(a + (v * 10)).Y > sheet.Camera.Project(a).Y) v *= -1;
        var thick = Math.Max(7, stretch.Diameter + 1);
        sheet.Stroke([a + lift, b + lift], "#1d1e20", thick);
        var capital = Math.Min(4.6, 88 / Lettering.Width(label, 1));
        sheet.Write(label, a + lift + (u * 2) - (v * (capital / 2)), u, v, capital, "#f3f1ea");
    }

    private void Rungs(Ladder tray)
    {
        for (var s = 60.0; s < Looms.Length(tray); s += 250)
        {
            var (p, across) = Looms.At(tray, s);
            if (!shown(p)) continue;
            var half = across * (tray.Width / 2);
            sheet.Stroke([p - half, p + half], "#6f7270", 24);
            sheet.Stroke([p - half + (Point3.Up * 4), p + half + (Point3.Up * 4)], "#b3b6b1", 12);
        }
    }

    private void Rail(Ladder tray, bool far)
    {
        for (var i = 0; i + 1 < tray.Path.Count; i++)
        {
            var (a, b) = (tray.Path[i], tray.Path[i + 1]);
            var half = Point3.Up.Cross((b - a).Unit) * (tray.Width / 2);
            var middle = Point3.Between(a, b, 0.5);
            foreach (var side in new[] { half, half * -1 })
            {
                var isFar = (sheet.Camera.Eye - middle).Dot(side) < 0;
                if (isFar != far) continue;
                var n = Math.Max(1, (int)((b - a).Length / 500));
                for (var k = 0; k < n; k++) Web(Point3.Between(a, b, (double)k / n) + side, Point3.Between(a, b, (k + 1.0) / n) + side, side, tray.Depth);
            }
        }
    }

    private void Web(Point3 a, Point3 b, Point3 side, double depth)
    {
        if (!shown(a) || !shown(b)) return;
        var up = Point3.Up * depth;
        var inside = (sheet.Camera.Eye - a).Dot(side) < 0;
        sheet.Fill([a, b, b + up, a + up], inside ? "#969a96" : "#b6b9b3");
        sheet.Ink([a + up, b + up], 1.3);
        sheet.Ink([a, b], 1.1);
        var lip = side.Unit * -16;
        if (sheet.Camera.Eye.Z > a.Z + depth) sheet.Fill([a + up, b + up, b + up + lip, a + up + lip], "#d2d4cd", 0.8);
    }

    private void Hangers(Ladder tray)
    {
        var ceiling = demo.Walls.Ceiling;
        for (var s = 500.0; s < Looms.Length(tray); s += 1500)
        {
            var (p, across) = Looms.At(tray, s);
            if (!shown(p) || sheet.Camera.Eye.Z > p.Z) continue;
            foreach (var side in new[] { -1, 1 })
            {
                var foot = p + (across * (side * ((tray.Width / 2) + 12)));
                sheet.Stroke([foot, foot with { Z = ceiling }], "#7b7d7c", 10);
            }
        }
    }

    /// <summary>The tray's own number, stencilled on the near rail's lip every two metres.</summary>
    private void Plate(Ladder tray)
    {
        for (var s = 700.0; s < Looms.Length(tray); s += 2000)
        {
            var (p, across) = Looms.At(tray, s);
            var near = (sheet.Camera.Eye - p).Dot(across) > 0 ? 1 : -1;
            var foot = p + (across * (near * ((tray.Width / 2) + 1))) + (Point3.Up * (tray.Depth * 0.25));
            if (!shown(foot)) continue;
            var along = Looms.At(tray, s + 10).Point - p;
            if (sheet.Camera.Project(foot + along).X < sheet.Camera.Project(foot).X) along *= -1;
            sheet.Write(tray.Id, foot, along.Unit, Point3.Up, tray.Depth * 0.45, "#3a3c3e");
        }
    }

    private IEnumerable<Point3[]> Visible(Point3[] line)
    {
        var run = new List<Point3>();
        foreach (var p in line)
        {
            if (shown(p) && sheet.Camera.Depth(p) > 70)
            {
                run.Add(p);
                continue;
            }

            if (run.Count > 1) yield return [.. run];
            run.Clear();
        }

        if (run.Count > 1) yield return [.. run];
    }
}

namespace Archive.DemoPictures;

/// <summary>Ladder trays, their hangers, and the cables that lie in them.</summary>
/// <param name="shown">What is before the camera and nearer than the subject is left away.</param>
/// <param name="trayShown">And these trays with it.</param>
internal sealed class TrayModel(Model model, DemoArchive demo, CableLayout looms, Func<Point3, bool> shown, Func<Ladder, bool> trayShown)
{
    private static readonly ColouredMaterial Steel = new(Material.Steel, "#9b9f9c");
    private readonly CablePaths _ways = new(looms, demo);

    public void Build()
    {
        foreach (var tray in demo.Ladders.Values.Where(trayShown).OrderBy(t => t.Id, StringComparer.Ordinal)) Build(tray);
        Cables();
    }

    private void Build(Ladder tray)
    {
        Hangers(tray);
        Rungs(tray);
        for (var i = 0; i + 1 < tray.Path.Count; i++) Rails(tray, tray.Path[i], tray.Path[i + 1]);
        Stencil(tray);
        foreach (var stretch in looms.In(tray).Where(s => s.Run.Label is not null)) Print(stretch);
    }

    /// <summary>Every cable of the hall, jack to jack.</summary>
    private void Cables()
    {
        foreach (var run in demo.Runs)
        {
            var (d, matter) = (demo.Diameter(run), new ColouredMaterial(Material.Sheath, Palette.Sheath(run.Kind)));
            foreach (var part in _ways.Of(run, trayShown).SelectMany(Visible))
                Cable(part, d, matter, run.Kind.StartsWith("earth", StringComparison.Ordinal));
        }
    }

    private void Cable(List<Point3> part, double d, ColouredMaterial matter, bool earth)
    {
        if (!model.Camera.Sees(part)) return;
        model.Tube(part, d, matter);
        if (!earth || model.Camera.Detail(part[part.Count / 2]) * d < 3) return;
        // A yellow line winds round an earth.
        var spiral = new List<Point3>();
        for (var i = 0; i + 1 < part.Count; i++)
        {
            var along = (part[i + 1] - part[i]).Unit;
            var u = along.Cross(Math.Abs(along.Z) < 0.9 ? Point3.Up : new Point3(1, 0, 0)).Unit;
            var (v, a) = (along.Cross(u), i * 0.9);
            spiral.Add(part[i] + (((u * Math.Cos(a)) + (v * Math.Sin(a))) * (d * 0.4)));
        }

        model.Tube(spiral, d * 0.32, new ColouredMaterial(Material.Sheath, "#c9b23e"));
    }

    /// <summary>The sleeve near an end of the stretch, where one reaches up to read it.</summary>
    private void Print(Stretch stretch)
    {
        var (from, to) = (stretch.Low, stretch.High);
        if (to - from < 700) return;
        var at = from + 300 + (SeededRandom.For(stretch.Run.Id).Between(0, 1) * (to - from - 500));
        List<Point3> line = [.. Enumerable.Range(0, 6).Select(i => _ways.Point(stretch, at + (i * 18.4)))];
        if (!line.TrueForAll(p => shown(p))) return;
        if (model.Camera.Project(line[0]).X > model.Camera.Project(line[^1]).X) line.Reverse();
        var v = (line[^1] - line[0]).Unit.Cross(Point3.Up).Unit;
        if (model.Camera.Project(line[0] + (v * 10)).Y > model.Camera.Project(line[0]).Y) v *= -1;
        Sleeve.Build(model, line, v, Point3.Up, Math.Max(7.4, stretch.Diameter + 1.2), stretch.Run.Label!);
    }

    private void Rungs(Ladder tray)
    {
        for (var s = 60.0; s < CableLayout.Length(tray); s += 250)
        {
            var (p, across) = CableLayout.At(tray, s);
            if (!shown(p)) continue;
            var plane = new Face(p - (across * (tray.Width / 2)), across, across.Cross(Point3.Up), tray.Width);
            model.Block(plane, (0, tray.Width), (-12, 10), (-12, 12), Steel, 2);
        }
    }

    private void Rails(Ladder tray, Point3 a, Point3 b)
    {
        var along = (b - a).Unit;
        var across = Point3.Up.Cross(along);
        var n = Math.Max(1, (int)((b - a).Length / 500));
        foreach (var side in new[] { -1, 1 })
        {
            for (var k = 0; k < n; k++)
            {
                var (p, q) = (Point3.Between(a, b, (double)k / n), Point3.Between(a, b, (k + 1.0) / n));
                if (!shown(p) || !shown(q)) continue;
                var plane = new Face(p + (across * (side * tray.Width / 2)), along, across * side, (q - p).Length);
                model.Block(plane, (0, plane.Width), (-14, tray.Depth), (0, 3), Steel);
                model.Block(plane, (0, plane.Width), (tray.Depth - 3, tray.Depth), (-16, 3), Steel, 1);
                model.Block(plane, (0, plane.Width), (-17, -14), (-16, 3), Steel);
                if (k % 4 == 3) Splice(plane, tray.Depth);
            }
        }
    }

    /// <summary>A plate with four bolts where two lengths of rail meet.</summary>
    private void Splice(Face plane, double depth)
    {
        model.Block(plane, (plane.Width - 90, plane.Width), (6, depth - 12), (3, 6), Steel, 1);
        foreach (var u in new[] { 78, 56, 34, 12 }) Furniture.Bolt(model, plane.At(plane.Width - u, depth * 0.45, 6), plane.W, 5);
    }

    private void Hangers(Ladder tray)
    {
        for (var s = 500.0; s < CableLayout.Length(tray); s += 1500)
        {
            var (p, across) = CableLayout.At(tray, s);
            // One that would stand before the lens is not climbed past.
            if (!shown(p) || ((p - model.Camera.Eye) with { Z = 0 }).Length < (model.Camera.Eye.Z > p.Z ? 2000 : 700)) continue;
            foreach (var side in new[] { -1, 1 })
            {
                var foot = p + (across * (side * ((tray.Width / 2) + 14)));
                model.Tube([foot - (Point3.Up * 40), foot with { Z = demo.Walls.Ceiling }], 10, Steel);
                model.Turn(foot - (Point3.Up * 26), Point3.Up, Steel, (10, 0), (10, 8));
            }

            var bar = new Face(p - (across * ((tray.Width / 2) + 34)), across, across.Cross(Point3.Up), tray.Width + 68);
            model.Block(bar, (0, bar.Width), (-38, -17), (-20, 20), Steel, 2);
        }
    }

    /// <summary>The tray's own number, stencilled on both rails every two metres.</summary>
    private void Stencil(Ladder tray)
    {
        for (var s = 700.0; s < CableLayout.Length(tray); s += 2000)
        {
            var (p, across) = CableLayout.At(tray, s);
            var near = (model.Camera.Eye - p).Dot(across) > 0 ? 1 : -1;
            var foot = p + (across * (near * ((tray.Width / 2) + 3.1))) + (Point3.Up * (tray.Depth * 0.25));
            if (!shown(foot)) continue;
            var along = CableLayout.At(tray, s + 10).Point - p;
            if (model.Camera.Project(foot + along).X < model.Camera.Project(foot).X) along *= -1;
            model.Write(tray.Id, foot, along.Unit, Point3.Up, tray.Depth * 0.45, "#232527");
        }
    }

    private IEnumerable<List<Point3>> Visible(List<Point3> line)
    {
        var run = new List<Point3>();
        foreach (var p in line)
        {
            if (shown(p))
            {
                if (run.Count == 0 || (p - run[^1]).Length > 0.5) run.Add(p);
                continue;
            }

            if (run.Count > 1) yield return run;
            run = [];
        }

        if (run.Count > 1) yield return run;
    }
}

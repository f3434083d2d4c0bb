namespace Archive.DemoPictures;

/// <summary>The way of one cable on the rear of a frame: out of its jack, down, sideways to the rail, and up to the trays.</summary>
internal sealed class RearRun
{
    private const double Out = 46;
    private const double Rail = 30;
    private const double SleeveFrom = 20;
    private const int Across = 12;

    private RearRun(DemoArchive demo, Face face, Rack rack, (Place End, Run Run, Panel Panel) end, int order)
    {
        (Face, End, Run) = (face, end.End, end.Run);
        var (u, v) = Port(face, end.Panel, end.End.Port);
        var left = u < face.Width / 2;
        var toward = left ? -1 : 1;
        var railU = left ? Rail - 14 + (order % 4 * 10) : face.Width - Rail + 14 - (order % 4 * 10);
        var outward = 34 + (order / 4 * 10);
        var run = v + Level(end.Panel, end.End.Port, demo.Diameter(end.Run));
        var length = Math.Clamp(Math.Abs(railU - u) - 52, 44, 92);

        // It bends towards the rail only behind its sleeve, which is stiff.
        var bend = Math.Max(Math.Abs(railU - u) - 28, SleeveFrom + length + 12);
        Line = Curve.Rounded(
            // What comes later lies over what is in the bundle already.
            [
                face.At(u, v, 8),
                face.At(u, v - 1, Out),
                face.At(u, run, Out),
                face.At(u + (toward * bend), run, Out),
                face.At(railU, run + 12, Math.Max(Out, outward)),
                face.At(railU, run + 120, outward),
                face.At(railU, rack.Height, outward)
            ], 19);
        var near = u + (toward * SleeveFrom);
        var (from, to) = left ? (near - length, near) : (near, near + length);
        Sleeve = (face.At(from, run, Out + 1), face.At(to, run, Out + 1));
    }

    public Face Face { get; }

    public Place End { get; }

    public Run Run { get; }

    public Point3[] Line { get; }

    /// <summary>From and to of the sleeve, left to right.</summary>
    public (Point3 From, Point3 To) Sleeve { get; }

    /// <summary>Where it leaves the frame at the top.</summary>
    public Point3 Head => Line[^1];

    /// <summary>Every recorded cable of a frame, from the floor up.</summary>
    public static IReadOnlyList<RearRun> All(DemoArchive demo, Face face, Rack rack)
    {
        var (left, right) = (0, 0);
        return
        [
            .. demo.RunsAt[rack.Id]
                .Select(pair => (pair.End, pair.Run, Panel: rack.Panels.First(p => p.Id == pair.End.Panel)))
                .OrderBy(e => Port(face, e.Panel, e.End.Port).V).ThenBy(e => Port(face, e.Panel, e.End.Port).U)
                .Select(e => new RearRun(demo, face, rack, e, Port(face, e.Panel, e.End.Port).U < face.Width / 2 ? left++ : right++)),
        ];
    }

    /// <summary>Where a port lies on the rear, as u and v of its face.</summary>
    public static (double U, double V) Port(Face face, Panel panel, string port)
    {
        var index = Math.Max(0, panel.Ports.ToList().IndexOf(port));
        var rows = (panel.Ports.Count + Across - 1) / Across;
        var across = Math.Min(Across, (panel.Ports.Count + rows - 1) / rows);
        var span = face.Width - 190;
        // Seen from the rear, the count runs from right to left.
        var u = face.Width - 95 - (across == 1 ? span / 2 : span * (index % across) / (across - 1));
        var v = rows == 1
            ? panel.FromFloor + (panel.Height * 0.55)
            : panel.Top - (panel.Height * (0.3 + (0.46 * (index / across) / (rows - 1))));
        return (u, v);
    }

    /// <summary>
    /// How far from its jack a cable runs sideways, so that neighbours lie one under the other; earths, near the floor, go up.
    /// </summary>
    private static double Level(Panel panel, string port, double diameter)
    {
        var index = Math.Max(0, panel.Ports.ToList().IndexOf(port)) % Across;
        var fromEdge = Math.Min(index, Math.Min(Across, panel.Ports.Count) - 1 - index);
        var step = Math.Max(11, diameter + 2.5);
        return panel.Id == "EB" ? 40 + (fromEdge * step) : -26 - (fromEdge * step);
    }
}

/// <summary>Soft lines.</summary>
internal static class Curve
{
    /// <summary>A line through tangles whose corners are rounded off, as a cable bends.</summary>
    public static Point3[] Rounded(IReadOnlyList<Point3> knots, double radius)
    {
        var line = new List<Point3> { knots[0] };
        for (var i = 1; i + 1 < knots.Count; i++)
        {
            var (a, b, c) = (knots[i - 1], knots[i], knots[i + 1]);
            var cut = Math.Min(radius, Math.Min((b - a).Length, (c - b).Length) / 2);
            var (from, to) = (b + ((a - b).Unit * cut), b + ((c - b).Unit * cut));
            for (var k = 0; k <= 12; k++)
            {
                var t = k / 12.0;
                line.Add(Point3.Between(Point3.Between(from, b, t), Point3.Between(b, to, t), t));
            }
        }

        line.Add(knots[^1]);
        return [.. line];
    }
}

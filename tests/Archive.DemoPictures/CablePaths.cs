namespace Archive.DemoPictures;

/// <summary>The whole way of a cable through the hall, from jack to jack.</summary>
internal sealed class CablePaths(CableLayout looms, DemoArchive demo)
{
    private const double Step = 60;
    private const double Bend = 110;
    private readonly Dictionary<Stretch, Crossing[]> _over = demo.Ladders.Values
        .SelectMany(looms.CrossingsIn)
        .GroupBy(c => c.Upper)
        .ToDictionary(g => g.Key, g => g.ToArray());

    /// <summary>Points along a cable and each of its tails; nothing where it has no end in this hall.</summary>
    /// <param name="shown">Trays that are shown: in others it is left away.</param>
    public IEnumerable<List<Point3>> Of(Run run, Func<Ladder, bool> shown)
    {
        var rears = run.Ends
            .Where(e => demo.Stands.ContainsKey(e.Rack))
            .Select(e => looms.At(demo.Stands[e.Rack]).First(r => r.Run == run && r.End == e))
            .ToList();
        if (rears.Count == 0) yield break;
        var stretches = run.LiesIn.Select(id => looms.In(demo.Ladders[id]).First(s => s.Run == run)).ToList();
        if (stretches.Count == 0)
        {
            yield return Untrayed([.. Rise(rears[0])], rears);
            yield break;
        }

        var way = new List<Point3>();
        for (var i = 0; i < stretches.Count; i++)
        {
            var (stretch, isLast) = (stretches[i], i + 1 == stretches.Count);
            if (!shown(stretch.Tray))
            {
                yield return way;
                way = [];
                continue;
            }

            // From a tray that is left away one still sees it come, and into one, go.
            if (i > 0 && !shown(stretches[i - 1].Tray)) way.AddRange(Joint(stretches[i - 1], stretch));
            if (i == 0) way.AddRange([.. Rise(rears[0]), .. Climb(Rise(rears[0])[^1], stretch, stretch.From, stretch.To)]);
            way.AddRange(Lie(stretch, isLast && rears.Count < 2));
            if (isLast && rears.Count > 1)
                way.AddRange(Enumerable.Reverse([.. Rise(rears[^1]), .. Climb(Rise(rears[^1])[^1], stretch, stretch.To, stretch.From)]));
            else if (!isLast) way.AddRange(Joint(stretch, stretches[i + 1]));
        }

        yield return way;
        foreach (var tail in rears.Skip(1).SkipLast(1))
            yield return Tail(tail, stretches.MinBy(s => CableLayout.Nearest(s.Tray, tail.Head).Off)!);
    }

    /// <summary>The tail of a harness: up to where the cable lies nearest.</summary>
    private List<Point3> Tail(RearRun rear, Stretch stretch)
    {
        var at = Math.Clamp(CableLayout.Nearest(stretch.Tray, rear.Head).Along, stretch.Low, stretch.High);
        return [.. Rise(rear), .. Climb(Rise(rear)[^1], stretch, at, at + 1 > stretch.High ? stretch.Low : stretch.High)];
    }

    /// <summary>From the jack to the top of the frame; behind a shut door, only where it comes out.</summary>
    private Point3[] Rise(RearRun rear)
    {
        if (demo.SeenFromBehind(rear.End.Rack)) return rear.Line;
        var within = rear.Head - (rear.Face.W * ((rear.Head - rear.Face.Origin).Dot(rear.Face.W) + 70));
        return [within - (Point3.Up * 60), within];
    }

    /// <summary>
    /// Where a cable lies at a place of a tray: in its lane, swaying a little, and over another where the record says so.
    /// </summary>
    public Point3 Point(Stretch stretch, double along)
    {
        var (point, across) = CableLayout.At(stretch.Tray, along);
        var chance = SeededRandom.For(stretch.Run.Id + stretch.Tray.Id);
        var (phase, sway) = (chance.Between(0, 6), chance.Between(1.5, 5));
        var lane = stretch.Lane + (sway * Math.Sin((along / chance.Between(260, 480)) + phase));
        var rise = (stretch.Diameter / 2) + 12 + stretch.Rise + (1.5 * Math.Sin((along / chance.Between(190, 330)) + phase));
        foreach (var crossing in _over.GetValueOrDefault(stretch, []))
        {
            var t = (along - crossing.At) / crossing.Half;
            if (Math.Abs(t) >= 1) continue;
            var (upper, lower) = (crossing.Upper, crossing.Lower);
            var hump = 0.5 + (0.5 * Math.Cos(Math.PI * t));
            var reach = lower.Lane - upper.Lane + (Math.Sign(lower.Lane - upper.Lane) * (upper.Diameter + lower.Diameter) * 0.55);
            lane += reach * hump;
            rise += (Math.Max(0, lower.Rise - upper.Rise) + lower.Diameter + 6) * Math.Min(1, hump * 1.8);
        }

        return point + (across * lane) + (Point3.Up * rise);
    }

    /// <summary>No tray: it goes over the tops to its neighbour, or down inside its own frame.</summary>
    private List<Point3> Untrayed(List<Point3> way, List<RearRun> rears)
    {
        var head = way[^1];
        if (rears.Count > 1 && rears[0].End.Rack != rears[1].End.Rack)
        {
            var rise = Rise(rears[1]);
            way.AddRange(Curve.Rounded([head, head + (Point3.Up * 60), rise[^1] with { Z = head.Z + 60 }, rise[^1]], 60));
            way.AddRange(rise.Reverse());
            return way;
        }

        way.AddRange(Curve.Rounded([
            head,
            head + (Point3.Up * 50),
            head + (Point3.Up * 50) - (rears[0].Face.W * 130),
            head - (rears[0].Face.W * 130) - (Point3.Up * 40)
        ], 40));
        return way;
    }

    /// <summary>From the head of a frame up, over the rail, and into the tray.</summary>
    private Point3[] Climb(Point3 head, Stretch stretch, double at, double to)
    {
        var into = Point(stretch, at + (Math.Sign(to - at) * Math.Min(Bend, Math.Abs(to - at) / 2)));
        var (axis, across) = CableLayout.At(stretch.Tray, at);
        var off = Math.Abs((head - axis).Dot(across));
        if (off < (stretch.Tray.Width / 2) - 20) return Curve.Rounded([head, head with { Z = into.Z }, into], 90);
        var rim = axis.Z + stretch.Tray.Depth + 25 + stretch.Rise;
        var inside = into with { X = Point(stretch, at).X, Y = Point(stretch, at).Y };
        return Curve.Rounded([head, head with { Z = rim }, Point3.Between(head, inside, 0.75) with { Z = rim }, into], 100);
    }

    private List<Point3> Lie(Stretch stretch, bool toTheEnd)
    {
        var sign = Math.Sign(stretch.To - stretch.From);
        var length = Math.Abs(stretch.To - stretch.From);
        var (from, to) = (Math.Min(Bend, length / 2), toTheEnd ? length : Math.Max(length - Bend, length / 2));
        var points = new List<Point3>();
        for (var s = from; s < to; s += _over.ContainsKey(stretch) ? Step / 2.5 : Step)
            points.Add(Point(stretch, stretch.From + (sign * s)));
        points.Add(Point(stretch, stretch.From + (sign * to)));
        return points;
    }

    private Point3[] Joint(Stretch a, Stretch b)
    {
        var (end, start) = (Lie(a, false)[^1], Lie(b, false)[0]);
        var (corner, next) = (Point(a, a.To), Point(b, b.From));
        return Curve.Rounded([
            end,
            corner with { X = (corner.X + next.X) / 2, Y = (corner.Y + next.Y) / 2 },
            next with { X = (corner.X + next.X) / 2, Y = (corner.Y + next.Y) / 2 },
            start
        ], 90);
    }
}

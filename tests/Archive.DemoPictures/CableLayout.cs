using System.Collections.Frozen;

namespace Archive.DemoPictures;

/// <summary>
/// The stretch of one cable that lies in one tray: where it comes in, where it goes out, in which lane it lies and how high above the
/// rungs.
/// </summary>
internal sealed record Stretch(Run Run, Ladder Tray, double From, double To, double Lane, double Rise, double Diameter)
{
    public double Low => Math.Min(From, To);

    public double High => Math.Max(From, To);
}

/// <summary>Where one cable crosses over another in a tray.</summary>
internal sealed record Crossing(Stretch Upper, Stretch Lower, double At, double Half);

/// <summary>How cables lie in the trays: lanes side by side, layer on layer, and over each other where the record says so.</summary>
internal sealed class CableLayout
{
    private readonly DemoArchive _demo;
    private readonly FrozenDictionary<string, IReadOnlyList<RearRun>> _rears;
    private readonly Dictionary<string, List<Stretch>> _stretches = [];
    private readonly Dictionary<string, List<Crossing>> _crossings = [];

    public CableLayout(DemoArchive demo)
    {
        _demo = demo;
        _rears =
            demo.Stands.Values.ToFrozenDictionary(s => s.Rack, s => RearRun.All(demo, Face.Of(s.Box, s.Faces * -1), demo.Racks[s.Rack]));
        var raw = demo.Runs.SelectMany(Spans).ToLookup(span => span.Tray.Id);
        foreach (var tray in demo.Ladders.Values)
        {
            _stretches[tray.Id] = [.. Laid(tray, raw[tray.Id])];
            _crossings[tray.Id] = [.. Crossed(_stretches[tray.Id])];
        }
    }

    /// <summary>The cables at the rear of a frame.</summary>
    public IReadOnlyList<RearRun> At(Stand stand) => _rears[stand.Rack];

    public IReadOnlyList<Stretch> In(Ladder tray) => _stretches[tray.Id];

    public IReadOnlyList<Crossing> CrossingsIn(Ladder tray) => _crossings[tray.Id];

    /// <summary>Distance along a tray of the place nearest to a point, and how far off in plan the point is.</summary>
    public static (double Along, double Off) Nearest(Ladder tray, Point3 to)
    {
        var (best, at, along) = (double.MaxValue, 0.0, 0.0);
        for (var i = 0; i + 1 < tray.Path.Count; i++)
        {
            var (a, b) = (tray.Path[i] with { Z = 0 }, tray.Path[i + 1] with { Z = 0 });
            var length = (b - a).Length;
            var t = Math.Clamp(((to with { Z = 0 }) - a).Dot(b - a) / (length * length), 0, 1);
            var off = (Point3.Between(a, b, t) - (to with { Z = 0 })).Length;
            if (off < best) (best, at) = (off, along + (t * length));
            along += length;
        }

        return (at, best);
    }

    /// <summary>A point of a tray's centre line, and the direction across it.</summary>
    public static (Point3 Point, Point3 Across) At(Ladder tray, double along)
    {
        for (var i = 0; i + 1 < tray.Path.Count; i++)
        {
            var (a, b) = (tray.Path[i], tray.Path[i + 1]);
            var length = (b - a).Length;
            if (along <= length || i + 2 == tray.Path.Count) return (Point3.Between(a, b, along / length), Point3.Up.Cross((b - a).Unit));
            along -= length;
        }

        throw new InvalidOperationException($"{tray.Id} has no path");
    }

    public static double Length(Ladder tray) => tray.Path.Zip(tray.Path.Skip(1), (a, b) => (b - a).Length).Sum();

    /// <summary>Where two trays come nearest, as distances along each.</summary>
    private static (double OnFirst, double OnSecond) Joint(Ladder first, Ladder second)
    {
        var (best, result) = (double.MaxValue, (0.0, 0.0));
        for (var s = 0.0; s <= Length(first); s += 10)
        {
            var (along, off) = Nearest(second, At(first, s).Point);
            if (off < best - 1e-9) (best, result) = (off, (s, along));
        }

        return result;
    }

    private Point3 Head(Run run, Place end) => _rears[end.Rack].First(r => r.Run == run && r.End == end).Head;

    private IEnumerable<(Run Run, Ladder Tray, double From, double To)> Spans(Run run)
    {
        var trays = run.LiesIn.Select(id => _demo.Ladders[id]).ToList();
        if (trays.Count == 0) yield break;
        var at = Nearest(trays[0], Head(run, run.Ends[0])).Along;
        for (var i = 0; i < trays.Count; i++)
        {
            double to, next = 0;
            if (i + 1 < trays.Count) (to, next) = Joint(trays[i], trays[i + 1]);
            else if (run.Ends.Count > 1) to = Nearest(trays[i], Head(run, run.Ends[^1])).Along;
            else to = at > Length(trays[i]) / 2 ? 0 : Length(trays[i]);
            yield return (run, trays[i], at, to);
            at = next;
        }
    }

    private IEnumerable<Stretch> Laid(Ladder tray, IEnumerable<(Run Run, Ladder Tray, double From, double To)> spans)
    {
        // Long runs were laid first and lie at the bottom and the sides, as a tray fills.
        var half = (tray.Width / 2) - 16;
        var (lane, rise, widest) = (-half, 0.0, 0.0);
        foreach (var span in Ordered(spans))
        {
            var d = _demo.Diameter(span.Run);
            if (lane + d > half) (lane, rise, widest) = (-half + (d * 0.5), rise + (widest * 0.9), 0);
            widest = Math.Max(widest, d);
            yield return new Stretch(span.Run, tray, span.From, span.To, lane + (d / 2), rise, d);
            lane += d + 3;
        }
    }

    /// <summary>Longest first; a cable that lies over another is laid beside it.</summary>
    private static List<(Run Run, Ladder Tray, double From, double To)> Ordered(
        IEnumerable<(Run Run, Ladder Tray, double From, double To)> spans)
    {
        var laid = new List<(Run Run, Ladder Tray, double From, double To)>();
        foreach (var span in spans.OrderByDescending(s => Math.Abs(s.To - s.From)).ThenBy(s => s.Run.Id, StringComparer.Ordinal))
        {
            var beside = laid.FindLastIndex(other => span.Run.LiesOver.Contains(other.Run.Id) || other.Run.LiesOver.Contains(span.Run.Id));
            laid.Insert(beside < 0 ? laid.Count : beside + 1, span);
        }

        return laid;
    }

    private static IEnumerable<Crossing> Crossed(List<Stretch> stretches)
    {
        var byId = stretches.ToDictionary(s => s.Run.Id);
        var taken = new List<Crossing>();
        foreach (var upper in stretches.OrderBy(s => s.Run.Id, StringComparer.Ordinal))
        {
            foreach (var id in upper.Run.LiesOver)
            {
                if (!byId.TryGetValue(id, out var lower)) continue;
                var (low, high) = (Math.Max(upper.Low, lower.Low), Math.Min(upper.High, lower.High));
                var half = Math.Clamp(Math.Abs(upper.Lane - lower.Lane) * 1.4, 110, 260);
                if (high - low < 2 * half) continue;
                // The first free place from about a fifth outwards, so that crossings run into neither each other nor a joint.
                var places = Enumerable.Range(0, 60)
                    .Select(i => (low + ((high - low) * 0.2)) + ((i % 2 == 0 ? 1 : -1) * ((i + 1) / 2) * 90.0))
                    .Where(at => at - half > low && at + half < high);
                var free = places.FirstOrDefault(at => taken.TrueForAll(c => Math.Abs(c.At - at) > c.Half + half
                    || (c.Upper != upper && c.Lower != upper && c.Upper != lower)), (low + high) / 2);
                var crossing = new Crossing(upper, lower, free, half);
                taken.Add(crossing);
                yield return crossing;
            }
        }
    }
}

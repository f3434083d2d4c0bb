using Archive.Records.Model;

namespace Archive.Wiring.Tests.Decabling;

/// <summary>
/// The least sum of releases by trying every order that keeps the rules, cable by cable: what the order is compared with.
/// </summary>
/// <remarks>The rules are recorded again here, pair by pair, and share nothing with what they test but the record.</remarks>
internal sealed class AllOrders
{
    private readonly Cable[] _cables;
    private readonly string[][] _frames;
    private readonly double[] _metres;
    private readonly Cable[] _left;
    private readonly CableFamily[] _families;
    private readonly bool[,] _over;
    private readonly bool[,] _before;
    private readonly bool[] _isEarth;
    private readonly bool[] _isOutside;
    private readonly Dictionary<string, CableFamily> _kindOf;
    private readonly Dictionary<string, string[]> _earthOf;

    public AllOrders(ArchiveModel record, string[] wanted)
    {
        _cables = [.. record.Cables.Where(cable =>
            cable is { IsWithdrawn: false, Fate.Value: not Fate.Leave } or { IsWithdrawn: false, Fate: null })];
        _frames = [.. _cables.Select(cable => cable.Ends.Select(end => end.At!.Value.Value.Frame).Distinct().ToArray())];
        _metres = [.. _cables.Select(cable => 0.5 * (cable.Length?.Value.Meters ?? 0))];
        _left = [.. record.Cables.Where(cable => cable.Fate?.Value == Fate.Leave)];
        _kindOf =
            record.Cables.ToDictionary(cable => cable.Id, cable => record.Find<CableKind>(cable.Kind!.Value.Value)!.Family!.Value.Value);
        _earthOf = EarthsOf(record);
        _families = [.. _cables.Select(cable => record.Find<CableKind>(cable.Kind!.Value.Value)!.Family!.Value.Value)];
        _over = Closed((a, b) => _cables[a].LiesOver.Any(under => under.Value == _cables[b].Id));
        _isEarth = [.. _cables.Select((_, at) => KnotOf(at).All(each => _families[each] == CableFamily.Earth))];
        _isOutside = [.. _cables.Select((_, at) => KnotOf(at).Any(each => _frames[each].Any(frame => !wanted.Contains(frame))))];
        var waits = Closed((a, b) => _over[a, b] || EarthWaits(b, a));
        _before = Closed((a, b) => _over[a, b] || (EarthWaits(b, a) && !waits[b, a]));
    }

    /// <summary>Whether an order keeps the rules.</summary>
    public bool Allows(IEnumerable<string> ids)
    {
        var done = 0;
        foreach (var id in ids)
        {
            var cable = Array.FindIndex(_cables, cable => cable.Id == id);
            if (!Candidates(done).Contains(cable)) return false;
            done |= 1 << cable;
        }

        return done == (1 << _cables.Length) - 1;
    }

    public double Sum(IEnumerable<string> ids)
    {
        var (done, sum) = (0, 0.0);
        foreach (var id in ids)
        {
            var cable = Array.FindIndex(_cables, cable => cable.Id == id);
            done |= 1 << cable;
            sum += Elapsed(done) * ReleasedBy(cable, done);
        }

        return sum;
    }

    /// <summary>The least sum, over all orders that keep the rules.</summary>
    public double Least()
    {
        var least = Enumerable.Repeat(double.PositiveInfinity, 1 << _cables.Length).ToArray();
        least[0] = 0;
        for (var done = 0; done < least.Length - 1; done++)
        {
            if (double.IsPositiveInfinity(least[done])) continue;
            foreach (var next in Candidates(done))
            {
                var then = done | (1 << next);
                least[then] = Math.Min(least[then], least[done] + (Elapsed(then) * ReleasedBy(next, then)));
            }
        }

        return least[^1];
    }

    private int ReleasedBy(int cable, int done) => _frames[cable].Count(frame => !Left(done).Any(other => _frames[other].Contains(frame)));

    private int[] Candidates(int done)
    {
        int[] left = [.. Left(done)];
        int[] begun = [.. left.Where(cable => KnotOf(cable).Any(each => !left.Contains(each)))];
        if (begun.Length > 0) return WithinKnot(begun);
        int[] free = [.. left.Where(cable => !left.Any(other => _over[other, cable] && !_over[cable, other]))];
        int[] ripe = [.. free.Where(cable => !Held(cable, left))];
        int[] outside = [.. left.Where(cable => _isOutside[cable])];
        return Begun(outside.Length == 0 ? ripe : [.. ripe.Where(cable => outside.Any(other => other == cable || _before[cable, other]))]);
    }

    private int[] Begun(int[] cables) =>
        [.. cables.GroupBy(cable => KnotOf(cable).First()).SelectMany(knot => WithinKnot([.. KnotOf(knot.First())]))];

    // Within a tangle: earths last.
    private int[] WithinKnot(int[] left)
    {
        int[] others = [.. left.Where(cable => _families[cable] != CableFamily.Earth)];
        return others.Length > 0 ? others : left;
    }

    // Minutes until some cables are pulled: their metres, and 6 for each cable that is off by then.
    private double Elapsed(int pulled)
    {
        var ids = _cables.Where((_, at) => (pulled >> at & 1) != 0).Select(cable => cable.Id).ToHashSet();
        // A tangle is disconnected whole before the first of its cables is pulled.
        foreach (var at in Enumerable.Range(0, _cables.Length).Where(at => KnotOf(at).Any(each => (pulled >> each & 1) != 0)))
            ids.Add(_cables[at].Id);
        var off = _kindOf.Where(kind => kind.Value == CableFamily.Power).Select(kind => kind.Key).ToHashSet();
        foreach (var id in ids) Disconnect(id, off);
        foreach (var left in _left.Where(left => FramesOf(left).Any(frame => _cables.Any(cable => FramesOf(cable).Contains(frame))
            && !Left(pulled).Any(other => WithKnot(other, pulled) && _frames[other].Contains(frame))))) Disconnect(left.Id, off);
        return (6 * off.Count) + _metres.Where((_, at) => (pulled >> at & 1) != 0).Sum();
    }

    // A tangle that is begun is as good as out: what stays is off before its first cable is pulled.
    private bool WithKnot(int cable, int pulled) => !KnotOf(cable).Any(each => (pulled >> each & 1) != 0);

    private void Disconnect(string id, HashSet<string> off)
    {
        if (off.Contains(id)) return;
        foreach (var frame in _earthOf.GetValueOrDefault(id, []))
        {
            foreach (var other in _cables.Concat(_left).Where(other => other.Id != id
                && FramesOf(other).Contains(frame)
                && !_earthOf.GetValueOrDefault(other.Id, []).Contains(frame))) Disconnect(other.Id, off);
        }

        off.Add(id);
    }

    private static string[] FramesOf(Cable cable) => [.. cable.Ends.Select(end => end.At!.Value.Value.Frame).Distinct()];

    // The frames that each earth is one of: those farthest from where an earth leaves the record.
    private Dictionary<string, string[]> EarthsOf(ArchiveModel record)
    {
        var earths = record.Cables.Where(cable => _kindOf[cable.Id] == CableFamily.Earth).ToDictionary(cable => cable.Id, FramesOf);
        var far = earths.Values
            .SelectMany(frames => frames)
            .Distinct()
            .ToDictionary(frame => frame, frame => earths.Values.Any(frames => frames is [var only] && only == frame) ? 0 : 99);
        for (var again = 0; again < far.Count; again++)
        {
            foreach (var frames in earths.Values)
            {
                foreach (var frame in frames) far[frame] = Math.Min(far[frame], frames.Min(each => far[each]) + 1);
            }
        }

        return earths.ToDictionary(earth => earth.Key, earth => earth.Value.Distinct().Count() == 1
            || earth.Value.All(frame => far[frame] == far[earth.Value[0]])
            ? earth.Value
            : [.. earth.Value.Where(frame => far[frame] > earth.Value.Min(each => far[each]))]);
    }

    private bool Held(int cable, int[] left) => left.Any(other => _before[other, cable] && !_over[cable, other] && other != cable);

    // An earth is pulled behind the other cables of its frames.
    private bool EarthWaits(int earth, int cable) =>
        _isEarth[earth]
            && !_isEarth[cable]
            && KnotOf(earth).SelectMany(each => _frames[each]).Intersect(KnotOf(cable).SelectMany(each => _frames[each])).Any();

    private IEnumerable<int> KnotOf(int cable) =>
        Enumerable.Range(0, _cables.Length).Where(other => other == cable || (_over[cable, other] && _over[other, cable]));

    private IEnumerable<int> Left(int done) => Enumerable.Range(0, _cables.Length).Where(cable => (done >> cable & 1) == 0);

    private bool[,] Closed(Func<int, int, bool> arrow)
    {
        var count = _cables.Length;
        var closed = new bool[count, count];
        for (var a = 0; a < count; a++)
        {
            for (var b = 0; b < count; b++) closed[a, b] = a != b && arrow(a, b);
        }

        for (var via = 0; via < count; via++)
        {
            for (var a = 0; a < count; a++)
            {
                for (var b = 0; b < count; b++) closed[a, b] |= closed[a, via] && closed[via, b];
            }
        }

        return closed;
    }
}

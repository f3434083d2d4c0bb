using Archive.Records.Model;

namespace Archive.Wiring.Tests.Decabling;

/// <summary>The least sum of releases by trying every order that keeps the rules, cable by cable: what the order is held against.</summary>
/// <remarks>The rules are written down anew here, pair by pair, and share nothing with what they test but the record.</remarks>
internal sealed class AllOrders
{
    private readonly Cable[] _cables;
    private readonly string[][] _frames;
    private readonly double[] _minutes;
    private readonly CableFamily[] _families;
    private readonly bool[,] _over;
    private readonly bool[,] _before;
    private readonly bool[] _isFeeder;
    private readonly bool[] _isEarth;
    private readonly bool[] _isOutside;

    public AllOrders(ArchiveModel record, string[] wanted)
    {
        _cables = [.. record.Cables.Where(cable => cable is { IsWithdrawn: false, Fate.Value: not Fate.Leave } or { IsWithdrawn: false, Fate: null })];
        _frames = [.. _cables.Select(cable => cable.Ends.Select(end => end.At!.Value.Value.Frame).Distinct().ToArray())];
        _minutes = [.. _cables.Select(cable => 6 + (0.5 * (cable.Length?.Value.Meters ?? 0)))];
        _families = [.. _cables.Select(cable => record.Find<CableKind>(cable.Kind!.Value.Value)!.Family!.Value.Value)];
        _over = Closed((a, b) => _cables[a].LiesOver.Any(under => under.Value == _cables[b].Id));
        _isFeeder = [.. _cables.Select((_, at) => KnotOf(at).Any(each => _families[each] == CableFamily.Power))];
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
        var (elapsed, done, sum) = (0.0, 0, 0.0);
        foreach (var id in ids)
        {
            var cable = Array.FindIndex(_cables, cable => cable.Id == id);
            (elapsed, done) = (elapsed + _minutes[cable], done | (1 << cable));
            sum += elapsed * ReleasedBy(cable, done);
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
            var elapsed = _minutes.Where((_, at) => (done >> at & 1) != 0).Sum();
            foreach (var next in Candidates(done))
            {
                var then = done | (1 << next);
                least[then] = Math.Min(least[then], least[done] + ((elapsed + _minutes[next]) * ReleasedBy(next, then)));
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
        int[] feeders = [.. free.Where(cable => _isFeeder[cable])];
        if (feeders.Length > 0) return Begun(feeders);
        int[] waiting = [.. left.Where(cable => _isFeeder[cable])];
        if (waiting.Length > 0) return Begun([.. free.Where(cable => waiting.Any(feeder => _over[cable, feeder])).Where(cable => !Held(cable, left))]);
        int[] ripe = [.. free.Where(cable => !Held(cable, left))];
        int[] outside = [.. left.Where(cable => _isOutside[cable])];
        return Begun(outside.Length == 0 ? ripe : [.. ripe.Where(cable => outside.Any(other => other == cable || _before[cable, other]))]);
    }

    private int[] Begun(int[] cables) => [.. cables.GroupBy(cable => KnotOf(cable).First()).SelectMany(knot => WithinKnot([.. KnotOf(knot.First())]))];

    // Within a knot: feeders first, earths last.
    private int[] WithinKnot(int[] left)
    {
        var first = left.Min(Rank);
        return [.. left.Where(cable => Rank(cable) == first)];

        int Rank(int cable) => _families[cable] switch { CableFamily.Power => 0, CableFamily.Earth => 2, _ => 1 };
    }

    private bool Held(int cable, int[] left) => left.Any(other => _before[other, cable] && !_over[cable, other] && other != cable);

    // An earth waits for the other cables of its frames; one that lies over a feeder waits only for such as do so too.
    private bool EarthWaits(int earth, int cable) =>
        _isEarth[earth] && !_isEarth[cable] && KnotOf(earth).SelectMany(each => _frames[each]).Intersect(KnotOf(cable).SelectMany(each => _frames[each])).Any()
        && (!LiesOverFeeder(earth) || LiesOverFeeder(cable));

    private bool LiesOverFeeder(int cable) => _isFeeder[cable] || Enumerable.Range(0, _cables.Length).Any(other => _isFeeder[other] && _over[cable, other]);

    private IEnumerable<int> KnotOf(int cable) => Enumerable.Range(0, _cables.Length).Where(other => other == cable || (_over[cable, other] && _over[other, cable]));

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

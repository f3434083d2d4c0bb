using System.Runtime.InteropServices;

namespace Archive.Halls.Placement;

/// <summary>
/// Looks for a better arrangement: simulated annealing (S. Kirkpatrick, C. D. Gelatt, M. P. Vecchi, "Optimization by simulated annealing",
/// 1983) over swaps, moves, reversals and gaps, from the arrangement as first given; then every single swap and move is tried until none
/// helps.
/// </summary>
/// <remarks>The same seed and number of steps give the same arrangement. A step costs the cables of the frames that it moves.</remarks>
internal sealed class PlacementAnnealing
{
    private const double Hot = 3;
    private const double Cold = 0.005;
    private const double GapStep = 100;

    private readonly PlacementProblem _problem;
    private readonly Arrangement _now;
    private readonly Random _random;
    private BayPlace[][] _best;
    private PlacementScore _bestScore;
    private PlacementScore _score;

    private PlacementAnnealing(PlacementProblem problem, BayPlace[][] start, int seed)
    {
        _problem = problem;
        _random = new Random(seed);
        _now = new Arrangement(problem);
        for (var bay = 0; bay < start.Length; bay++)
        {
            _now.Put(bay, start[bay]);
            _now.Settle(bay);
        }

        PlaceTheRest();
        _best = Kept();
        _score = _bestScore = _now.Score;
    }

    /// <summary>Searches.</summary>
    /// <param name="problem">What is tried on; of this search alone.</param>
    /// <param name="start">The arrangement as first given, by bay.</param>
    /// <param name="seed">Where chance begins.</param>
    /// <param name="steps">How many changes are tried.</param>
    /// <returns>The best that was found, never worse than <paramref name="start"/>.</returns>
    public static (BayPlace[][] Bays, PlacementScore Score) Run(
        PlacementProblem problem, BayPlace[][] start, int seed, int steps, CancellationToken cancellation)
    {
        var search = new PlacementAnnealing(problem, start, seed);
        search.Anneal(steps, cancellation);
        search.Polish(steps, cancellation);
        return (search._best, search._bestScore);
    }

    private void PlaceTheRest()
    {
        for (var frame = 0; frame < _problem.Frames.Length; frame++)
        {
            if (_now.BayOf(frame) >= 0) continue;
            for (var bay = 0; bay < _problem.Bays.Length && _now.BayOf(frame) < 0; bay++)
            {
                _now[bay].Add(new BayPlace(frame, 0));
                if (_now.Fits(bay)) _now.Settle(bay);
                else _now[bay].RemoveAt(_now[bay].Count - 1);
            }
        }
    }

    private void Anneal(int steps, CancellationToken cancellation)
    {
        for (var step = 0; step < steps; step++)
        {
            if ((step & 1023) == 0) cancellation.ThrowIfCancellationRequested();
            var heat = Hot * Math.Pow(Cold / Hot, (double)step / steps);
            Try(Change(), score => score <= _score || _random.NextDouble() < Math.Exp((_score.Energy - score.Energy) / heat));
        }
    }

    // Every swap of two frames, and every move of one before another, as long as anything helps.
    private void Polish(int most, CancellationToken cancellation)
    {
        Restore(_best);
        var tried = 0;
        for (var helped = true; helped && tried < most;)
        {
            helped = false;
            for (var one = 0; one < _problem.Frames.Length && tried < most; one++)
            {
                cancellation.ThrowIfCancellationRequested();
                for (var other = 0; other < _problem.Frames.Length; other++)
                {
                    if (one == other) continue;
                    if (other > one) helped |= Better(new Swap(one, other));
                    helped |= Better(new Move(one, _now.BayOf(other), _now.PlaceOf(other)));
                    tried += 2;
                }

                for (var bay = 0; bay < _problem.Bays.Length; bay++) helped |= Better(new Move(one, bay, int.MaxValue));
            }
        }

        bool Better(IChange change) => Try(change, score => score < _score);
    }

    private IChange Change()
    {
        var one = _random.Next(_problem.Frames.Length);
        var other = _random.Next(_problem.Frames.Length);
        return _random.Next(20) switch
        {
            < 9 => new Swap(one, other),
            < 14 => new Move(one, _now.BayOf(other), _now.PlaceOf(other)),
            < 16 => new Move(one, _random.Next(_problem.Bays.Length), int.MaxValue),
            < 18 => new Turn(one, other),
            _ => new Shift(one, GapStep * _random.Next(-8, 9)),
        };
    }

    private bool Try(IChange change, Func<PlacementScore, bool> isTaken)
    {
        if (change.Touches(_now) is not { } bays || bays.One < 0) return false;
        var (one, other) = bays;
        var (before, beside) = (_now.Keep(one), other == one || other < 0 ? null : _now.Keep(other));
        change.Make(_now);
        if (_now.Fits(one) && (beside is null || _now.Fits(other)))
        {
            _now.Settle(one, other);
            var score = _now.Score;
            if (isTaken(score))
            {
                _score = score;
                if (score < _bestScore) (_best, _bestScore) = (Kept(), score);
                return true;
            }
        }

        _now.Put(one, before);
        if (beside is not null) _now.Put(other, beside);
        _now.Settle(one, other);
        return false;
    }

    private BayPlace[][] Kept() => [.. Enumerable.Range(0, _problem.Bays.Length).Select(_now.Keep)];

    private void Restore(BayPlace[][] bays)
    {
        for (var frame = 0; frame < _problem.Frames.Length; frame++) _now.Aside(frame);
        for (var bay = 0; bay < bays.Length; bay++) _now.Put(bay, bays[bay]);
        for (var bay = 0; bay < bays.Length; bay++) _now.Settle(bay);
        _score = _now.Score;
    }

    // A change names the one or two bays that it touches; a frame that stands aside is left there.
    private interface IChange
    {
        (int One, int Other)? Touches(Arrangement now);

        void Make(Arrangement now);
    }

    private sealed record Swap(int One, int Other) : IChange
    {
        public (int One, int Other)? Touches(Arrangement now) =>
            One == Other || now.BayOf(Other) < 0 ? null : (now.BayOf(One), now.BayOf(Other));

        public void Make(Arrangement now)
        {
            var (here, there) = (now[now.BayOf(One)], now[now.BayOf(Other)]);
            var (at, to) = (now.PlaceOf(One), now.PlaceOf(Other));
            (here[at], there[to]) = (here[at] with { Frame = Other }, there[to] with { Frame = One });
        }
    }

    private sealed record Move(int Frame, int Bay, int Before) : IChange
    {
        public (int One, int Other)? Touches(Arrangement now) => Bay < 0 ? null : (now.BayOf(Frame), Bay);

        public void Make(Arrangement now)
        {
            var from = now[now.BayOf(Frame)];
            var at = now.PlaceOf(Frame);
            from.RemoveAt(at);
            var before = now.BayOf(Frame) == Bay && Before > at && Before != int.MaxValue ? Before - 1 : Before;
            now[Bay].Insert(Math.Min(before, now[Bay].Count), new BayPlace(Frame, 0));
        }
    }

    private sealed record Turn(int One, int Other) : IChange
    {
        public (int One, int Other)? Touches(Arrangement now) =>
            One == Other || now.BayOf(One) != now.BayOf(Other) ? null : (now.BayOf(One), -1);

        public void Make(Arrangement now)
        {
            var (from, to) = (Math.Min(now.PlaceOf(One), now.PlaceOf(Other)), Math.Max(now.PlaceOf(One), now.PlaceOf(Other)));
            CollectionsMarshal.AsSpan(now[now.BayOf(One)])[from..(to + 1)].Reverse();
        }
    }

    private sealed record Shift(int Frame, double By) : IChange
    {
        public (int One, int Other)? Touches(Arrangement now) => (now.BayOf(Frame), -1);

        public void Make(Arrangement now)
        {
            var bay = now[now.BayOf(Frame)];
            var place = bay[now.PlaceOf(Frame)];
            bay[now.PlaceOf(Frame)] = place with { Gap = Math.Max(0, place.Gap + By) };
        }
    }
}

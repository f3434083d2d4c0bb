namespace Archive.Wiring.Sets;

/// <summary>The smallest set of frames that meets needs: fewest frames, then least weight, then ids in order.</summary>
/// <param name="Frames">Numbers of its frames, ascending.</param>
/// <param name="IsProven">Whether it is shown to be the smallest; else the search was given up at its limit, and this is the best that was
/// met with.</param>
/// <remarks>
/// Exact: what the needs force is put in, what is dominated is put out (<see cref="Dominance"/>), the rest is settled by branch and bound
/// (<see cref="SetSearch"/>) with frames costing one each and weight counting below that. Ids are settled last: frame by frame, in
/// order, each is in if a set as good holds it with those before it.
/// </remarks>
internal sealed record SmallestSet(int[] Frames, bool IsProven)
{
    // Far above what archives need; it keeps an archive made to be hard from holding up a build for longer than some seconds.
    private const long MostSteps = 400_000_000;

    /// <param name="weights">Weight of each frame in whole units, at least 0; 0 where it is not known.</param>
    /// <returns>Null where the needs cannot be met.</returns>
    public static SmallestSet? Find(NeedGraph net, long[] weights)
    {
        var state = new SetState(net, Costs(net, weights));
        if (!state.PutOutImpossible() || !net.Wanted.All(wanted => state.Put(wanted, Membership.In))) return null;
        var implied = Settle(state);
        var search = new SetSearch(state, implied, MostSteps);
        var dearest = Sum(state.Costs) + 1;
        var best = search.Run(dearest, anyWillDo: false) ?? Everything(state);
        return new SmallestSet(FirstById(state, search, best), !search.GaveUp);
    }

    // What is met by all that is possible, should a search be given up before it met with anything.
    private static (int[] Frames, Int128 Cost) Everything(SetState state)
    {
        int[] frames = [.. Enumerable.Range(0, state.Frames).Where(frame => state[frame] != Membership.Out)];
        return (frames, Sum([.. frames.Select(frame => state.Costs[frame])]));
    }

    // One frame more weighs more than all that they weigh together. The unit is the greatest that all weights are whole in, for bounds are
    // whole too.
    private static Int128[] Costs(NeedGraph net, long[] weights)
    {
        var unit = Math.Max(1, weights.Aggregate(0L, CommonDivisor));
        Int128 frame = 1;
        foreach (var weight in weights) frame += weight / unit;
        return [.. weights.Select(weight => frame + (weight / unit)), .. net.Choices.Select(_ => Int128.Zero)];
    }

    private static long CommonDivisor(long a, long b) => b == 0 ? a : CommonDivisor(b, a % b);

    private static Int128 Sum(Int128[] costs)
    {
        Int128 sum = 0;
        foreach (var cost in costs) sum += cost;
        return sum;
    }

    private static ImpliedNodes Settle(SetState state)
    {
        while (true)
        {
            var mark = state.Mark;
            var implied = new ImpliedNodes(state);
            for (var choice = 0; choice < state.Choices; choice++)
            {
                if (state.Lacks(choice) > 0) PutIn(state, implied, state.Frames + choice);
            }

            if (state.Mark != mark) continue;
            if (!Dominance.Apply(state, implied)) return implied;
        }
    }

    private static void PutIn(SetState state, ImpliedNodes implied, int choice)
    {
        foreach (var brought in BitEnumerator.From(implied[choice]))
        {
            if (state[brought] == Membership.Open) state.Put(brought, Membership.In);
        }
    }

    private static int[] FirstById(SetState state, SetSearch search, (int[] Frames, Int128 Cost) best)
    {
        for (var frame = 0; frame < state.Frames && state.Cost < best.Cost; frame++)
        {
            if (state[frame] != Membership.Open) continue;
            if (Array.BinarySearch(best.Frames, frame) < 0)
            {
                var mark = state.Mark;
                var other = state.Put(frame, Membership.In) ? search.Run(best.Cost + 1, anyWillDo: true) : null;
                state.GoBack(mark);
                if (other is null)
                {
                    state.Put(frame, Membership.Out);
                    continue;
                }

                best = other.Value;
            }

            state.Put(frame, Membership.In);
        }

        return best.Frames;
    }
}

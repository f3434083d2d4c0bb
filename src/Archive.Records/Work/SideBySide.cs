namespace Archive.Records.Work;

/// <summary>
/// Work on many things at once. A thread that waits does the work itself where no other is free; threads of PLINQ wait for each other and
/// never end where the pool may have no more.
/// </summary>
public static class SideBySide
{
    /// <summary>The results, in the order of the things.</summary>
    public static TResult[] Select<T, TResult>(
        IReadOnlyList<T> things, Func<T, TResult> work, CancellationToken cancellation = default)
    {
        var results = new TResult[things.Count];
        Parallel.For(0, things.Count, new ParallelOptions { CancellationToken = cancellation }, at => results[at] = work(things[at]));
        return results;
    }
}

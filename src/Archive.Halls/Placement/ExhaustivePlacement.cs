using System.Numerics;

namespace Archive.Halls.Placement;

/// <summary>Tries every order of the frames in every bay, each bay filled from its beginning: exact, for a handful of frames.</summary>
internal static class ExhaustivePlacement
{
    /// <summary>Most arrangements that are tried one by one.</summary>
    public const int Most = 200_000;

    /// <summary>How many arrangements there are: the orders of the frames, cut into bays.</summary>
    /// <param name="frames">Number of frames.</param>
    /// <param name="bays">Number of bays.</param>
    public static BigInteger Count(int frames, int bays)
    {
        BigInteger count = 1;
        for (var i = 0; i < frames; i++) count *= bays + i;
        return count;
    }

    /// <summary>The best of all arrangements.</summary>
    /// <param name="problem">What they are tried on.</param>
    /// <param name="start">The arrangement as first given: it is kept where no other is better.</param>
    public static (BayPlace[][] Bays, PlacementScore Score) Run(
        PlacementProblem problem, BayPlace[][] start, CancellationToken cancellation)
    {
        var now = new Arrangement(problem);
        for (var bay = 0; bay < start.Length; bay++)
        {
            now.Put(bay, start[bay]);
            now.Settle(bay);
        }

        var best = (Bays: start, now.Score);
        for (var bay = 0; bay < start.Length; bay++) now.Put(bay, []);
        for (var frame = 0; frame < problem.Frames.Length; frame++) now.Aside(frame);
        Next(0, 0);
        return best;

        // Fills the bays one after the other: each step puts a frame that still stands aside at the end of this bay or a later one.
        void Next(int placed, int from)
        {
            cancellation.ThrowIfCancellationRequested();
            var score = now.Score;
            if (placed == problem.Frames.Length)
            {
                if (score < best.Score) best = (Bays: [.. Enumerable.Range(0, problem.Bays.Length).Select(now.Keep)], score);
                return;
            }

            for (var bay = from; bay < problem.Bays.Length; bay++)
            {
                for (var frame = 0; frame < problem.Frames.Length; frame++)
                {
                    if (now.BayOf(frame) >= 0) continue;
                    now[bay].Add(new BayPlace(frame, 0));
                    if (now.Fits(bay))
                    {
                        now.Settle(bay);
                        Next(placed + 1, bay);
                        now[bay].RemoveAt(now[bay].Count - 1);
                        now.Aside(frame);
                        now.Settle(bay);
                    }
                    else
                    {
                        now[bay].RemoveAt(now[bay].Count - 1);
                    }
                }
            }
        }
    }
}

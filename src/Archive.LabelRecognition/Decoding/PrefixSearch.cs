using System.Collections.Immutable;

namespace Archive.LabelRecognition.Decoding;

/// <summary>
/// Finds the most likely labels, best first. What all labels with a beginning have together is known exactly from the backward pass, so the
/// search goes on only where the most likely may be, and the first whole label it comes to is the most likely.
/// </summary>
/// <remarks>Prefix search of Graves and others (2006), over an automaton: there it is exact too, and the bound is the sum itself.</remarks>
internal sealed class PrefixSearch(CtcLattice lattice, CtcEmissions emissions, CtcCompletions completions)
{
    // A worn label is searched in some hundreds of steps; beyond this no reading has a probability worth reporting.
    private const int MostSteps = 20_000;

    // The search holds this many beginnings at most: each has a number for every frame, so some 60 MB.
    private const int MostWaiting = 50_000;

    internal LineReadings Find(int most)
    {
        var waiting = new PriorityQueue<(Beginning Beginning, bool IsWhole), double>();
        waiting.Enqueue((Beginning.Empty, false), -completions.Total);
        var found = ImmutableArray.CreateBuilder<Reading>();
        var steps = 0;
        while (found.Count < most && waiting.TryDequeue(out var next, out var negative))
        {
            if (next.IsWhole)
            {
                found.Add(new Reading(
                    next.Beginning.Label(lattice), Math.Log(-negative) + emissions.LogScale, -negative / completions.Total));
            }
            else if (++steps > MostSteps || waiting.Count > MostWaiting)
            {
                return new LineReadings(found.ToImmutable(), Whole, IsExact: false);
            }
            else
            {
                Expand(next.Beginning, waiting);
            }
        }

        return new LineReadings(found.ToImmutable(), Whole, IsExact: true);
    }

    private double Whole => Math.Log(completions.Total) + emissions.LogScale;

    private void Expand(Beginning beginning, PriorityQueue<(Beginning Beginning, bool IsWhole), double> waiting)
    {
        var (blanks, glyphs) = Forward(beginning);
        var whole = blanks[^1] + glyphs[^1];
        if (lattice.Automaton.IsAccepting(beginning.State) && whole > 0) waiting.Enqueue((beginning, true), -whole);
        foreach (var step in lattice.StepsFrom(beginning.State))
        {
            // The character begins in one of the frames.
            var isRepeated = step.Glyph == beginning.Glyph;
            var starts = new double[emissions.Count];
            var sum = 0.0;
            for (var frame = 0; frame < emissions.Count; frame++)
            {
                starts[frame] = emissions[frame, step.Glyph] * (blanks[frame] + (isRepeated ? 0 : glyphs[frame]));
                sum += starts[frame] * completions.After(frame + 1, step.Entry);
            }

            if (sum > 0) waiting.Enqueue((new Beginning(beginning, step.Glyph, step.To, starts), false), -sum);
        }
    }

    // After each number of frames: what the beginning has if it ends in a blank, and if it ends in its last character.
    private (double[] Blanks, double[] Glyphs) Forward(Beginning beginning)
    {
        var (blanks, glyphs) = (new double[emissions.Count + 1], new double[emissions.Count + 1]);
        if (beginning.Before is null) blanks[0] = 1;
        for (var frame = 0; frame < emissions.Count; frame++)
        {
            blanks[frame + 1] = emissions.Blanks[frame] * (blanks[frame] + glyphs[frame]);
            if (beginning.Before is not null)
                glyphs[frame + 1] = (emissions[frame, beginning.Glyph] * glyphs[frame]) + beginning.Starts[frame];
        }

        return (blanks, glyphs);
    }

    private sealed record Beginning(Beginning? Before, int Glyph, int State, double[] Starts)
    {
        internal static Beginning Empty { get; } = new(null, -1, 0, []);

        internal string Label(CtcLattice lattice)
        {
            var glyphs = new Stack<char>();
            for (var at = this; at.Before is not null; at = at.Before) glyphs.Push(lattice.Automaton.Glyphs[at.Glyph]);
            return string.Concat(glyphs);
        }
    }
}

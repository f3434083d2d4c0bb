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

    // The search holds this many beginnings at most: some megabytes, and some 25 MB for those that were looked at.
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
        var expanded = Forward(beginning);
        var whole = expanded.Blanks[^1] + expanded.Glyphs[^1];
        if (lattice.Automaton.IsAccepting(beginning.State) && whole > 0) waiting.Enqueue((beginning, true), -whole);
        foreach (var step in lattice.StepsFrom(beginning.State))
        {
            // The character begins in one of the frames.
            var longer = new Beginning(expanded, step.Glyph, step.To);
            var sum = 0.0;
            for (var frame = 0; frame < emissions.Count; frame++) sum += Start(longer, frame) * completions.After(frame + 1, step.Entry);
            if (sum > 0) waiting.Enqueue((longer, false), -sum);
        }
    }

    // After each number of frames: what the beginning has if it ends in a blank, and if it ends in its last character.
    private Expanded Forward(Beginning beginning)
    {
        var (blanks, glyphs) = (new double[emissions.Count + 1], new double[emissions.Count + 1]);
        if (beginning.Before is null) blanks[0] = 1;
        for (var frame = 0; frame < emissions.Count; frame++)
        {
            blanks[frame + 1] = emissions.Blanks[frame] * (blanks[frame] + glyphs[frame]);
            if (beginning.Before is not null)
                glyphs[frame + 1] = (emissions[frame, beginning.Glyph] * glyphs[frame]) + Start(beginning, frame);
        }

        return new Expanded(beginning, blanks, glyphs);
    }

    // What the beginning has if its last character begins in a frame.
    private double Start(Beginning beginning, int frame)
    {
        var before = beginning.Before!;
        var isRepeated = beginning.Glyph == before.Beginning.Glyph;
        return emissions[frame, beginning.Glyph] * (before.Blanks[frame] + (isRepeated ? 0 : before.Glyphs[frame]));
    }

    private sealed record Beginning(Expanded? Before, int Glyph, int State)
    {
        internal static Beginning Empty { get; } = new(null, -1, 0);

        internal string Label(CtcLattice lattice)
        {
            var glyphs = new Stack<char>();
            for (var at = this; at.Before is not null; at = at.Before.Beginning) glyphs.Push(lattice.Automaton.Glyphs[at.Glyph]);
            return string.Concat(glyphs);
        }
    }

    // Many wait that are never looked at: only what was looked at has numbers for each frame.
    private sealed record Expanded(Beginning Beginning, double[] Blanks, double[] Glyphs);
}

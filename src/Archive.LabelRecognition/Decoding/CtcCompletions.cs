namespace Archive.LabelRecognition.Decoding;

/// <summary>
/// For each frame and node, the likelihood of all that can follow up to the end of the line: the backward pass. Time and memory: frames
/// times edges.
/// </summary>
internal sealed class CtcCompletions
{
    private readonly double[][] _entries;

    internal CtcCompletions(CtcLattice lattice, CtcEmissions emissions)
    {
        _entries = new double[emissions.Count + 1][];
        var (entries, states) = End(lattice);
        _entries[emissions.Count] = entries;
        for (var frame = emissions.Count - 1; frame >= 0; frame--)
        {
            var before = new double[states.Length];
            _entries[frame] = new double[lattice.EntryCount];
            StepBack(lattice, emissions, frame, (_entries[frame + 1], states), (_entries[frame], before));
            states = before;
        }

        Total = states[0];
    }

    /// <summary>The total alone, which needs memory for two frames only.</summary>
    internal static double TotalOf(CtcLattice lattice, CtcEmissions emissions)
    {
        var next = End(lattice);
        var before = (Entries: new double[next.Entries.Length], States: new double[next.States.Length]);
        for (var frame = emissions.Count - 1; frame >= 0; frame--)
        {
            StepBack(lattice, emissions, frame, next, before);
            (next, before) = (before, next);
        }

        return next.States[0];
    }

    /// <summary>The likelihood of all labels of the automaton together, without the scale of the emissions.</summary>
    internal double Total { get; }

    /// <summary>What can follow once a state was entered, before a frame is read.</summary>
    /// <param name="frame">The frame that comes next; the number of frames at the end.</param>
    /// <param name="entry">The entry.</param>
    internal double After(int frame, int entry) => _entries[frame][entry];

    private static (double[] Entries, double[] States) End(CtcLattice lattice)
    {
        var states = new double[lattice.Automaton.StateCount];
        for (var state = 0; state < states.Length; state++) states[state] = lattice.Automaton.IsAccepting(state) ? 1 : 0;
        var entries = new double[lattice.EntryCount];
        Fill(entries, lattice, states);
        return (entries, states);
    }

    private static void StepBack(
        CtcLattice lattice,
        CtcEmissions emissions,
        int frame,
        (double[] Entries, double[] States) next,
        (double[] Entries, double[] States) before)
    {
        for (var state = 0; state < before.States.Length; state++)
            before.States[state] = StepBack(lattice, emissions, frame, state, next.Entries, next.States[state], before.Entries);
    }

    private static double StepBack(
        CtcLattice lattice, CtcEmissions emissions, int frame, int state, double[] next, double nextBlank, double[] entries)
    {
        var glyphs = emissions.Glyphs(frame);
        var blank = emissions.Blanks[frame] * nextBlank;
        var onward = 0.0;
        var steps = lattice.StepsFrom(state);
        foreach (var step in steps) onward += glyphs[step.Glyph] * next[step.Entry];
        var (first, end) = lattice.EntriesOf(state);
        for (var entry = first; entry < end; entry++)
        {
            var glyph = lattice.GlyphOf(entry);
            entries[entry] = blank + (glyphs[glyph] * next[entry]) + onward;
        }

        // The same character again, without a blank between, is a repetition. Summed again, because a difference may have no digit left.
        foreach (var step in steps)
        {
            if (step.Repeated < 0) continue;
            var others = 0.0;
            foreach (var other in steps)
            {
                if (other.Glyph != step.Glyph) others += glyphs[other.Glyph] * next[other.Entry];
            }

            entries[step.Repeated] = blank + (glyphs[step.Glyph] * next[step.Repeated]) + others;
        }

        return blank + onward;
    }

    private static void Fill(double[] entries, CtcLattice lattice, double[] states)
    {
        for (var state = 0; state < states.Length; state++)
        {
            var (first, end) = lattice.EntriesOf(state);
            entries.AsSpan(first, end - first).Fill(states[state]);
        }
    }
}

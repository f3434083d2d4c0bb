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
        var automaton = lattice.Automaton;
        _entries = new double[emissions.Count + 1][];
        var states = new double[automaton.StateCount];
        for (var state = 0; state < states.Length; state++) states[state] = automaton.IsAccepting(state) ? 1 : 0;
        _entries[emissions.Count] = new double[lattice.EntryCount];
        Fill(_entries[emissions.Count], lattice, states);
        for (var frame = emissions.Count - 1; frame >= 0; frame--)
        {
            var (entries, before) = (new double[lattice.EntryCount], new double[states.Length]);
            for (var state = 0; state < states.Length; state++)
                before[state] = StepBack(lattice, emissions, frame, state, _entries[frame + 1], states[state], entries);
            (_entries[frame], states) = (entries, before);
        }

        Total = states[0];
    }

    /// <summary>The likelihood of all labels of the automaton together, without the scale of the emissions.</summary>
    internal double Total { get; }

    /// <summary>What can follow once a state was entered, before a frame is read.</summary>
    /// <param name="frame">The frame that comes next; the number of frames at the end.</param>
    /// <param name="entry">The entry.</param>
    internal double After(int frame, int entry) => _entries[frame][entry];

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

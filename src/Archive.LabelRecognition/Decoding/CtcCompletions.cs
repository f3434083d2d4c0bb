namespace Archive.LabelRecognition.Decoding;

/// <summary>
/// For each frame and node, the likelihood of all that can follow up to the end of the line: the backward pass. Time and memory: frames
/// times edges.
/// </summary>
internal sealed class CtcCompletions : IDisposable
{
    // Frame by frame, a number for each entry: with a large grammar some ten million, so room is used again.
    private readonly double[] _entries;
    private readonly int _entryCount;

    internal CtcCompletions(CtcLattice lattice, CtcEmissions emissions)
    {
        _entryCount = lattice.EntryCount;
        _entries = NumberRoom.Take((emissions.Count + 1) * _entryCount);
        var (states, before) = (new double[lattice.Automaton.StateCount], new double[lattice.Automaton.StateCount]);
        End(lattice, states, EntriesAt(emissions.Count));
        for (var frame = emissions.Count - 1; frame >= 0; frame--)
        {
            StepBack(lattice, emissions, frame, EntriesAt(frame + 1), states, EntriesAt(frame), before);
            (states, before) = (before, states);
        }

        Total = states[0];
    }

    /// <summary>The total alone, which needs memory for two frames only.</summary>
    internal static double TotalOf(CtcLattice lattice, CtcEmissions emissions)
    {
        var (entries, states) = (lattice.EntryCount, lattice.Automaton.StateCount);
        var room = NumberRoom.Take(2 * (entries + states));
        var (nextAt, beforeAt) = (0, entries + states);
        End(lattice, room.AsSpan(entries, states), room.AsSpan(0, entries));
        for (var frame = emissions.Count - 1; frame >= 0; frame--)
        {
            StepBack(
                lattice, emissions, frame, room.AsSpan(nextAt, entries), room.AsSpan(nextAt + entries, states),
                room.AsSpan(beforeAt, entries), room.AsSpan(beforeAt + entries, states));
            (nextAt, beforeAt) = (beforeAt, nextAt);
        }

        var total = room[nextAt + entries];
        NumberRoom.GiveBack(room);
        return total;
    }

    /// <summary>The likelihood of all labels of the automaton together, without the scale of the emissions.</summary>
    internal double Total { get; }

    /// <summary>What can follow once a state was entered, before a frame is read.</summary>
    /// <param name="frame">The frame that comes next; the number of frames at the end.</param>
    /// <param name="entry">The entry.</param>
    internal double After(int frame, int entry) => _entries[(frame * _entryCount) + entry];

    public void Dispose() => NumberRoom.GiveBack(_entries);

    private Span<double> EntriesAt(int frame) => _entries.AsSpan(frame * _entryCount, _entryCount);

    private static void End(CtcLattice lattice, Span<double> states, Span<double> entries)
    {
        for (var state = 0; state < states.Length; state++) states[state] = lattice.Automaton.IsAccepting(state) ? 1 : 0;
        Fill(entries, lattice, states);
    }

    private static void StepBack(
        CtcLattice lattice,
        CtcEmissions emissions,
        int frame,
        ReadOnlySpan<double> nextEntries,
        ReadOnlySpan<double> nextStates,
        Span<double> entries,
        Span<double> states)
    {
        for (var state = 0; state < states.Length; state++)
            states[state] = StepBack(lattice, emissions, frame, state, nextEntries, nextStates[state], entries);
    }

    private static double StepBack(
        CtcLattice lattice, CtcEmissions emissions, int frame, int state, ReadOnlySpan<double> next, double nextBlank, Span<double> entries)
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

    private static void Fill(Span<double> entries, CtcLattice lattice, ReadOnlySpan<double> states)
    {
        for (var state = 0; state < states.Length; state++)
        {
            var (first, end) = lattice.EntriesOf(state);
            entries[first..end].Fill(states[state]);
        }
    }
}

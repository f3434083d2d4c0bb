using Archive.LabelRecognition.Grammars;

namespace Archive.LabelRecognition.Decoding;

/// <summary>
/// An automaton as CTC walks it. A node is a state after a blank, or a state just entered by a character, which decides whether the same
/// one again is a repetition. Immutable; made once for all labels of a scheme.
/// </summary>
internal sealed class CtcLattice
{
    private readonly int[] _firstEntry;
    private readonly int[] _firstStep;
    private readonly LatticeStep[] _steps;
    private readonly int[] _glyphOfEntry;

    internal CtcLattice(LabelAutomaton automaton)
    {
        Automaton = automaton;
        var states = automaton.StateCount;
        var entries = new SortedSet<int>[states];
        for (var state = 0; state < states; state++) entries[state] = [];
        for (var state = 0; state < states; state++)
        {
            foreach (var edge in automaton.EdgesOf(state)) entries[edge.To].Add(edge.Glyph);
        }

        _firstEntry = new int[states + 1];
        for (var state = 0; state < states; state++) _firstEntry[state + 1] = _firstEntry[state] + entries[state].Count;
        _glyphOfEntry = [.. entries.SelectMany(glyphs => glyphs)];
        _firstStep = new int[states + 1];
        _steps = new LatticeStep[automaton.EdgeCount];
        var at = 0;
        for (var state = 0; state < states; state++)
        {
            foreach (var edge in automaton.EdgesOf(state))
                _steps[at++] = new LatticeStep(edge.Glyph, edge.To, EntryOf(edge.To, edge.Glyph), EntryOf(state, edge.Glyph));
            _firstStep[state + 1] = at;
        }
    }

    internal LabelAutomaton Automaton { get; }

    /// <summary>Number of states entered by a character, counted once for each such character.</summary>
    internal int EntryCount => _glyphOfEntry.Length;

    /// <summary>The character by which an entry enters its state.</summary>
    internal int GlyphOf(int entry) => _glyphOfEntry[entry];

    /// <summary>The entries of a state: first, and the one after the last.</summary>
    internal (int First, int End) EntriesOf(int state) => (_firstEntry[state], _firstEntry[state + 1]);

    /// <summary>The steps from a state.</summary>
    internal ReadOnlySpan<LatticeStep> StepsFrom(int state) => _steps.AsSpan(_firstStep[state].._firstStep[state + 1]);

    private int EntryOf(int state, int glyph)
    {
        var at = Array.BinarySearch(_glyphOfEntry, _firstEntry[state], _firstEntry[state + 1] - _firstEntry[state], glyph);
        return at < 0 ? -1 : at;
    }
}

/// <summary>A step of the automaton.</summary>
/// <param name="Glyph">The character that it takes.</param>
/// <param name="To">The state that it enters.</param>
/// <param name="Entry">The entry by which it enters it.</param>
/// <param name="Repeated">The entry of the state that it leaves with the same character, from which it needs a blank; -1 for none.</param>
internal readonly record struct LatticeStep(int Glyph, int To, int Entry, int Repeated);

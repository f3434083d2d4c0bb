using System.Collections.Immutable;

namespace Archive.LabelRecognition.Grammars;

/// <summary>
/// The labels that a scheme takes, as the smallest deterministic automaton over characters: a label is one path, so that its probability is
/// counted once. Immutable.
/// </summary>
public sealed class LabelAutomaton
{
    private readonly int[] _first;
    private readonly AutomatonEdge[] _edges;
    private readonly bool[] _accepts;

    internal LabelAutomaton(ImmutableArray<char> glyphs, IReadOnlyList<SortedList<int, int>> next, IReadOnlyList<bool> accepts)
    {
        Glyphs = glyphs;
        _accepts = [.. accepts];
        _first = new int[next.Count + 1];
        for (var state = 0; state < next.Count; state++) _first[state + 1] = _first[state] + next[state].Count;
        _edges = [.. next.SelectMany(steps => steps.Select(step => new AutomatonEdge(step.Key, step.Value)))];
    }

    /// <summary>The characters that labels may have; edges name them by their place here.</summary>
    public ImmutableArray<char> Glyphs { get; }

    /// <summary>Number of states; the start is state 0.</summary>
    public int StateCount => _accepts.Length;

    /// <summary>Number of edges.</summary>
    public int EdgeCount => _edges.Length;

    /// <summary>The edges from a state, by character.</summary>
    public ReadOnlySpan<AutomatonEdge> EdgesOf(int state) => _edges.AsSpan(_first[state].._first[state + 1]);

    /// <summary>Whether a label may end in a state.</summary>
    public bool IsAccepting(int state) => _accepts[state];

    /// <summary>Whether it takes a label.</summary>
    public bool Accepts(string label)
    {
        var state = 0;
        foreach (var glyph in label)
        {
            state = Next(state, Glyphs.IndexOf(glyph));
            if (state < 0) return false;
        }

        return IsAccepting(state);
    }

    /// <summary>Where a character leads; -1 where the automaton does not take it.</summary>
    public int Next(int state, int glyph)
    {
        foreach (var edge in EdgesOf(state))
        {
            if (edge.Glyph == glyph) return edge.To;
        }

        return -1;
    }
}

/// <summary>A step to another state.</summary>
/// <param name="Glyph">Place of the character in <see cref="LabelAutomaton.Glyphs"/>.</param>
/// <param name="To">The state.</param>
public readonly record struct AutomatonEdge(int Glyph, int To);

using System.Collections.Immutable;

namespace Archive.LabelRecognition.Grammars;

/// <summary>A step to another state, on any character of a set.</summary>
internal readonly record struct NfaEdge(UInt128 Glyphs, int To);

/// <summary>
/// An automaton in which several steps may be open. Each state but the first is at one place of the pattern, which the last character was
/// taken by.
/// </summary>
/// <param name="Edges">For each state, its steps; the first state is the start.</param>
/// <param name="Accepts">Whether a label may end in a state.</param>
/// <param name="Places">For each state, its place in the pattern; -1 for the start.</param>
internal sealed record Nfa(ImmutableArray<ImmutableArray<NfaEdge>> Edges, ImmutableArray<bool> Accepts, ImmutableArray<int> Places)
{
    /// <summary>Without the states from which no label ends; null where none does.</summary>
    internal Nfa? Trimmed()
    {
        var before = Before();
        var isAlive = new bool[Edges.Length];
        var next = new Stack<int>(Enumerable.Range(0, Edges.Length).Where(state => Accepts[state]));
        while (next.TryPop(out var state))
        {
            if (isAlive[state]) continue;
            isAlive[state] = true;
            foreach (var source in before[state]) next.Push(source);
        }

        if (!isAlive[0]) return null;
        var kept = Enumerable.Range(0, Edges.Length).Where(state => isAlive[state]).ToArray();
        var renamed = new int[Edges.Length];
        for (var at = 0; at < kept.Length; at++) renamed[kept[at]] = at;
        return new Nfa(
            [.. kept.Select(state => Edges[state].Where(edge => isAlive[edge.To])
                .Select(edge => edge with { To = renamed[edge.To] }).ToImmutableArray())],
            [.. kept.Select(state => Accepts[state])],
            [.. kept.Select(state => Places[state])]);
    }

    private List<int>[] Before()
    {
        var before = Enumerable.Range(0, Edges.Length).Select(_ => new List<int>()).ToArray();
        for (var state = 0; state < Edges.Length; state++)
        {
            foreach (var edge in Edges[state]) before[edge.To].Add(state);
        }

        return before;
    }
}

using System.Collections.Immutable;

namespace Archive.LabelRecognition.Grammars;

/// <summary>Makes an automaton deterministic (Rabin and Scott 1959) and as small as can be (Moore 1956).</summary>
internal static class Determinizer
{
    internal static LabelAutomaton? Determinize(Nfa automaton, Alphabet alphabet, int mostStates)
    {
        var known = new Dictionary<string, int>(StringComparer.Ordinal);
        var sets = new List<int[]>();
        var next = new List<SortedList<int, int>>();
        StateOf([0]);
        for (var at = 0; at < sets.Count; at++)
        {
            if (sets.Count > mostStates) return null;
            next.Add([]);
            foreach (var (glyph, to) in StepsFrom(automaton, sets[at], alphabet.Glyphs.Length)) next[at].Add(glyph, StateOf(to));
        }

        return Smallest(alphabet.Glyphs, next, [.. sets.Select(set => set.Any(state => automaton.Accepts[state]))]);

        int StateOf(int[] set)
        {
            var key = string.Join(',', set);
            if (known.TryGetValue(key, out var state)) return state;
            sets.Add(set);
            return known[key] = sets.Count - 1;
        }
    }

    private static IEnumerable<(int Glyph, int[] To)> StepsFrom(Nfa automaton, int[] set, int glyphs)
    {
        var edges = set.SelectMany(state => automaton.Edges[state]).ToArray();
        var any = edges.Aggregate(UInt128.Zero, (all, edge) => all | edge.Glyphs);
        for (var glyph = 0; glyph < glyphs; glyph++)
        {
            var bit = UInt128.One << glyph;
            if ((any & bit) == 0) continue;
            yield return (glyph, [.. edges.Where(edge => (edge.Glyphs & bit) != 0).Select(edge => edge.To).Distinct().Order()]);
        }
    }

    // States differ by whether labels end there, then by what they lead to, until no more differences are found.
    private static LabelAutomaton Smallest(ImmutableArray<char> glyphs, List<SortedList<int, int>> next, List<bool> accepts)
    {
        var block = accepts.Select(isEnd => isEnd ? 1 : 0).ToArray();
        var count = block.Distinct().Count();
        while (true)
        {
            var shapes = new Dictionary<string, int>(StringComparer.Ordinal);
            var finer = new int[block.Length];
            for (var state = 0; state < block.Length; state++)
            {
                var shape = $"{block[state]}:" + string.Join(',', next[state].Select(step => $"{step.Key}>{block[step.Value]}"));
                if (!shapes.TryGetValue(shape, out finer[state])) shapes.Add(shape, finer[state] = shapes.Count);
            }

            block = finer;
            if (shapes.Count == count) break;
            count = shapes.Count;
        }

        // The start is the first state, so it is in the first block.
        var member = new int[count];
        for (var state = block.Length - 1; state >= 0; state--) member[block[state]] = state;
        return new LabelAutomaton(
            glyphs,
            [.. member.Select(state => new SortedList<int, int>(next[state].ToDictionary(step => step.Key, step => block[step.Value])))],
            [.. member.Select(state => accepts[state])]);
    }
}

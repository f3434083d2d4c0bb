using System.Collections.Immutable;

namespace Archive.LabelRecognition.Grammars;

/// <summary>Intersects an automaton with lists of what its groups may capture.</summary>
/// <remarks>
/// Where a label can be matched in several ways, one way that fits the lists is enough; which groups the library captures is for the scheme
/// to say afterwards.
/// </remarks>
internal static class Narrowing
{
    // Sorts before all that prints, so that no value contains it.
    private const char Between = '\u0001';

    // No group of the list can take part any more.
    private const int Done = -1;

    internal static Nfa? Narrow(
        Nfa automaton,
        ImmutableArray<ImmutableArray<string>> groups,
        GroupValues list,
        Alphabet alphabet,
        int mostStates,
        out string? problem)
    {
        problem = ProblemOf(groups, list);
        if (problem is not null) return null;
        var product = new Product(automaton, list, [.. groups.Select(within => GroupOf(within, list))], alphabet);
        var narrowed = product.Build(mostStates);
        if (narrowed is null) problem = $"with its lists it has more than {mostStates} states";
        return narrowed;
    }

    private static string? ProblemOf(ImmutableArray<ImmutableArray<string>> groups, GroupValues list)
    {
        foreach (var name in list.Groups)
        {
            if (!groups.Any(within => within.Contains(name))) return $"no group of the pattern is named `{name}`";
        }

        if (list.Values.Any(values => values.Length != list.Groups.Length)) return "a list does not have one value for each of its groups";
        return groups.Any(within => within.Count(name => list.Groups.Contains(name)) > 1)
            ? "groups of one list stand within each other"
            : null;
    }

    private static int GroupOf(ImmutableArray<string> within, GroupValues list) =>
        within.Select(name => list.Groups.IndexOf(name)).DefaultIfEmpty(-1).Max();

    private sealed class Product(Nfa automaton, GroupValues list, ImmutableArray<int> groupOfPlace, Alphabet alphabet)
    {
        private readonly WordGraph _words = WordGraph.From(list.Values.Select(values => string.Join(Between, values)));
        private readonly Dictionary<(int State, int Node), int> _known = [];
        private readonly List<(int State, int Node)> _states = [];
        private readonly bool[] _canReach = CanReach(automaton, groupOfPlace);
        private readonly Dictionary<int, int> _separators = [];

        internal Nfa? Build(int mostStates)
        {
            StateOf(0, WordGraph.Root);
            var edges = new List<ImmutableArray<NfaEdge>>();
            for (var at = 0; at < _states.Count; at++)
            {
                if (_states.Count > mostStates) return null;
                var (state, node) = _states[at];
                edges.Add([.. automaton.Edges[state].SelectMany(edge => Steps(edge, node))]);
            }

            return new Nfa(
                [.. edges],
                [.. _states.Select(pair => automaton.Accepts[pair.State] && IsComplete(pair.Node))],
                [.. _states.Select(pair => automaton.Places[pair.State])]);
        }

        private IEnumerable<NfaEdge> Steps(NfaEdge edge, int node)
        {
            var group = groupOfPlace[automaton.Places[edge.To]];
            if (group < 0)
            {
                var after = _canReach[edge.To] ? node : Done;
                if (after != Done || IsComplete(node)) yield return edge with { To = StateOf(edge.To, after) };
                yield break;
            }

            if (node == Done) yield break;
            var from = Skip(node, group - (list.Groups.Length - 1 - SeparatorsAfter(node)));
            if (from < 0) yield break;
            foreach (var byNode in _words.NextOf(from).Where(step => step.Key != Between && Takes(step.Key)).GroupBy(step => step.Value))
            {
                var glyphs = byNode.Aggregate(UInt128.Zero, (set, step) => set | (UInt128.One << alphabet.IndexOf(step.Key)));
                yield return new NfaEdge(glyphs, StateOf(edge.To, byNode.Key));
            }

            bool Takes(char letter) =>
                alphabet.IndexOf(letter) is var glyph and >= 0 && (edge.Glyphs & (UInt128.One << glyph)) != 0;
        }

        // In all words that go on from a node, as many groups are still to begin.
        private int SeparatorsAfter(int node)
        {
            if (_separators.TryGetValue(node, out var known)) return known;
            var count = 0;
            for (var at = node; !_words.IsWord(at) && _words.HasNext(at);)
            {
                var (letter, to) = _words.NextOf(at).First();
                if (letter == Between) count++;
                at = to;
            }

            return _separators[node] = count;
        }

        // Passes groups that capture nothing.
        private int Skip(int node, int separators)
        {
            if (separators < 0) return -1;
            for (; separators > 0 && node >= 0; separators--) node = _words.Next(node, Between);
            return node;
        }

        private bool IsComplete(int node) =>
            node is Done or WordGraph.Root || (Skip(node, SeparatorsAfter(node)) is var end and >= 0 && _words.IsWord(end));

        private int StateOf(int state, int node)
        {
            if (_known.TryGetValue((state, node), out var known)) return known;
            _states.Add((state, node));
            return _known[(state, node)] = _states.Count - 1;
        }

        // The states after which a group of the list can still take part.
        private static bool[] CanReach(Nfa automaton, ImmutableArray<int> groupOfPlace)
        {
            var can = new bool[automaton.Edges.Length];
            for (var isChanged = true; isChanged;)
            {
                isChanged = false;
                for (var state = can.Length - 1; state >= 0; state--)
                {
                    if (can[state] || !automaton.Edges[state].Any(LeadsThere)) continue;
                    can[state] = isChanged = true;
                }
            }

            return can;

            bool LeadsThere(NfaEdge edge) => can[edge.To] || groupOfPlace[automaton.Places[edge.To]] >= 0;
        }
    }
}

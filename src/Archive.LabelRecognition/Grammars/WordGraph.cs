namespace Archive.LabelRecognition.Grammars;

/// <summary>
/// The smallest automaton of a list of words, built word by word: endings that words share are kept once.
/// Daciuk, Mihov, Watson and Watson, Incremental construction of minimal acyclic finite-state automata (2000), for sorted words.
/// </summary>
internal sealed class WordGraph
{
    private readonly List<SortedList<char, int>> _next = [[]];
    private readonly List<bool> _isWord = [false];
    private readonly Dictionary<string, int> _register = new(StringComparer.Ordinal);

    internal const int Root = 0;

    /// <summary>Makes the graph.</summary>
    /// <param name="words">In any order, with repetitions.</param>
    internal static WordGraph From(IEnumerable<string> words)
    {
        var graph = new WordGraph();
        var path = new List<(int Node, char Letter)>();
        var before = "";
        foreach (var word in words.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal))
        {
            var shared = 0;
            while (shared < Math.Min(before.Length, word.Length) && before[shared] == word[shared]) shared++;
            graph.Settle(path, shared);
            var node = shared == 0 ? Root : graph._next[path[shared - 1].Node][path[shared - 1].Letter];
            foreach (var letter in word.AsSpan(shared))
            {
                graph._next.Add([]);
                graph._isWord.Add(false);
                var to = graph._next.Count - 1;
                graph._next[node].Add(letter, to);
                path.Add((node, letter));
                node = to;
            }

            graph._isWord[node] = true;
            before = word;
        }

        graph.Settle(path, 0);
        return graph;
    }

    /// <summary>Where a letter leads; -1 where no word continues with it.</summary>
    internal int Next(int node, char letter) => _next[node].TryGetValue(letter, out var to) ? to : -1;

    /// <summary>Whether a word ends here.</summary>
    internal bool IsWord(int node) => _isWord[node];

    /// <summary>Whether a word goes on from here.</summary>
    internal bool HasNext(int node) => _next[node].Count > 0;

    /// <summary>The letters by which words go on.</summary>
    internal IEnumerable<KeyValuePair<char, int>> NextOf(int node) => _next[node];

    // What no later word can change is replaced by its like, where there is one.
    private void Settle(List<(int Node, char Letter)> path, int from)
    {
        for (var at = path.Count - 1; at >= from; at--)
        {
            var (node, letter) = path[at];
            var child = _next[node][letter];
            var shape = (_isWord[child] ? "!" : ".") + string.Concat(_next[child].Select(step => $"{step.Key}{step.Value},"));
            if (_register.TryGetValue(shape, out var like)) _next[node][letter] = like;
            else _register.Add(shape, child);
        }

        path.RemoveRange(from, path.Count - from);
    }
}

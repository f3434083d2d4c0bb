namespace Archive.Wiring.Sets;

/// <summary>What each node brings with it: nodes that are in whenever it is, as rows of bits.</summary>
internal sealed class ImpliedNodes
{
    private const int MostPasses = 32;

    private readonly SetState _state;
    private readonly ulong[][] _rows;
    private readonly int[] _counts;

    /// <summary>Finds what follows from each open node and each choice not yet met, as things stand.</summary>
    /// <param name="state">What is decided.</param>
    /// <remarks>
    /// A frame brings what it requires; a choice brings what so many of its options bring that it cannot be met without one of them.
    /// Repeated until nothing is added; to stop early loses some, and states nothing false.
    /// </remarks>
    public ImpliedNodes(SetState state)
    {
        _state = state;
        Words = (state.Nodes + 63) / 64;
        _counts = new int[state.Nodes];
        _rows = new ulong[state.Nodes][];
        for (var node = 0; node < state.Nodes; node++)
        {
            _rows[node] = new ulong[Words];
            _rows[node][node / 64] |= 1UL << (node % 64);
        }

        var pass = 0;
        while (pass++ < MostPasses && Pass()) { }
    }

    /// <summary>Words in a row.</summary>
    public int Words { get; }

    /// <summary>What a node brings, itself included.</summary>
    public ReadOnlySpan<ulong> this[int node] => _rows[node];

    /// <summary>Whether a node brings another.</summary>
    /// <param name="other">Another.</param>
    public bool Brings(int node, int other) => (_rows[node][other / 64] >> (other % 64) & 1) != 0;

    private bool Pass()
    {
        var changed = false;
        for (var node = _state.Nodes - 1; node >= 0; node--)
        {
            var isUnmet = node >= _state.Frames && _state.Lacks(node - _state.Frames) > 0;
            if (_state[node] != Membership.Open && !isUnmet) continue;
            foreach (var required in _state.Requires(node)) changed |= Add(_rows[node], _rows[required]);
            if (node >= _state.Frames) changed |= AddCommon(node, _state.Choice(node - _state.Frames));
        }

        return changed;
    }

    private bool AddCommon(int node, Choice choice)
    {
        var open = choice.Of.Where(option => _state[option] == Membership.Open).ToArray();
        var lacks = choice.Any - choice.Of.Count(option => _state[option] == Membership.In);
        if (lacks <= 0 || open.Length == 0) return false;
        var needed = open.Length - lacks + 1;
        Array.Clear(_counts);
        foreach (var option in open)
        {
            foreach (var brought in BitEnumerator.From(_rows[option])) _counts[brought]++;
        }

        var common = new ulong[Words];
        for (var each = 0; each < _counts.Length; each++)
        {
            if (_counts[each] >= needed) common[each / 64] |= 1UL << (each % 64);
        }

        return Add(_rows[node], common);
    }

    private static bool Add(ulong[] to, ulong[] row)
    {
        var changed = false;
        for (var word = 0; word < to.Length; word++)
        {
            changed |= (row[word] & ~to[word]) != 0;
            to[word] |= row[word];
        }

        return changed;
    }
}

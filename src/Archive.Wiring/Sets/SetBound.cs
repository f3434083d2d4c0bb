namespace Archive.Wiring.Sets;

/// <summary>What the open needs will cost at least, and what each frame would cost beyond that.</summary>
/// <remarks>
/// Dual ascent for covering problems (as in Erlenkotter, <i>A dual-based procedure for uncapacitated facility location</i>, 1978; from
/// memory). Each unmet choice, in turn, claims what its cheapest options cost, with all that they bring; what several options bring it
/// claims in equal parts, for it is paid once. What is claimed of a frame, no other choice may claim. Whatever is chosen pays every claim,
/// and what is left unclaimed of the frames chosen on top. All in whole numbers, therefore exact.
/// </remarks>
internal sealed class SetBound
{
    // Divisible by all numbers to 16, so that equal parts usually come out even; a part that does not is rounded down, and the bound holds.
    private const int Grain = 720_720;

    private readonly SetState _state;
    private readonly ImpliedNodes _implied;
    private readonly Int128[] _left;
    private readonly Int128[] _claim;
    private readonly int[] _shares;
    private readonly Int128[] _prices;
    private readonly List<int> _options = [];
    private readonly List<int> _touched = [];
    private readonly List<Int128> _sorted = [];

    /// <summary>A bound over what is decided at the time it is asked.</summary>
    /// <param name="state">What is decided.</param>
    /// <param name="implied">What each node brings.</param>
    public SetBound(SetState state, ImpliedNodes implied)
    {
        (_state, _implied) = (state, implied);
        _left = new Int128[state.Nodes];
        _claim = new Int128[state.Nodes];
        _shares = new int[state.Nodes];
        _prices = new Int128[state.Nodes];
    }

    /// <summary>Steps taken so far: what the work is counted in.</summary>
    public long Steps { get; private set; }

    /// <summary>The least that has yet to be paid.</summary>
    /// <param name="unmet">The choices that are not met, in the order in which they claim.</param>
    /// <returns>Null where one of them cannot be met.</returns>
    public Int128? Compute(IReadOnlyList<int> unmet)
    {
        for (var node = 0; node < _left.Length; node++) _left[node] = _state[node] == Membership.Open ? _state.Costs[node] * Grain : 0;
        Int128 sum = 0;
        foreach (var choice in unmet)
        {
            var lacks = _state.Lacks(choice);
            Gather(choice);
            if (_options.Count < lacks) return null;
            sum += Claim(lacks);
        }

        return (sum + Grain - 1) / Grain;
    }

    /// <summary>What a node would cost beyond the last bound, with all that it brings.</summary>
    public Int128 Beyond(int node)
    {
        Int128 beyond = 0;
        foreach (var brought in BitEnumerator.From(_implied[node]))
        {
            Steps++;
            beyond += _left[brought];
        }

        return beyond / Grain;
    }

    /// <summary>What the options of an unmet choice bring, themselves included.</summary>
    /// <returns>Each open node, and in how many of the options that are yet to be chosen it can count.</returns>
    public List<(int Node, int Parts)> BroughtBy(int choice)
    {
        Gather(choice);
        CountShares();
        List<(int Node, int Parts)> brought = [.. _touched.Select(node => (node, Parts(node, _state.Lacks(choice))))];
        foreach (var node in _touched) _shares[node] = 0;
        return brought;
    }

    /// <summary>What a node costs with all that it brings and that is not yet in.</summary>
    public Int128 PriceOf(int node)
    {
        Int128 price = 0;
        foreach (var brought in BitEnumerator.From(_implied[node]))
        {
            Steps++;
            if (_state[brought] == Membership.Open) price += _state.Costs[brought];
        }

        return price;
    }

    private void Gather(int choice)
    {
        _options.Clear();
        foreach (var option in _state.Choice(choice).Of)
        {
            if (_state[option] == Membership.Open && !BringsWhatIsOut(option)) _options.Add(option);
        }

        Steps += _state.Choice(choice).Of.Length;
    }

    private bool BringsWhatIsOut(int option)
    {
        foreach (var brought in BitEnumerator.From(_implied[option]))
        {
            if (_state[brought] == Membership.Out) return true;
        }

        return false;
    }

    private Int128 Claim(int lacks)
    {
        CountShares();
        _sorted.Clear();
        foreach (var option in _options) _sorted.Add(_prices[option] = Price(option, lacks));
        _sorted.Sort();
        Int128 sum = 0;
        for (var each = 0; each < lacks; each++) sum += _sorted[each];
        if (sum > 0)
        {
            foreach (var option in _options) Charge(option, Int128.Min(_prices[option], _sorted[lacks - 1]), lacks);
            foreach (var node in _touched) _left[node] -= _claim[node] * Parts(node, lacks);
        }

        foreach (var node in _touched) (_shares[node], _claim[node]) = (0, 0);
        return sum;
    }

    private void CountShares()
    {
        _touched.Clear();
        foreach (var option in _options)
        {
            foreach (var brought in BitEnumerator.From(_implied[option]))
            {
                Steps++;
                if (_state[brought] == Membership.Open && _shares[brought]++ == 0) _touched.Add(brought);
            }
        }
    }

    // At most so many options are chosen that bring a node: the parts that it is paid in.
    private int Parts(int node, int lacks) => Math.Min(_shares[node], lacks);

    private Int128 Price(int option, int lacks)
    {
        Int128 price = 0;
        foreach (var brought in BitEnumerator.From(_implied[option]))
        {
            if (_left[brought] > 0) price += _left[brought] / Parts(brought, lacks);
        }

        return price;
    }

    // What others have claimed of what they share is taken first; of the rest, that which most options share.
    private void Charge(int option, Int128 owed, int lacks)
    {
        foreach (var brought in BitEnumerator.From(_implied[option])) owed -= _claim[brought];
        while (owed > 0)
        {
            var best = -1;
            foreach (var brought in BitEnumerator.From(_implied[option]))
            {
                Steps++;
                if (_left[brought] > 0
                    && _claim[brought] < _left[brought] / Parts(brought, lacks)
                    && (best < 0 || _shares[brought] > _shares[best])) best = brought;
            }

            var more = Int128.Min(owed, (_left[best] / Parts(best, lacks)) - _claim[best]);
            _claim[best] += more;
            owed -= more;
        }
    }
}

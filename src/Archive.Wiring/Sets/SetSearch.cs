namespace Archive.Wiring.Sets;

/// <summary>
/// Branch and bound: takes the most needed option in, then leaves it out, and turns back where the bound says that nothing better follows.
/// </summary>
internal sealed class SetSearch
{
    private readonly SetState _state;
    private readonly SetBound _bound;
    private readonly long _limit;
    private readonly List<int> _unmet = [];
    private readonly Stack<(int Node, int Mark)> _decided = new();

    /// <summary>A search over what is open.</summary>
    /// <param name="state">What is decided; at the end of each search it is again as it was.</param>
    /// <param name="implied">What each node brings.</param>
    /// <param name="limit">Most steps that are taken, over all searches.</param>
    public SetSearch(SetState state, ImpliedNodes implied, long limit)
    {
        (_state, _limit) = (state, limit);
        _bound = new SetBound(state, implied);
    }

    /// <summary>Whether a search was given up at the limit.</summary>
    public bool GaveUp { get; private set; }

    /// <summary>Steps taken so far.</summary>
    public long Steps => _bound.Steps;

    /// <summary>Finds the cheapest set, or any.</summary>
    /// <param name="below">Sets of this cost and above are not wanted.</param>
    /// <param name="anyWillDo">Whether the first is as good as the best.</param>
    /// <returns>Frames and cost; null where there is none.</returns>
    public (int[] Frames, Int128 Cost)? Run(Int128 below, bool anyWillDo)
    {
        var root = _state.Mark;
        (int[] Frames, Int128 Cost)? best = null;
        var goesOn = true;
        while (goesOn)
        {
            if (Steps > _limit)
            {
                GaveUp = true;
                break;
            }

            GatherUnmet();
            if (_unmet.Count == 0 && _state.Cost < below)
            {
                best = (_state.FramesIn(), _state.Cost);
                below = _state.Cost;
                if (anyWillDo) break;
            }

            goesOn = (_unmet.Count > 0 && LeavesRoom(below) && (_unmet.Count == 0 || Decide())) || TurnBack();
        }

        _decided.Clear();
        _state.GoBack(root);
        return best;
    }

    private void GatherUnmet()
    {
        _unmet.Clear();
        for (var choice = 0; choice < _state.Choices; choice++)
        {
            if (_state.Lacks(choice) > 0) _unmet.Add(choice);
        }

        _unmet.Sort((a, b) => _state.Spare(a) != _state.Spare(b) ? _state.Spare(a).CompareTo(_state.Spare(b)) : a.CompareTo(b));
    }

    // Bounds what is open; frames that no set of less cost can hold are put out, until nothing more follows.
    private bool LeavesRoom(Int128 below)
    {
        while (true)
        {
            if (_bound.Compute(_unmet) is not { } more || _state.Cost + more >= below) return false;
            var (mark, room) = (_state.Mark, below - _state.Cost - more);
            for (var frame = 0; frame < _state.Frames; frame++)
            {
                if (_state[frame] == Membership.Open && _bound.Beyond(frame) >= room && !_state.Put(frame, Membership.Out)) return false;
            }

            if (_state.Mark == mark) return true;
            GatherUnmet();
            if (_unmet.Count == 0) return true;
        }
    }

    // Of the choice with the fewest options to spare: what most of its options bring; of that, what meets most choices for its cost.
    private bool Decide()
    {
        var best = -1;
        var (bestParts, bestCost, bestUse) = (0, Int128.Zero, 0);
        foreach (var (node, parts) in _bound.BroughtBy(_unmet[0]))
        {
            if (parts < bestParts) continue;
            var (cost, use) = (_bound.PriceOf(node), _state.ChoicesWith(node).Count(choice => _state.Lacks(choice) > 0));
            if (parts == bestParts && cost * bestUse >= bestCost * use) continue;
            (best, bestParts, bestCost, bestUse) = (node, parts, cost, use);
        }

        _decided.Push((best, _state.Mark));
        return _state.Put(best, Membership.In);
    }

    private bool TurnBack()
    {
        while (_decided.TryPop(out var last))
        {
            _state.GoBack(last.Mark);
            if (_state.Put(last.Node, Membership.Out)) return true;
        }

        return false;
    }
}

namespace Archive.Wiring.Sets;

/// <summary>What is decided: each frame and choice in, out or open, and all that follows from that.</summary>
/// <remarks>
/// Decisions are followed up at once, and can be taken back to a mark. What follows costs time linear in the arrows that lead to it.
/// </remarks>
internal sealed class SetState
{
    private readonly int _frames;
    private readonly Choice[] _choices;
    private readonly int[][] _requires;
    private readonly int[][] _requiredBy;
    private readonly int[][] _choicesWith;
    private readonly Membership[] _standing;
    private readonly int[] _in;
    private readonly int[] _possible;
    private readonly Stack<int> _trail = new();
    private readonly Queue<(int Node, Membership To)> _following = new();

    /// <summary>Nothing decided.</summary>
    /// <param name="costs">What each node costs; choices cost nothing.</param>
    public SetState(NeedGraph net, Int128[] costs)
    {
        (_frames, _choices, Costs) = (net.Frames.Length, net.Choices, costs);
        _requires = [.. net.Requires, .. net.Choices.Select(_ => Array.Empty<int>())];
        _requiredBy = Turned(net.Nodes, _requires);
        _choicesWith = Turned(net.Nodes, [.. net.Choices.Select(choice => choice.Of)]);
        _standing = new Membership[net.Nodes];
        _in = new int[net.Choices.Length];
        _possible = [.. net.Choices.Select(choice => choice.Of.Length)];
    }

    /// <summary>What each node costs.</summary>
    public Int128[] Costs { get; }

    public Int128 Cost { get; private set; }

    /// <summary>Number of nodes.</summary>
    public int Nodes => _standing.Length;

    /// <summary>Number of frames.</summary>
    public int Frames => _frames;

    /// <summary>Number of choices.</summary>
    public int Choices => _choices.Length;

    /// <summary>A mark to go back to.</summary>
    public int Mark => _trail.Count;

    /// <summary>Whether a node is in, out or open.</summary>
    public Membership this[int node] => _standing[node];

    /// <summary>What a node requires: nodes.</summary>
    public int[] Requires(int node) => _requires[node];

    /// <summary>What requires a node.</summary>
    public int[] RequiredBy(int node) => _requiredBy[node];

    /// <summary>The choices that a node is an option of.</summary>
    public int[] ChoicesWith(int node) => _choicesWith[node];

    /// <param name="choice">Its number among the choices.</param>
    public Choice Choice(int choice) => _choices[choice];

    /// <summary>How many more of a choice's options it takes; none where it is met or does not count.</summary>
    /// <param name="choice">Its number among the choices.</param>
    public int Lacks(int choice) => _standing[_frames + choice] == Membership.In ? Math.Max(0, _choices[choice].Any - _in[choice]) : 0;

    /// <summary>How many of a choice's options, in or open, it can do without.</summary>
    /// <param name="choice">Its number among the choices.</param>
    public int Spare(int choice) => _possible[choice] - _choices[choice].Any;

    /// <summary>Puts a node in or out, and all that follows.</summary>
    /// <param name="to">In or out.</param>
    /// <returns>False where that cannot be; the state is then to be taken back.</returns>
    public bool Put(int node, Membership to)
    {
        _following.Clear();
        _following.Enqueue((node, to));
        while (_following.TryDequeue(out var next))
        {
            var (each, standing) = next;
            if (_standing[each] == standing) continue;
            if (_standing[each] != Membership.Open) return false;
            _standing[each] = standing;
            _trail.Push(each);
            if (standing == Membership.In) FollowIn(each);
            else FollowOut(each);
        }

        return true;
    }

    /// <summary>Puts out what can never be, before anything is decided.</summary>
    /// <returns>False where something that is in can never be.</returns>
    public bool PutOutImpossible()
    {
        for (var choice = 0; choice < _choices.Length; choice++)
        {
            if (_possible[choice] < _choices[choice].Any && !Put(_frames + choice, Membership.Out)) return false;
        }

        return true;
    }

    /// <summary>Takes back all that was decided since a mark.</summary>
    public void GoBack(int mark)
    {
        while (_trail.Count > mark)
        {
            var node = _trail.Pop();
            if (_standing[node] == Membership.In)
            {
                Cost -= Costs[node];
                foreach (var choice in _choicesWith[node]) _in[choice]--;
            }
            else
            {
                foreach (var choice in _choicesWith[node]) _possible[choice]++;
            }

            _standing[node] = Membership.Open;
        }
    }

    public int[] FramesIn() => [.. Enumerable.Range(0, _frames).Where(frame => _standing[frame] == Membership.In)];

    private void FollowIn(int node)
    {
        Cost += Costs[node];
        foreach (var required in _requires[node]) _following.Enqueue((required, Membership.In));
        if (node >= _frames) FollowChoice(node - _frames);
        foreach (var choice in _choicesWith[node])
        {
            // What is met anyway costs nothing, and may count in another choice.
            if (++_in[choice] >= _choices[choice].Any) _following.Enqueue((_frames + choice, Membership.In));
        }
    }

    private void FollowOut(int node)
    {
        foreach (var by in _requiredBy[node]) _following.Enqueue((by, Membership.Out));
        foreach (var choice in _choicesWith[node])
        {
            _possible[choice]--;
            if (_possible[choice] < _choices[choice].Any) _following.Enqueue((_frames + choice, Membership.Out));
            else if (_standing[_frames + choice] == Membership.In) FollowChoice(choice);
        }
    }

    private void FollowChoice(int choice)
    {
        if (_possible[choice] > _choices[choice].Any) return;
        foreach (var option in _choices[choice].Of)
        {
            if (_standing[option] == Membership.Open) _following.Enqueue((option, Membership.In));
        }
    }

    private static int[][] Turned(int nodes, int[][] arrows)
    {
        var turned = Enumerable.Range(0, nodes).Select(_ => new List<int>()).ToArray();
        for (var from = 0; from < arrows.Length; from++)
        {
            foreach (var to in arrows[from]) turned[to].Add(from);
        }

        return [.. turned.Select(list => list.ToArray())];
    }
}

/// <summary>Whether something belongs to the set.</summary>
internal enum Membership : byte
{
    /// <summary>Not decided.</summary>
    Open,

    /// <summary>It does.</summary>
    In,

    /// <summary>It does not.</summary>
    Out,
}

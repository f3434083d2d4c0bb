namespace Archive.Wiring.Sets;

/// <summary>
/// Puts out frames that the set sought never holds: where enough others do all that a frame does, require no more, and cost less (or as
/// much, and come first by id), it would only be there beside them.
/// </summary>
/// <remarks>
/// If a frame of the set sought could be exchanged for one that dominates it, that would be a better set; so whatever dominates a frame of
/// the set is in the set, and where a choice is met by those already, the frame itself is one too many.
/// </remarks>
internal static class Dominance
{
    // Beyond this many frames only frames alike in every respect are compared, in linear time.
    private const int MostComparedInPairs = 1_200;

    /// <summary>Puts out what is dominated, and what nothing needs.</summary>
    /// <param name="state">What is decided.</param>
    /// <param name="implied">What each node brings.</param>
    /// <returns>Whether anything was put out.</returns>
    public static bool Apply(SetState state, ImpliedNodes implied)
    {
        var open = Enumerable.Range(
            0, state.Frames).Where(frame => state[frame] == Membership.Open).Select(frame => new Ties(state, frame)).ToArray();
        var rivals = open.Length <= MostComparedInPairs
            ? open.Select(frame => open.Count(other => other.Dominates(frame, state, implied)))
            : Ranks(open, state);
        var doomed = open.Zip(rivals).Where(pair => pair.First.IsTooMany(state, pair.Second)).Select(pair => pair.First.Frame).ToList();
        foreach (var frame in doomed.Where(frame => state[frame] == Membership.Open)) state.Put(frame, Membership.Out);
        return doomed.Count > 0;
    }

    private static int[] Ranks(Ties[] open, SetState state)
    {
        var ranks = new int[open.Length];
        foreach (var alike in Enumerable.Range(0, open.Length).GroupBy(at => open[at].Words, StringComparer.Ordinal))
        {
            var rank = 0;
            foreach (var at in alike.OrderBy(at => state.Costs[open[at].Frame]).ThenBy(at => at)) ranks[at] = rank++;
        }

        return ranks;
    }

    // What ties a frame to others that are not yet decided.
    private sealed class Ties
    {
        private readonly int[] _choices;
        private readonly int[] _requires;
        private readonly int[] _requiredBy;

        internal Ties(SetState state, int frame)
        {
            Frame = frame;
            _choices = [.. state.ChoicesWith(frame)
                .Where(choice => state[state.Frames + choice] == Membership.Open || state.Lacks(choice) > 0)];
            _requires = [.. state.Requires(frame).Where(node => state[node] == Membership.Open)];
            _requiredBy = [.. state.RequiredBy(frame).Where(node => state[node] == Membership.Open)];
        }

        internal int Frame { get; }

        internal string Words => $"{string.Join(' ', _choices)}:{string.Join(' ', _requires)}:{string.Join(' ', _requiredBy)}";

        internal bool IsTooMany(SetState state, int rivals) =>
            _requiredBy.Length == 0 && _choices.All(choice =>
                rivals >= state.Choice(choice).Any - state.Choice(choice).Of.Count(option => state[option] == Membership.In));

        internal bool Dominates(Ties other, SetState state, ImpliedNodes implied)
        {
            var (mine, theirs) = (state.Costs[Frame], state.Costs[other.Frame]);
            if (mine > theirs || (mine == theirs && Frame >= other.Frame)) return false;
            foreach (var choice in other._choices)
            {
                if (Array.BinarySearch(_choices, choice) < 0) return false;
            }

            foreach (var by in other._requiredBy)
            {
                if (Array.BinarySearch(_requiredBy, by) < 0) return false;
            }

            foreach (var required in _requires)
            {
                if (required == other.Frame || !implied.Brings(other.Frame, required)) return false;
            }

            return true;
        }
    }
}

using System.Collections.Immutable;

namespace Archive.SchemeSearch.Proposals;

/// <summary>Fills the one table of a scheme: each text gets the value that most ends speak for, and no value is given twice.</summary>
internal static class TableLearner
{
    // One end may be misread; a line in a table needs two, or one that was seen.
    private const int FewestVotes = 2;

    /// <param name="ends">Ends of labels; the labels' places in the question.</param>
    /// <param name="text">The group's text.</param>
    /// <param name="rule">What a text means without a table; -1 for nothing.</param>
    /// <param name="values">All values that it could mean.</param>
    /// <param name="find">The port of an end if its text had a value.</param>
    /// <param name="line">Votes that a line of the table must gain to be worth its length.</param>
    /// <returns>The texts that do not follow the rule, and the votes for every other value of them.</returns>
    internal static (ImmutableSortedDictionary<string, int> Table, List<(string Text, int Value)> Others) Learn(
        IReadOnlyList<(int Label, EndText End)> ends,
        Func<EndText, string> text,
        Func<string, int> rule,
        IReadOnlyList<int> values,
        Func<EndText, int, int> find,
        double line,
        SearchData data)
    {
        var votes = new Dictionary<string, Dictionary<int, int>>(StringComparer.Ordinal);
        foreach (var (label, end) in ends)
        {
            if (!votes.TryGetValue(text(end), out var own)) votes[text(end)] = own = [];
            foreach (var value in values)
            {
                if (data.Votes(label, find(end, value)) is var vote and not 0) own[value] = own.GetValueOrDefault(value) + vote;
            }

            data.Work += values.Count;
        }

        var table = ImmutableSortedDictionary.CreateBuilder<string, int>(StringComparer.Ordinal);
        var others = new List<(string, int)>();
        var given = new HashSet<int>();
        var ordered = votes.Where(pair => pair.Value.Count > 0)
            .OrderByDescending(pair => pair.Value.Values.Max())
            .ThenBy(pair => pair.Key, StringComparer.Ordinal);
        foreach (var (key, own) in ordered)
        {
            var byRule = rule(key);
            var best = own.Where(pair => !given.Contains(pair.Key))
                .OrderByDescending(pair => pair.Value)
                .ThenByDescending(pair => pair.Key == byRule)
                .ThenBy(pair => pair.Key)
                .Select(pair => (Value: pair.Key, Votes: pair.Value))
                .FirstOrDefault((Value: -1, Votes: 0));
            var ruled = byRule >= 0 && !given.Contains(byRule) ? own.GetValueOrDefault(byRule) : 0;
            if (best.Votes < FewestVotes || best.Value == byRule || best.Votes - ruled < line)
            {
                // Another text has its value: it means nothing.
                if (byRule >= 0 && !given.Add(byRule)) table[key] = -1;
                continue;
            }

            given.Add(best.Value);
            table[key] = best.Value;
            others.AddRange(own.Where(pair => pair.Key != best.Value && pair.Value > 0).Select(pair => (key, pair.Key)));
        }

        given.ExceptWith(table.Values);
        return (table.ToImmutable(), [.. others.Where(other => !given.Contains(other.Item2))]);
    }
}

using System.Collections.Immutable;
using System.Text;

namespace Archive.Proposals;

/// <summary>What a person decides about a proposal.</summary>
public enum Decision
{
    Later,
    Accept,
    Reject,

    /// <summary>What else it may say is accepted: <see cref="ProposedFact.RunnerUp"/>.</summary>
    RunnerUp,

    /// <summary>A person's own value is accepted.</summary>
    Correct,
}

/// <summary>A decision.</summary>
/// <param name="Text">The value instead, for <see cref="Decision.Correct"/>; null for others.</param>
public readonly record struct Decided(Decision Decision, string? Text = null);

/// <summary>A text that cannot be taken for decisions.</summary>
/// <param name="line">The line, from 1.</param>
public sealed class ReviewTextException(int line, string message) : FormatException($"line {line}: {message}");

/// <summary>Decisions, as words on the command line and as a text file that a person edits.</summary>
public static class ReviewDecisions
{
    /// <summary>A decision as a person writes it: <c>runner-up</c>.</summary>
    public static string Word(Decision decision) =>
        decision == Decision.RunnerUp ? "runner-up" : decision.ToString().ToLowerInvariant();

    /// <summary>The decision of a word; null for any other.</summary>
    public static Decision? Parse(string word) =>
        Enum.GetValues<Decision>().Cast<Decision?>().FirstOrDefault(decision => Word(decision!.Value) == word);

    /// <summary>What can be decided about a proposal.</summary>
    public static IEnumerable<Decision> Of(Proposal proposal) => Enum.GetValues<Decision>().Where(decision => decision switch
    {
        Decision.RunnerUp => proposal.Fact.RunnerUp is not null && Corrections.CanCorrect(proposal),
        Decision.Correct => Corrections.CanCorrect(proposal),
        _ => true,
    });

    /// <summary>The proposals that words name.</summary>
    /// <param name="proposals">All of them.</param>
    /// <param name="words">
    /// <c>all</c>: all but contradictions, which are decided one by one; <c>new</c>: what the record does not say yet; or the id of a
    /// record or of a proposal.
    /// </param>
    /// <returns>The proposals, and words that name none.</returns>
    public static (ImmutableHashSet<string> Ids, ImmutableArray<string> Unknown) Named(
        ImmutableArray<Proposal> proposals, IEnumerable<string> words)
    {
        var open = proposals.Where(proposal => proposal.IsOpen).ToList();
        var byRecord = open.ToLookup(proposal => proposal.Fact.RecordId, StringComparer.Ordinal);
        var byId = open.ToLookup(proposal => proposal.Id, StringComparer.Ordinal);
        var ids = ImmutableHashSet.CreateBuilder<string>(StringComparer.Ordinal);
        var unknown = ImmutableArray.CreateBuilder<string>();
        foreach (var word in words)
        {
            var named = word switch
            {
                "all" => open.Where(proposal => proposal.Kind != ProposalKind.Contradiction),
                "new" => open.Where(proposal => proposal.Kind == ProposalKind.New),
                _ => byId[word].Concat(byRecord[word].Where(proposal => proposal.Kind != ProposalKind.Contradiction)).ToList(),
            };
            if (word is not ("all" or "new") && !named.Any()) unknown.Add(word);
            ids.UnionWith(named.Select(proposal => proposal.Id));
        }

        return (ids.ToImmutable(), unknown.ToImmutable());
    }

    /// <summary>The text to edit: a line for each proposal that waits for a decision, those of a record together.</summary>
    public static string Text(ImmutableArray<Proposal> proposals)
    {
        var text = new StringBuilder(
            "# Write accept, reject or later at the start of each line. Lines that begin with # are not read.\n"
            + "# Nothing is written but what is accepted; what is rejected is not proposed again.\n"
            + "# For another value, write correct and edit what is after the equals sign; runner-up takes what else it may be.\n");
        foreach (var record in proposals.Where(proposal => proposal.IsOpen).GroupBy(proposal => proposal.Fact.RecordId))
        {
            text.Append($"\n# {record.Key}{(record.First().IsNewRecord ? " (new)" : "")}\n");
            foreach (var proposal in record)
            {
                if (proposal.Current is { } current)
                    text.Append($"#   now: {OneLine(current.Text + ProposalFinder.How(current.Evidence))}\n");
                if (proposal.Why is { } why) text.Append($"#   {OneLine(why)}\n");
                if (proposal.Fact.RunnerUp is { } other) text.Append($"#   runner-up: {OneLine(other)}\n");
                if (proposal.Fact.Hint is { } hint) text.Append($"#   {OneLine(hint)}\n");
                text.Append($"#   from {OneLine(string.Join("; ", proposal.Origins))}\n");
                text.Append($"later  {Line(proposal)}\n");
            }
        }

        return text.ToString();
    }

    /// <summary>Reads the text back.</summary>
    /// <param name="proposals">The proposals of now: a line that says something else than they do is an error.</param>
    /// <exception cref="ReviewTextException">A line is no decision about one of them.</exception>
    public static ImmutableDictionary<string, Decided> Read(ImmutableArray<Proposal> proposals, string text)
    {
        var open = proposals.Where(proposal => proposal.IsOpen).ToList();
        var byLine = open.ToDictionary(Line, StringComparer.Ordinal);
        var byId = open.ToDictionary(proposal => proposal.Id, StringComparer.Ordinal);
        var decided = ImmutableDictionary.CreateBuilder<string, Decided>(StringComparer.Ordinal);
        var number = 0;
        foreach (var written in text.Split('\n'))
        {
            number++;
            var line = written.Trim();
            if (line.Length == 0 || line[0] == '#') continue;
            var end = line.IndexOf(' ', StringComparison.Ordinal);
            var word = end < 0 ? line : line[..end];
            var rest = end < 0 ? "" : line[end..].Trim();
            if (Parse(word) is not { } decision)
                throw new ReviewTextException(number, $"`{word}` is not accept, reject, later, correct or runner-up");
            if (decision == Decision.Later) continue;
            var (proposal, instead) = decision == Decision.Correct
                ? Corrected(byId, rest)
                : (byLine.GetValueOrDefault(rest), null);
            if (proposal is null) throw new ReviewTextException(number, $"`{rest}` is no longer proposed; make the file again");
            if (!Of(proposal).Contains(decision))
            {
                var why = decision == Decision.RunnerUp ? "has no runner-up" : "cannot be corrected";
                throw new ReviewTextException(number, $"{proposal.Id} {why}; accept it, reject it or leave it for later");
            }

            if (instead?.Length == 0) throw new ReviewTextException(number, "nothing is written after the equals sign");
            decided[proposal.Id] = new Decided(decision, instead);
        }

        return decided.ToImmutable();
    }

    // The proposal that a line names, and what a person wrote behind its name.
    private static (Proposal? Proposal, string? Text) Corrected(Dictionary<string, Proposal> byId, string line)
    {
        var end = line.IndexOf(" =", StringComparison.Ordinal);
        if (end < 0 || !byId.TryGetValue(line[..end], out var proposal)) return (null, null);
        var (text, how) = (line[(end + 2)..].Trim(), OneLine(How(proposal)));
        return (proposal, how.Length > 0 && text.EndsWith(how, StringComparison.Ordinal) ? text[..^how.Length].Trim() : text);
    }

    private static string How(Proposal proposal) => ProposalFinder.How(proposal.Fact.Evidence ?? new());

    private static string Line(Proposal proposal) => OneLine($"{proposal.Id} = {proposal.Fact.Value.Text}{How(proposal)}").Trim();

    // What has an end of line, or is invisible, in it stays one line.
    private static string OneLine(string text) =>
        string.Concat(text.Select(letter => char.IsControl(letter) || letter is '\u2028' or '\u2029' ? ' ' : letter));
}

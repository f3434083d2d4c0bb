using System.Collections.Immutable;
using System.Security.Cryptography;
using Archive.Diagnostics;
using Archive.Proposals;
using Archive.Records.Reading;
using Archive.Storage;

namespace Archive.Cli.Preview;

/// <summary>Proposals that are decided in a page of the preview.</summary>
/// <param name="root">Full path of the archive.</param>
/// <param name="proposals">What is proposed.</param>
/// <param name="write">Writes the files of what was accepted.</param>
/// <param name="pictureOf">Full path of the picture that a fact comes from; null for none.</param>
/// <param name="cutoutOf">The print that a fact was read from, as a JPEG; null for none.</param>
/// <param name="drawing">Makes an SVG of all proposals together; null for none.</param>
internal sealed class ReviewSession(
    string root,
    ImmutableArray<Proposal> proposals,
    Func<ProposedChanges, FileChangeOutcome> write,
    Func<ProposalOrigin, string?> pictureOf,
    Func<ProposalOrigin, byte[]?> cutoutOf,
    Func<byte[]>? drawing = null)
{
    private readonly Lock _lock = new();
    private readonly ImmutableArray<ProposedFact> _facts =
        [.. proposals.SelectMany(proposal => proposal.Origins.Select(origin => proposal.Fact with { Origin = origin }))];

    /// <summary>What a page must send back with its decisions: no other page of the browser knows it.</summary>
    internal string Token { get; } = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(32));

    /// <summary>The proposals, as the record was when they were last looked at.</summary>
    internal ImmutableArray<Proposal> Proposals { get; private set; } = proposals;

    /// <summary>What came of the last decisions; empty before the first.</summary>
    internal ImmutableArray<string> Messages { get; private set; } = [];

    internal bool IsToken(string? token) => token is not null && CryptographicOperations.FixedTimeEquals(
        System.Text.Encoding.UTF8.GetBytes(token), System.Text.Encoding.UTF8.GetBytes(Token));

    /// <summary>The drawing of all proposals together, as it was when the command began; null for none.</summary>
    internal byte[]? Drawing => drawing?.Invoke();

    internal bool HasDrawing => drawing is not null;

    internal string? PictureOf(ProposalOrigin origin) => pictureOf(origin);

    internal byte[]? CutoutOf(ProposalOrigin origin) => cutoutOf(origin);

    /// <summary>Writes what was accepted, and remembers what was rejected; nothing else.</summary>
    /// <param name="decisions">By the ids of proposals, or of new records.</param>
    /// <param name="leftOut">Ids of proposals that are not decided with their new record.</param>
    internal void Decide(IReadOnlyDictionary<string, Decided> decisions, IReadOnlySet<string> leftOut)
    {
        lock (_lock)
        {
            var shown = Proposals.ToDictionary(proposal => proposal.Id, StringComparer.Ordinal);
            var messages = ImmutableArray.CreateBuilder<string>();

            // The record may have been edited since the page was shown.
            var folder = new ArchiveFolder(root);
            var now = Find(folder, messages).ToDictionary(proposal => proposal.Id, StringComparer.Ordinal);
            var decided = new List<(Proposal, Decided)>();
            var ofRecords = Proposals.Where(proposal => proposal is { IsNewRecord: true, Kind: ProposalKind.New, IsOpen: true })
                .ToLookup(proposal => proposal.Fact.RecordId, proposal => proposal.Id, StringComparer.Ordinal);
            var each = decisions.Where(pair => pair.Value.Decision != Decision.Later).SelectMany(pair => shown.ContainsKey(pair.Key)
                ? [pair]
                : ofRecords[pair.Key].Where(id => pair.Value.Decision == Decision.Reject || !leftOut.Contains(id))
                    .Select(id => KeyValuePair.Create(id, pair.Value)));
            foreach (var (id, decision) in each)
            {
                if (shown.TryGetValue(id, out var before) && now.TryGetValue(id, out var proposal)
                    && proposal.IsOpen && proposal.Kind == before.Kind && proposal.Current?.Text == before.Current?.Text)
                {
                    if (decision is { Decision: Decision.Correct, Text: null or "" }) messages.Add($"{id}: nothing was typed");
                    else if (ReviewDecisions.Of(proposal).Contains(decision.Decision)) decided.Add((proposal, decision));
                }
                else messages.Add($"{id}: the record was changed meanwhile; look at it again");
            }

            Write(folder, decided, messages);
            Proposals = Find(new ArchiveFolder(root), messages);
            Messages = messages.ToImmutable();
        }
    }

    private void Write(ArchiveFolder folder, List<(Proposal, Decided)> decided, ImmutableArray<string>.Builder messages)
    {
        var (accepted, rejected, replaced) = Corrections.Resolve(folder, decided);
        var changes = AcceptedProposals.Apply(folder, accepted);
        var outcome = write(changes);
        var written = outcome.Written.ToHashSet(StringComparer.Ordinal);
        var facts = changes.Written.Count(proposal => written.Contains(proposal.File!));
        if (facts > 0) messages.Add($"Written: {facts} {(facts == 1 ? "fact" : "facts")} in {string.Join(", ", outcome.Written)}.");
        messages.AddRange(changes.Refused.Select(refused => $"{refused.Proposal.Id}: not written: {refused.Why}"));
        messages.AddRange(outcome.Refused.Select(refused => $"{refused.Path}: not written: {refused.Why}"));
        if (!outcome.Refused.IsEmpty || Rejections.Remember(folder, [.. rejected, .. replaced]) is not { } remembered) return;
        var rest = FileChanges.Write(root, [remembered]);
        if (rest.Refused.IsEmpty && rejected.Length > 0) messages.Add($"Rejected: {rejected.Length}.");
        messages.AddRange(rest.Refused.Select(refused => $"{refused.Path}: not written: {refused.Why}"));
    }

    private ImmutableArray<Proposal> Find(ArchiveFolder folder, ImmutableArray<string>.Builder messages)
    {
        var (rejections, diagnostics) = Rejections.Read(folder);
        if (diagnostics.FirstOrDefault(diagnostic => diagnostic.Severity == Severity.Error) is { } wrong)
            messages.Add($"{wrong.Span.Path}: {wrong.Message}");
        return ProposalFinder.Find(CurrentRecords.Read(folder).Records, _facts, rejections.Has);
    }
}

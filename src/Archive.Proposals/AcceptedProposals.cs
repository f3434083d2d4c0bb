using System.Collections.Immutable;
using Archive.Records.Editing;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Storage;

namespace Archive.Proposals;

/// <summary>What accepted proposals make of the record's files.</summary>
/// <param name="Files">The files to be written: <see cref="FileChanges.Write"/> does it.</param>
/// <param name="Written">The proposals that are in them.</param>
/// <param name="Refused">Those that could not be written, with the reason; a sentence without capital and full stop.</param>
public sealed record ProposedChanges(
    ImmutableArray<FileChange> Files, ImmutableArray<Proposal> Written, ImmutableArray<(Proposal Proposal, string Why)> Refused);

/// <summary>Writes accepted proposals into the record, in place: what is not meant to change stays byte for byte.</summary>
public static class AcceptedProposals
{
    /// <summary>Makes the new bytes of each file. Nothing is written to the disk.</summary>
    /// <param name="folder">The archive, as it was when the proposals were found.</param>
    /// <param name="accepted">What was accepted, and nothing else.</param>
    public static ProposedChanges Apply(IArchiveFolder folder, IEnumerable<Proposal> accepted)
    {
        var refused = new List<(Proposal, string)>();
        var written = new List<Proposal>();
        var files = ImmutableArray.CreateBuilder<FileChange>();
        foreach (var file in Writable(accepted, refused).GroupBy(proposal => proposal.File!, StringComparer.Ordinal))
            Apply(folder, file.Key, [.. file], files, written, refused);
        return new ProposedChanges(files.DrainToImmutable(), [.. written], [.. refused]);
    }

    private static List<Proposal> Writable(IEnumerable<Proposal> accepted, List<(Proposal, string)> refused)
    {
        var writable = new List<Proposal>();
        var seen = new HashSet<(string, string)>();
        foreach (var proposal in accepted.Where(proposal => proposal.IsChange || proposal.Kind == ProposalKind.Unplaced))
        {
            if (proposal.Kind == ProposalKind.Unplaced || proposal.File is null) refused.Add((proposal, proposal.Why ?? "it has no file"));
            else if (!seen.Add((proposal.Fact.RecordId, proposal.Fact.Key)))
                refused.Add((proposal, "another value was accepted for the same fact"));
            else writable.Add(proposal);
        }

        // What a new record needs may not have been accepted.
        foreach (var record in writable.Where(proposal => proposal.IsNewRecord).GroupBy(proposal => proposal.Fact.RecordId).ToList())
        {
            var facts = record.SelectMany(proposal => ProposalFinder.AllToWrite(proposal.Fact));
            var errors = FactTrial.Errors(record.First().Fact.RecordKind, record.Key, facts, isWhole: true);
            if (errors.FirstOrDefault() is not { } wrong) continue;
            foreach (var proposal in record)
            {
                writable.Remove(proposal);
                refused.Add((proposal, wrong.First()));
            }
        }

        return writable;
    }

    private static void Apply(
        IArchiveFolder folder,
        string path,
        List<Proposal> proposals,
        ImmutableArray<FileChange>.Builder files,
        List<Proposal> written,
        List<(Proposal, string)> refused)
    {
        var kind = proposals[0].Fact.RecordKind;
        var exists = folder.Files.Contains(path, StringComparer.Ordinal);
        var (bytes, why) = exists ? folder.Read(path, RecordFileEditor.LargestFile) : (null, null);
        var refusal = proposals.Any(proposal => proposal.Fact.RecordKind != kind) || !RecordFileEditor.CanHold(path, kind)
            ? $"`{path}` cannot hold these records"
            : exists && bytes is null ? why ?? $"`{path}` is too large" : null;
        if (refusal is not null)
        {
            refused.AddRange(proposals.Select(proposal => (proposal, refusal)));
            return;
        }

        var byRecord = proposals.GroupBy(proposal => proposal.Fact.RecordId, StringComparer.Ordinal)
            .Select(record => (Id: record.Key, record.First().IsNewRecord, Facts: ToWrite(record))).ToList();
        var edits = byRecord.Select(record =>
            new RecordEdit(record.Id, [.. record.Facts.SelectMany(pair => pair.Facts)], record.IsNewRecord)).ToList();
        var edit = RecordFileEditor.Edit(path, kind, bytes, edits);
        var reasons = edit.Refusals.ToLookup(refusal => (refusal.Id, refusal.Key), refusal => refusal.Why);
        foreach (var (proposal, facts) in byRecord.SelectMany(record => record.Facts))
        {
            var id = proposal.Fact.RecordId;
            var reason = facts.SelectMany(fact => reasons[(id, fact.Key)]).Concat(reasons[(id, null)]).FirstOrDefault();
            if (reason is null) written.Add(proposal);
            else refused.Add((proposal, $"{reason} (`{path}`)"));
        }

        if (edit.After is { } after) files.Add(new FileChange(path, bytes, after));
    }

    // New parts of a picture get the numbers after those that it has.
    private static List<(Proposal Proposal, ImmutableArray<FactToWrite> Facts)> ToWrite(IEnumerable<Proposal> ofOneRecord)
    {
        var numbers = new Dictionary<string, int>(StringComparer.Ordinal);
        return
        [
            .. ofOneRecord.Select(proposal =>
            {
                var facts = ProposalFinder.AllToWrite(proposal.Fact).Skip(1).Prepend(ToWrite(proposal));
                if (PictureParts.NameOf(proposal.Fact.Key) is not { } name) return (proposal, facts.ToImmutableArray());
                if (!numbers.TryGetValue(name, out var number)) numbers[name] = number = proposal.PartsBefore + numbers.Count + 1;
                return (proposal, facts.Select(fact => fact with { Key = PictureParts.Numbered(fact.Key, number) }).ToImmutableArray());
            }),
        ];
    }

    // A confirmation leaves the value as it is spelt. What is replaced stays in the note: nothing is ever lost.
    private static FactToWrite ToWrite(Proposal proposal)
    {
        var fact = ProposalFinder.ToWrite(proposal.Fact);
        if (proposal.Current is not { } current) return fact;
        if (ProposalFinder.IsSame(proposal.Fact, current.Text))
        {
            fact = fact with { Value = FactValue.Of(current.Text), Comment = null };
            return proposal.Fact.IsEvidenceMeant && CurrentEvidence.Lost(current.Evidence, fact.Evidence!) is { IsEmpty: false } lost
                ? WithBefore(fact, ProposalFinder.How(lost).TrimStart(',', ' '))
                : fact;
        }

        if (!FactFormats.TakesEvidence(proposal.Fact.RecordKind, fact.Key)) return fact;
        return WithBefore(fact, current.Text + ProposalFinder.How(current.Evidence));
    }

    private static FactToWrite WithBefore(FactToWrite fact, string before)
    {
        var evidence = fact.Evidence ?? new FactEvidence();
        return fact with { Evidence = evidence with { Note = CurrentEvidence.Note(evidence.Note, before) } };
    }
}

using System.Collections.Immutable;
using Archive.Records.Facts;
using Archive.Records.Model;

namespace Archive.Proposals;

/// <summary>What decisions come to.</summary>
/// <param name="Accepted">
/// What is to be written, with a person's own values in place of those that were corrected. A correction that cannot be written is an
/// <see cref="ProposalKind.Unplaced"/> proposal with the reason.
/// </param>
/// <param name="Rejected">What was rejected.</param>
/// <param name="Replaced">What was proposed where a person's own value is written: it is remembered as what was rejected is.</param>
public sealed record ResolvedDecisions(
    ImmutableArray<Proposal> Accepted, ImmutableArray<Proposal> Rejected, ImmutableArray<Proposal> Replaced);

/// <summary>
/// A person's own value in place of the proposed one: what was only true of the proposed value is not written with it, and its note says
/// what was proposed.
/// </summary>
public static class Corrections
{
    /// <summary>Whether a proposal can be corrected: a single value in one line, of a record that exists.</summary>
    public static bool CanCorrect(Proposal proposal) =>
        proposal is { IsOpen: true, IsNewRecord: false, Fact.Value: SingleFact { Text: var text } } && !text.Any(char.IsControl);

    /// <summary>What is to be written and remembered by decisions.</summary>
    /// <param name="folder">The archive, as it was when the proposals were found.</param>
    /// <param name="decided">Decisions; <see cref="Decision.Later"/> counts for nothing.</param>
    public static ResolvedDecisions Resolve(IArchiveFolder folder, IReadOnlyCollection<(Proposal Proposal, Decided Decided)> decided)
    {
        var accepted = ImmutableArray.CreateBuilder<Proposal>();
        var rejected = ImmutableArray.CreateBuilder<Proposal>();
        var replaced = ImmutableArray.CreateBuilder<Proposal>();
        var current = new Lazy<CurrentRecords>(() => CurrentRecords.Read(folder).Records);
        foreach (var (proposal, decision) in decided)
        {
            if (decision.Decision == Decision.Later) continue;
            if (decision.Decision == Decision.Reject) rejected.Add(proposal);
            else if (TextOf(proposal, decision) is { } text)
            {
                var instead = ProposalFinder.Find(current.Value, [With(proposal.Fact, text)]);
                accepted.AddRange(instead);
                if (instead.All(one => one.Kind != ProposalKind.Unplaced)) replaced.Add(proposal);
            }
            else
            {
                accepted.Add(proposal);
            }
        }

        return new ResolvedDecisions(accepted.ToImmutable(), rejected.ToImmutable(), replaced.ToImmutable());
    }

    private static string? TextOf(Proposal proposal, Decided decided) => decided switch
    {
        { Decision: Decision.RunnerUp } => proposal.Fact.RunnerUp,
        { Decision: Decision.Correct, Text: { } text } when text.Trim() != proposal.Fact.Value.Text => text.Trim(),
        _ => null,
    };

    private static ProposedFact With(ProposedFact fact, string text) => fact with
    {
        Value = FactValue.Of(text),
        Along = fact.Along.RemoveAll(other => other.IsOfValue),
        Evidence = (fact.Evidence ?? new FactEvidence()) with { Note = $"corrected by hand; {fact.Origin} was read as {fact.Value.Text}" },
        Comment = null,
        RunnerUp = null,
        Hint = null,
    };
}

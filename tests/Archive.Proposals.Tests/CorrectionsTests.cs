using System.Collections.Immutable;
using System.Text;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using Xunit;

namespace Archive.Proposals.Tests;

/// <summary>A person's own value, or the runner-up, in place of what was proposed.</summary>
public sealed class CorrectionsTests
{
    private static readonly InMemoryFolder Folder = InMemoryFolder.Empty.With("archive.yaml", "title: A sketch\n")
        .With("cables/a.yaml", "- id: C-1\n  kind: pair-12\n").With("photos/p.yaml", "- id: P-1\n  file: a.jpg\n");

    private static readonly ImmutableArray<Proposal> Proposals = ProposalFinder.Find(
        CurrentRecords.Read(Folder).Records,
        [
            new ProposedFact
            {
                RecordKind = RecordKind.Photo,
                RecordId = "P-1",
                Key = "regions.at-2000-2500.reads",
                Value = FactValue.Of("0205-07J14"),
                Evidence = new FactEvidence(EvidenceSource.Photo),
                Along =
                [
                    new("regions.at-2000-2500.probability", FactValue.Of("0.9"), IsOfValue: true),
                    new("regions.at-2000-2500.box", FactValue.ListOf(["0.1", "0.2", "0.2", "0.1"])),
                ],
                OnlyAdds = true,
                RunnerUp = "0205-07J11",
                Origin = new ProposalOrigin("photos/a.jpg") { Box = new OriginBox(0.1, 0.2, 0.2, 0.1), Angle = 0 },
            },
            Fact("length", FactValue.Of("4 m"), "1"),
            Fact("kind", FactValue.Of("pair-12"), "2") with { RecordId = "C-2" },
        ]);

    [Theory]
    [InlineData("correct", " = 0205-07J17, photo", "0205-07J17")]
    [InlineData("correct", " = 0205-07J17", "0205-07J17")]
    [InlineData("correct", " =0205-07J17  ", "0205-07J17")]
    [InlineData("runner-up", " = 0205-07J14, photo", "0205-07J11")]
    public void Another_reading_is_written_without_the_probability_of_the_one_proposed(string word, string rest, string written)
    {
        var after = Apply($"{word} P-1:regions.at-2000-2500.reads{rest}");
        var reads = $"{{is: {written}, from: photo, note: corrected by hand; photos/a.jpg was read as 0205-07J14}}";
        Assert.EndsWith($"  regions:\n  - {{box: [0.1, 0.2, 0.2, 0.1], reads: {reads}}}\n", after, StringComparison.Ordinal);
    }

    [Fact]
    public void A_correction_that_changes_nothing_is_taken_for_what_it_is()
    {
        var after = Apply("correct P-1:regions.at-2000-2500.reads = 0205-07J14, photo");
        Assert.Contains("reads: {is: 0205-07J14, from: photo}", after, StringComparison.Ordinal);
        Assert.Contains("probability: 0.9", after, StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_proposed_in_its_place_is_not_proposed_again()
    {
        var resolved = Resolve("correct C-1:length = 4.5 m");
        Assert.Equal("C-1:length", resolved.Replaced.Single().Id);
        Assert.Equal("4 m", resolved.Replaced[0].Fact.Value.Text);
        Assert.Empty(Resolve("accept C-1:length = 4 m").Replaced);
    }

    [Theory]
    [InlineData("correct C-1:length = ", "line 1: nothing is written after the equals sign")]
    [InlineData("correct C-1:height = 2 m", "line 1: `C-1:height = 2 m` is no longer proposed; make the file again")]
    [InlineData("correct", "line 1: `` is no longer proposed; make the file again")]
    [InlineData("runner-up C-1:length = 4 m", "line 1: C-1:length has no runner-up; accept it, reject it or leave it for later")]
    [InlineData("correct C-2:kind = coax", "line 1: C-2:kind cannot be corrected; accept it, reject it or leave it for later")]
    public void What_cannot_be_corrected_is_said_with_its_line(string line, string message) => Assert.Equal(
        message, Assert.Throws<ReviewTextException>(() => ReviewDecisions.Read(Proposals, line)).Message);

    [Fact]
    public void A_value_that_the_record_cannot_hold_is_refused_with_the_reason()
    {
        var resolved = Resolve("correct C-1:length = long");
        var changes = AcceptedProposals.Apply(Folder, resolved.Accepted);
        Assert.Empty(resolved.Replaced);
        Assert.Empty(changes.Files);
        Assert.Equal("C-1:length", changes.Refused.Single().Proposal.Id);
        Assert.Equal("`long` does not begin with a number", changes.Refused[0].Why);
    }

    private static string Apply(string line)
    {
        var resolved = Resolve(line);
        Assert.Empty(resolved.Rejected);
        var changes = AcceptedProposals.Apply(Folder, resolved.Accepted);
        Assert.Empty(changes.Refused);
        return Encoding.UTF8.GetString(changes.Files.Single().After.AsSpan());
    }

    private static ResolvedDecisions Resolve(string line)
    {
        var decided = ReviewDecisions.Read(Proposals, line);
        return Corrections.Resolve(
            Folder, [.. Proposals.Where(one => decided.ContainsKey(one.Id)).Select(one => (one, decided[one.Id]))]);
    }

    private static ProposedFact Fact(string key, FactValue value, string cell) => new()
    {
        RecordKind = RecordKind.Cable,
        RecordId = "C-1",
        Key = key,
        Value = value,
        Origin = new ProposalOrigin("cables.xlsx") { Cell = cell },
    };
}

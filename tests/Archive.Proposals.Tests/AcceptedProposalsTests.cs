using System.Collections.Immutable;
using System.Text;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using Xunit;

namespace Archive.Proposals.Tests;

public class AcceptedProposalsTests
{
    private static readonly InMemoryFolder Before = InMemoryFolder.Empty
        .With("archive.yaml", "title: trial\n")
        .With("cables/a.yaml", "- id: C-1\n  kind: pair-12\n  length: {is: 4 m, from: measured, by: it}\n  label: x # ink\n")
        .With("cables/b.csv", "id,kind,a,b\nC-2,pair-12,R1-01,\n");

    private static readonly ProposedFact[] Facts =
    [
        Fact("C-1", "length", "5 m"), Fact("C-1", "label", "ink 2"), Fact("C-1", "note", "dusty"), Fact("C-2", "ends.1.at", "R2-05"),
        Fact("C-2", "ends.2.at", "R1-1"), Fact("C-3", "kind", "pair-12"),
    ];

    /// <summary>What was accepted is in the record, what was replaced is in its note, and the same input proposes nothing new.</summary>
    [Fact]
    public void Accepted_facts_are_written_and_not_proposed_again()
    {
        var proposals = Find(Before, Facts);
        var changes = AcceptedProposals.Apply(Before, proposals);
        Assert.Empty(changes.Refused);
        var after = changes.Files.Aggregate(Before, (folder, file) => folder.With(file.Path, file.After));
        Assert.Equal(
            "- id: C-1\n  kind: pair-12\n  length: {is: 5 m, note: \"before: 4 m, measured by it\"}\n"
            + "  label: {is: ink 2, note: \"before: x\"} # ink\n  note: dusty\n",
            Text(after, "cables/a.yaml"));
        Assert.Equal("id,kind,a,b\nC-2,pair-12,R1-01,R2-05\n", Text(after, "cables/b.csv"));
        Assert.Equal("- id: C-3\n  kind: pair-12\n", Text(after, "cables/added.yaml"));
        Assert.DoesNotContain(Find(after, Facts), proposal => proposal.IsOpen);
    }

    [Fact]
    public void Nothing_is_written_that_was_not_accepted()
    {
        var proposals = Find(Before, Facts);
        var (ids, unknown) = ReviewDecisions.Named(proposals, ["new", "nothing"]);
        Assert.Equal(["nothing"], unknown);
        var changes = AcceptedProposals.Apply(Before, proposals.Where(proposal => ids.Contains(proposal.Id)));
        Assert.Equal(
            ["C-1:note", "C-2:ends.2.at", "C-3:kind"], changes.Written.Select(proposal => proposal.Id).Order(StringComparer.Ordinal));
        Assert.Contains("label: x # ink", Encoding.UTF8.GetString(changes.Files[0].After), StringComparison.Ordinal);
        Assert.Equal(5, ReviewDecisions.Named(proposals, ["all"]).Ids.Count + 1);
    }

    [Fact]
    public void Of_two_values_for_one_fact_one_can_be_accepted()
    {
        var proposals = Find(Before, [Fact("C-1", "note", "a"), Fact("C-1", "note", "b")]);
        var changes = AcceptedProposals.Apply(Before, proposals);
        Assert.Equal("another value was accepted for the same fact", Assert.Single(changes.Refused).Why);
    }

    /// <summary>A new cable needs its kind: without it nothing of the cable is written.</summary>
    [Fact]
    public void A_new_record_is_written_whole_or_not_at_all()
    {
        var proposals = Find(Before, [Fact("C-9", "kind", "pair-12"), Fact("C-9", "length", "5 m")]);
        var changes = AcceptedProposals.Apply(Before, proposals.Where(proposal => proposal.Fact.Key == "length"));
        Assert.Equal("this cable has no `kind`", Assert.Single(changes.Refused).Why);
        Assert.Empty(changes.Files);
    }

    [Fact]
    public void Rejections_are_remembered()
    {
        var proposals = Find(Before, Facts);
        var change = Rejections.Remember(Before, proposals.Where(proposal => proposal.Fact.Key == "length"))!;
        var after = Before.With(change.Path, change.After);
        Assert.EndsWith(
            "- {record: C-1, key: length, value: 5 m, file: list.csv}\n", Text(after, "rejected.yaml"), StringComparison.Ordinal);
        var (rejections, diagnostics) = Rejections.Read(after);
        Assert.Empty(diagnostics);
        var again = Find(after, Facts, rejections);
        Assert.True(again.Single(proposal => proposal.Id == "C-1:length").IsRejected);
        Assert.False(again.Single(proposal => proposal.Id == "C-1:label").IsRejected);
        Assert.False(Find(after, [Fact("C-1", "length", "6 m")], rejections)[0].IsRejected);
    }

    [Fact]
    public void Decisions_are_read_from_the_text_that_was_edited()
    {
        var proposals = Find(Before, Facts);
        var text = ReviewDecisions.Text(proposals);
        Assert.Empty(ReviewDecisions.Read(proposals, text));
        var edited = text.Replace("later  C-1:note", "accept C-1:note", StringComparison.Ordinal)
            .Replace("later  C-1:label", "reject  C-1:label", StringComparison.Ordinal);
        var decided = ReviewDecisions.Read(proposals, edited);
        Assert.Equal(
            [("C-1:label", Decision.Reject), ("C-1:note", Decision.Accept)],
            decided.Select(pair => (pair.Key, pair.Value.Decision)).Order());
        Assert.Equal(
            "line 1: `yes` is not accept, reject, later, correct or runner-up",
            Assert.Throws<ReviewTextException>(() => ReviewDecisions.Read(proposals, "yes C-1:note = dusty")).Message);
        Assert.Throws<ReviewTextException>(() => ReviewDecisions.Read(proposals, "accept C-1:note = dirty"));
    }

    private static ImmutableArray<Proposal> Find(InMemoryFolder folder, ProposedFact[] facts, Rejections? rejections = null) =>
        ProposalFinder.Find(CurrentRecords.Read(folder).Records, facts, rejections is null ? null : rejections.Has);

    private static string Text(InMemoryFolder folder, string path) => Encoding.UTF8.GetString(folder.Read(path, 1 << 20).Bytes!);

    private static ProposedFact Fact(string id, string key, string value) => new()
    {
        RecordKind = RecordKind.Cable,
        RecordId = id,
        Key = key,
        Value = FactValue.Of(value),
        Origin = new ProposalOrigin("list.csv"),
    };
}

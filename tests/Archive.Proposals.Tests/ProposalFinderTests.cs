using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using Xunit;

namespace Archive.Proposals.Tests;

public class ProposalFinderTests
{
    private static readonly InMemoryFolder Folder = InMemoryFolder.Empty
        .With("archive.yaml", "title: trial\n")
        .With("cables/cables.yaml", """
            - id: C-1
              kind: pair-12
              length: 18.3 m
              label: {is: "0205-02", from: printed}
              ends:
              - at: R2-05/S02
            - id: C-2
              was: [C-9]
              withdrawn: counted twice

            """)
        .With("cables/list.csv", "id,kind,a,b,length,length_from\nC-3,pair-12,,R1-01/S1,4 m,measured\n")
        .With("frames/row.yaml", """
            id: R2-05
            positions:
            - {id: S7, holds: receiver}

            """);

    private static readonly CurrentRecords Current = CurrentRecords.Read(Folder).Records;

    [Theory]
    [InlineData("C-1", "note", "dusty", ProposalKind.New, true)]
    [InlineData("C-1", "length", "18.3 m", ProposalKind.Confirmation, false)]
    [InlineData("C-1", "length", "1830 cm", ProposalKind.Confirmation, false)]
    [InlineData("C-1", "length", "18.4 m", ProposalKind.Correction, true)]
    [InlineData("C-1", "label", "0205-03", ProposalKind.Contradiction, true)]
    [InlineData("C-3", "length", "5 m", ProposalKind.Contradiction, true)]
    [InlineData("C-1", "length", "about 5", ProposalKind.Unplaced, false)]
    [InlineData("C-1", "lenght", "5 m", ProposalKind.Unplaced, false)]
    [InlineData("C-1", "id", "C-7", ProposalKind.Unplaced, false)]
    [InlineData("C-9", "length", "5 m", ProposalKind.Unplaced, false)]
    [InlineData("R2-05", "length", "5 m", ProposalKind.Unplaced, false)]
    [InlineData("C-1", "ends.1.at", "R2-5/S2", ProposalKind.Confirmation, false)]
    [InlineData("C-1", "ends.1.at", "R2-06/S2", ProposalKind.Correction, true)]
    [InlineData("C-3", "ends.2.at", "R1-01/S1", ProposalKind.Confirmation, false)]
    public void A_fact_is_compared_with_the_record(string id, string key, string value, ProposalKind kind, bool isChange)
    {
        var proposal = Assert.Single(ProposalFinder.Find(Current, [Fact(id, key, value)]));
        Assert.Equal((kind, isChange), (proposal.Kind, proposal.IsChange));
        Assert.Equal(kind is ProposalKind.Contradiction or ProposalKind.Unplaced, proposal.Why is not null);
    }

    [Fact]
    public void A_bare_value_can_be_given_evidence_once()
    {
        var fact = Fact("C-1", "length", "18.3 m") with { Evidence = new FactEvidence(EvidenceSource.Measured, "it") };
        var proposal = Assert.Single(ProposalFinder.Find(Current, [fact]));
        Assert.Equal((ProposalKind.Confirmation, true), (proposal.Kind, proposal.IsChange));
        var known = Fact("C-3", "length", "4 m") with { Evidence = new FactEvidence(EvidenceSource.Told) };
        Assert.False(Assert.Single(ProposalFinder.Find(Current, [known])).IsChange);
    }

    [Fact]
    public void Ends_are_numbered_as_the_record_numbers_them()
    {
        var proposals = ProposalFinder.Find(
            Current, [Fact("C-1", "ends.1.at", "R3-01/S3"), Fact("C-1", "ends.1.connector", "BNC"), Fact("C-1", "ends.2.at", "R2-05/S2")]);
        Assert.Equal(
            [("C-1:ends.2.at", ProposalKind.New), ("C-1:ends.2.connector", ProposalKind.New), ("C-1:ends.1.at", ProposalKind.Confirmation)],
            proposals.Select(proposal => (proposal.Id, proposal.Kind)));
    }

    [Fact]
    public void What_two_sources_say_is_one_proposal_or_a_contradiction()
    {
        var one = Fact("C-1", "note", "dusty");
        var same = one with { Origin = new ProposalOrigin("other.xlsx") };
        var proposals = ProposalFinder.Find(Current, [one, same, Fact("C-1", "reason", "a"), Fact("C-1", "reason", "b")]);
        Assert.Equal(["C-1:note", "C-1:reason", "C-1:reason#2"], proposals.Select(proposal => proposal.Id));
        Assert.Equal(["list.xlsx, Sheet1!C14", "other.xlsx"], proposals[0].Origins.Select(origin => origin.ToString()));
        Assert.All(proposals[1..], proposal => Assert.Equal(ProposalKind.Contradiction, proposal.Kind));
        Assert.Equal("list.xlsx, Sheet1!C14 says b", proposals[1].Why);
    }

    [Fact]
    public void A_new_record_has_what_it_needs_or_cannot_be_placed()
    {
        var whole = ProposalFinder.Find(Current, [Fact("C-5", "kind", "pair-12"), Fact("C-5", "ends.1.at", "R2-05/S7")]);
        Assert.All(
            whole, proposal => Assert.Equal((ProposalKind.New, true, true), (proposal.Kind, proposal.IsNewRecord, proposal.IsChange)));
        var lacking = Assert.Single(ProposalFinder.Find(Current, [Fact("C-5", "length", "5 m")]));
        Assert.Equal((ProposalKind.Unplaced, "this cable has no `kind`"), (lacking.Kind, lacking.Why));
    }

    [Fact]
    public void Structured_values_are_compared_fact_by_fact()
    {
        var positions = Fact("R2-05", "positions", "") with
        {
            RecordKind = RecordKind.Frame,
            Value = new FactList(
            [
                new FactMapping([new("id", FactValue.Of("S7")), new("holds", FactValue.Of("receiver")), new("kind", FactValue.Of("x"))]),
            ]),
        };
        var proposals = ProposalFinder.Find(Current, [positions]);
        Assert.Equal(["R2-05:positions.S7.holds", "R2-05:positions.S7.kind"], proposals.Select(proposal => proposal.Id));
        Assert.Equal(ProposalKind.Confirmation, proposals[0].Kind);
    }

    [Fact]
    public void What_was_rejected_is_not_open()
    {
        var proposal = Assert.Single(ProposalFinder.Find(Current, [Fact("C-1", "note", "dusty")], fact => fact.Key == "note"));
        Assert.Equal((true, true, false), (proposal.IsChange, proposal.IsRejected, proposal.IsOpen));
    }

    private static ProposedFact Fact(string id, string key, string value) => new()
    {
        RecordKind = RecordKind.Cable,
        RecordId = id,
        Key = key,
        Value = FactValue.Of(value),
        Origin = new ProposalOrigin("list.xlsx") { Cell = "Sheet1!C14" },
    };
}

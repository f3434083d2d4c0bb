using System.Collections.Immutable;
using Archive.PhotoLabels.Proposing;
using Archive.PhotoLabels.Reading;
using Archive.Proposals;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Terms;
using Archive.Wiring.Labels;
using Xunit;

namespace Archive.PhotoLabels.Tests;

public sealed class ReadingProposalsTests
{
    private const string Text = "0205-07J14 0309-02J02";

    [Fact]
    public void A_marked_part_gets_its_reading_and_a_cable_without_label_the_label()
    {
        var proposals = Proposals("", new ImageBox(0.2, 0.2, 0.2, 0.05));
        Assert.Equal(
            ["P-1:regions.1.reads New", "C-1:label New"],
            proposals.Select(proposal => $"{proposal.Id} {proposal.Kind}"));
        var label = proposals[1].Fact;
        Assert.Equal((Text, EvidenceSource.Photo), (label.Value.Text, label.Evidence!.From));
        Assert.Equal("read in [[P-1]], 99.8 % likely", label.Evidence.Note);
        Assert.Equal(new OriginBox(0.2, 0.2, 0.2, 0.05), proposals[0].Origins[0].Box);
        Assert.Equal("regions.1.probability 0.998", Along(proposals[0]));
        Assert.StartsWith("99.8 % likely, the runner-up 0.1 %; C-1: ", proposals[0].Fact.Hint, StringComparison.Ordinal);
        Assert.Equal("0205-07J14 0309-02J03", proposals[0].Fact.RunnerUp);
    }

    [Fact]
    public void A_line_outside_the_marked_parts_becomes_a_part_of_its_own_by_one_decision()
    {
        var proposal = Proposals("", new ImageBox(0.2, 0.8, 0.2, 0.05))[0];
        Assert.Equal(("P-1:regions.at-3000-8250.reads", Text), (proposal.Id, proposal.Fact.Value.Text));
        const string Place = "regions.at-3000-8250";
        Assert.Equal($"{Place}.probability 0.998; {Place}.box 0.2, 0.8, 0.2, 0.05; {Place}.shows C-1", Along(proposal));
    }

    [Theory]
    [InlineData("0205-07J14 0309-02J02", null)]
    [InlineData("0205-07J14 0309-02J03", "the record says 0205-07J14 0309-02J03, and that stays; if it is wrong, correct it there")]
    public void What_a_person_read_stays(string reads, string? why)
    {
        var ofPhoto = Proposals("", new ImageBox(0.2, 0.2, 0.2, 0.05), $", reads: {reads}")
            .Where(one => one.Fact.RecordKind == RecordKind.Photo).ToList();
        Assert.DoesNotContain(ofPhoto, proposal => proposal.IsChange);
        Assert.Equal(why, ofPhoto.SingleOrDefault()?.Why);
    }

    [Fact]
    public void A_label_that_was_written_down_is_never_touched() => Assert.DoesNotContain(
        Proposals(", label: 0205-O7J14 0309-02J02", new ImageBox(0.2, 0.2, 0.2, 0.05)),
        proposal => proposal.Fact.RecordKind == RecordKind.Cable);

    [Fact]
    public void A_contradiction_proposes_no_label() => Assert.DoesNotContain(
        Proposals(", ends: [{at: R3-09/S2/J3}, {at: R2-05/S7/J14}]", new ImageBox(0.2, 0.2, 0.2, 0.05)),
        proposal => proposal.Fact.RecordKind == RecordKind.Cable);

    private static string Along(Proposal proposal) => string.Join("; ", proposal.Fact.Along.Select(other => $"{other.Key} {other.Value}"));

    private static ImmutableArray<Proposal> Proposals(string more, ImageBox box, string reads = "")
    {
        (string, string)[] files =
        [
            ("frames/f.yaml", """
                - {id: R2-05, name: frame, positions: [{id: S7, ports: [J1..J16]}]}
                - {id: R3-09, name: frame, positions: [{id: S2, ports: [J1..J4]}]}
                """),
            ("schemes/s.yaml", File.ReadAllText(Path.Combine(Repository.Root, "content/schemes/jacket-print.yaml"))),
            ("kinds/k.yaml", "- {id: coax, name: Coaxial, family: coax}\n"),
            ("cables/c.yaml", $"- {{id: C-1, kind: coax{more}}}\n"),
            ("photos/p.yaml", $"- {{id: P-1, file: a.jpg, view: label, regions: [{{box: [0.1, 0.1, 0.5, 0.3], shows: C-1{reads}}}]}}\n"),
        ];
        var record = WrittenArchive.Model(files);
        var readings = LabelReadings.From(record);
        var label = new ReadLabel(
            [new ReadPlace("P-1", "photos/a.jpg", box, 0, 0.998)],
            "jacket-print",
            Text,
            [Address.Create("R2-05", "S07", "J14"), Address.Create("R3-09", "S02", "J02")],
            0.998,
            0.998,
            new LabelAlternative("jacket-print", "0205-07J14 0309-02J03", 0.001),
            "C-1",
            readings.JudgePhotographed("C-1", Text));
        var folder = files.Aggregate(
            InMemoryFolder.Empty.With("archive.yaml", "title: A sketch\n"), (all, file) => all.With(file.Item1, file.Item2));
        var (current, unread) = CurrentRecords.Read(folder, TestContext.Current.CancellationToken);
        Assert.Empty(unread);
        return ProposalFinder.Find(current, ReadingProposals.From(record, [label]));
    }
}

using System.Collections.Immutable;
using System.Text;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using Xunit;

namespace Archive.Proposals.Tests;

/// <summary>Readings in parts of a photo that are not marked yet: one decision each, whatever else is accepted.</summary>
public sealed class PicturePartsTests
{
    private const string Photo = "- id: P-1\n  file: a.jpg # taken by hand\n";

    [Fact]
    public void One_accepted_alone_is_written_as_the_next_part_with_its_box_and_the_other_keeps_its_id()
    {
        var folder = Folder(Photo);
        Assert.Equal(["P-1:regions.at-2000-2500.reads", "P-1:regions.at-6000-7500.reads"], Find(folder).Select(one => one.Id));
        var changes = AcceptedProposals.Apply(folder, [Find(folder)[1]]);
        Assert.Empty(changes.Refused);
        var after = Encoding.UTF8.GetString(changes.Files.Single().After.AsSpan());
        var record = RawRecord.All(Folder(after), TestContext.Current.CancellationToken).Records.Single(one => one.Id == "P-1");
        Assert.StartsWith(Photo, after, StringComparison.Ordinal);
        Assert.Equal("0.5, 0.7, 0.2, 0.1", record.Fact("regions.1.box")?.Text);
        Assert.Equal(("B", "photo"), (record.Fact("regions.1.reads")?.Text, record.Fact("regions.1.reads.from")?.Text));
        Assert.Equal("0.9", record.Fact("regions.1.probability")?.Text);
        Assert.Equal("P-1:regions.at-2000-2500.reads", Find(Folder(after)).Single(one => one.IsOpen).Id);
    }

    [Fact]
    public void Both_are_written_behind_a_part_that_a_person_marked()
    {
        var folder = Folder(Photo + "  regions: [{box: [0, 0, 0.05, 0.05], note: rust}]\n");
        var changes = AcceptedProposals.Apply(folder, Find(folder));
        Assert.Empty(changes.Refused);
        var after = Folder(Encoding.UTF8.GetString(changes.Files.Single().After.AsSpan()));
        var record = RawRecord.All(after, TestContext.Current.CancellationToken).Records.Single(one => one.Id == "P-1");
        Assert.Equal(
            ("rust", "A", "B"),
            (record.Fact("regions.1.note")?.Text, record.Fact("regions.2.reads")?.Text, record.Fact("regions.3.reads")?.Text));
        Assert.DoesNotContain(Find(after), proposal => proposal.IsOpen);
    }

    [Fact]
    public void What_a_person_wrote_at_the_place_stays()
    {
        var folder = Folder(Photo + "  regions: [{box: [0.1, 0.2, 0.2, 0.1], reads: X}]\n");
        var proposal = Find(folder).Single(one => one.Fact.Value.Text == "A");
        Assert.Equal(ProposalKind.Unplaced, proposal.Kind);
        Assert.Equal("the record says X, and that stays; if it is wrong, correct it there", proposal.Why);
        Assert.Empty(AcceptedProposals.Apply(folder, [proposal]).Files);
    }

    [Theory]
    [InlineData(0.1, "A", true)]
    [InlineData(0.12, "A", true)]
    [InlineData(0.5, "A", false)]
    [InlineData(0.1, "B", false)]
    public void What_was_rejected_is_known_by_its_place_and_text(double left, string text, bool isRejected)
    {
        var folder = Folder(Photo);
        var remembered = Rejections.Remember(folder, [Find(folder)[0]])!;
        var (rejections, wrong) = Rejections.Read(folder.With(RejectedFactsFile.Name, Encoding.UTF8.GetString(remembered.After.AsSpan())));
        Assert.Empty(wrong);
        Assert.Equal(isRejected, rejections.Has(Fact(text, new OriginBox(left, 0.2, 0.2, 0.1))));
        var marked = Fact(text, new OriginBox(left, 0.2, 0.2, 0.1)) with { Key = "regions.4.reads" };
        Assert.Equal(isRejected, rejections.Has(marked));
    }

    private static InMemoryFolder Folder(string photos) =>
        InMemoryFolder.Empty.With("archive.yaml", "title: A sketch\n").With("photos/p.yaml", photos);

    private static ImmutableArray<Proposal> Find(InMemoryFolder folder) => ProposalFinder.Find(
        CurrentRecords.Read(folder, TestContext.Current.CancellationToken).Records,
        [Fact("A", new OriginBox(0.1, 0.2, 0.2, 0.1)), Fact("B", new OriginBox(0.5, 0.7, 0.2, 0.1))]);

    private static ProposedFact Fact(string text, OriginBox box) => new()
    {
        RecordKind = RecordKind.Photo,
        RecordId = "P-1",
        Key = PictureParts.Key(box, "reads"),
        Value = FactValue.Of(text),
        Evidence = new FactEvidence(EvidenceSource.Photo),
        Along =
        [
            new(PictureParts.Key(box, "box"), FactValue.ListOf([$"{box.Left}", $"{box.Top}", $"{box.Width}", $"{box.Height}"])),
            new(PictureParts.Key(box, "probability"), FactValue.Of("0.9"), IsOfValue: true),
        ],
        OnlyAdds = true,
        Origin = new ProposalOrigin("photos/a.jpg") { Box = box, Text = text },
    };
}

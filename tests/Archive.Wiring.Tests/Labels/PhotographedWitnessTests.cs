using Archive.Records.Model;
using Archive.Wiring.Labels;
using Xunit;

namespace Archive.Wiring.Tests.Labels;

/// <summary>Seen, recorded and photographed: the third witness joins the verdict, and so the list of cables to tag by hand.</summary>
public sealed class PhotographedWitnessTests
{
    private const string Text = "0205-07J14 0103-02J03";
    private const string Misread = "label: 'O2O5-07JI4 O1O3-O2JO3'";

    [Theory]
    [InlineData("", "the label gives `R2-05/S7/J14` and `R1-03/S2/J3`")]
    [InlineData(Misread, "the label gives `R2-05/S7/J14` and `R1-03/S2/J3`")]
    [InlineData("ends: [{at: R1-03/S2/J3}]", "the label gives `R2-05/S7/J14`")]
    [InlineData("ends: [{at: R2-05/S7/J14}, {at: R1-03/S2/J3}]", "the label names the ends that were seen")]
    public void A_label_that_only_a_photo_shows_takes_the_cable_off_the_list(string cable, string why)
    {
        Assert.Equal(["C-1"], HandTags(Read(cable)));
        var record = Read(cable, Text);
        var reading = LabelReadings.From(record).Find("C-1")!;
        Assert.Equal($"{why}, as photo `P-1` shows it", reading.Why);
        Assert.Equal(["R1-03/S2/J3", "R2-05/S7/J14"], reading.Ends.Select(end => $"{end.At}").Order(StringComparer.Ordinal));
        Assert.Empty(HandTags(record));
    }

    [Theory]
    [InlineData(
        "ends: [{at: R2-05/S7/J15}, {at: R1-03/S2/J3}]",
        "the photo says `R2-05/S7/J14`, but the end was seen at `R2-05/S7/J15` (photo `P-1`)")]
    [InlineData(
        "label: '0205-07J15 0103-02J03'",
        "the photo says `0205-07J14 0103-02J03`, but the label was recorded as `0205-07J15 0103-02J03` (photo `P-1`)")]
    public void A_photo_that_contradicts_puts_the_cable_on_the_list(string cable, string why)
    {
        var record = Read(cable, Text);
        var reading = LabelReadings.From(record).Find("C-1")!;
        Assert.Equal((LabelVerdict.Contradicts, why), (reading.Verdict, reading.Why));
        Assert.All(reading.Ends, end => Assert.False(end.IsDerived));
        Assert.Equal(["C-1"], HandTags(record));
    }

    [Theory]
    [InlineData(Text, "0205-07J15 0103-02J03")]
    [InlineData("0206-07J14 0103-02J03", null)]
    [InlineData("EXIT", null)]
    public void Photos_that_disagree_or_say_nothing_change_nothing(string one, string? other)
    {
        string[] reads = other is null ? [one] : [one, other];
        Assert.Equal(LabelReadings.From(Read(Misread)).Find("C-1")!.Verdict, LabelReadings.From(Read(Misread, reads)).Find("C-1")!.Verdict);
        Assert.Equal(["C-1"], HandTags(Read(Misread, reads)));
    }

    [Fact]
    public void Two_cables_that_photos_show_in_one_port_stay_on_the_list()
    {
        var record = Written.Record.With("schemes/jacket.yaml", Written.JacketPrint)
            .With("photos/p.yaml", Photos(("C-1", Text), ("C-2", "0205-07J14 0103-02J04")))
            .Cables("id: C-1, kind: coax", "id: C-2, kind: coax");
        Assert.Equal(["C-1", "C-2"], HandTags(record.Read()));
    }

    /// <summary>A photo that has changed the verdict is still compared with what was recorded, not with itself.</summary>
    [Fact]
    public void What_a_photo_says_is_not_its_own_witness()
    {
        var readings = LabelReadings.From(Read(Misread, Text));
        Assert.Equal("the photo gives `R2-05/S7/J14` and `R1-03/S2/J3`", readings.JudgePhotographed("C-1", Text)!.Why);
        Assert.Equal("the photo gives `R2-05/S7/J14` and `R1-03/S2/J3`", Assert.Single(readings.Photographed).Label.Why);
    }

    private static IEnumerable<string> HandTags(ArchiveModel record) =>
        HandTagList.Compute(record, LabelReadings.From(record), []).Tags.Select(tag => tag.Reading.Cable.Id);

    private static ArchiveModel Read(string cable, params string[] reads) => Written.Record
        .With("schemes/jacket.yaml", Written.JacketPrint)
        .With("photos/p.yaml", Photos([.. reads.Select(text => ("C-1", text))]))
        .Cables("id: C-1, kind: coax" + (cable.Length > 0 ? ", " : "") + cable).Read();

    private static string Photos(params (string Cable, string Text)[] reads) => reads.Length == 0
        ? "[]\n"
        : "- id: P-1\n  file: a.jpg\n  regions:\n" + string.Concat(reads.Select(one =>
            $"    - {{box: [0.1, 0.1, 0.2, 0.1], shows: {one.Cable}, reads: {{is: '{one.Text}', from: photo}}}}\n"));
}

using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Wiring.Labels;
using Xunit;

namespace Archive.Wiring.Tests.Labels;

public sealed class LabelReadingsTests
{
    private const string Print = "label: '0205-07J14 0103-02J03'";

    [Theory]
    [InlineData("ends: [{at: R2-05/S7/J14}, {at: R1-03/S2/J3}], " + Print, LabelVerdict.Agrees, "the label names the ends that were seen")]
    [InlineData(
        "ends: [{at: R1-03/S2/J03}, {at: R2-05/S07/J14}], " + Print, LabelVerdict.Agrees, "the label names the ends that were seen")]
    [InlineData("ends: [{at: R2-05/S7/J14}, {at: R1-03}], " + Print, LabelVerdict.Agrees, "the label names the ends that were seen")]
    [InlineData("ends: [{at: R1-03/S2/J3}], " + Print, LabelVerdict.FromLabel, "the label gives `R2-05/S7/J14`")]
    [InlineData("ends: [{at: R1-03/S2/J3}, {connector: BNC}], " + Print, LabelVerdict.FromLabel, "the label gives `R2-05/S7/J14`")]
    [InlineData(Print, LabelVerdict.FromLabel, "the label gives `R2-05/S7/J14` and `R1-03/S2/J3`")]
    [InlineData("label: '0901-01J01 0103-02J03'", LabelVerdict.FromLabel, "the label gives `R3-01/S1/J1` and `R1-03/S2/J3`")]
    [InlineData(
        "ends: [{at: R2-05/S7/J14}, {at: R1-03/S2/J4}], " + Print,
        LabelVerdict.Contradicts,
        "the label says `R1-03/S2/J3`, but the end was seen at `R1-03/S2/J4`")]
    [InlineData(
        "ends: [{at: OP-01/S1/J1}], " + Print,
        LabelVerdict.Contradicts,
        "the label says `R2-05/S7/J14`, but the end was seen at `OP-01/S1/J1`")]
    [InlineData("label: '0205-O7J14 0103-02J03'", LabelVerdict.Misread, "the label fits no scheme")]
    [InlineData("ends: [{at: R2-05/S7/J14}, {at: R1-03/S2/J3}], label: 'R2 to R1'", LabelVerdict.Misread, "the label fits no scheme")]
    [InlineData(
        "label: '0805-07J14 0103-02J03'", LabelVerdict.Misread, "the label fits scheme `jacket`, but table `row` has no entry for `08`")]
    [InlineData("label: '0206-07J14 0103-02J03'", LabelVerdict.Misread, "the label says `R2-06/S7/J14`, but there is no frame `R2-06`")]
    [InlineData(
        "label: '0205-08J14 0103-02J03'", LabelVerdict.Misread, "the label says `R2-05/S8/J14`, but frame `R2-05` has no position `S8`")]
    [InlineData(
        "label: '0205-07J25 0103-02J03'",
        LabelVerdict.Misread,
        "the label says `R2-05/S7/J25`, but position `S7` of frame `R2-05` has no port `J25`")]
    [InlineData("label: '0401-01J01 0103-02J03'", LabelVerdict.Misread, "the label says `R4-01/S1/J1`, but frame `R4-01` is withdrawn")]
    [InlineData("label: '0205-07J14 0205-07J14'", LabelVerdict.Misread, "the label names `R2-05/S7/J14` twice")]
    [InlineData("ends: [{at: R2-05/S7/J14}, {at: R1-03/S2/J3}]", LabelVerdict.Unlabelled, "no label says where it goes")]
    [InlineData("ends: [{at: R2-05/S7/J14}]", LabelVerdict.Unlabelled, "no label says where it goes")]
    [InlineData("note: seen from afar", LabelVerdict.Unknown, "neither ends nor a label were recorded")]
    public void The_label_of_a_cable_is_held_against_what_was_seen(string cable, LabelVerdict verdict, string why)
    {
        var reading = Read($"id: C-1, kind: coax, {cable}").Find("C-1")!;
        Assert.Equal((verdict, why), (reading.Verdict, reading.Why));
    }

    [Theory]
    [InlineData(
        "ends: [{at: R2-05/S7/J14, label: R205 S7J14}, {at: R1-03/S2/J3, label: R103 S2J3}]",
        LabelVerdict.Agrees,
        "the tags name the ends that were seen")]
    [InlineData(
        "ends: [{at: R2-05/S7/J14, label: 'R205 S7J14 > R103 S2J3'}, {at: R1-03/S2/J3}]",
        LabelVerdict.Agrees,
        "the tags name the ends that were seen")]
    [InlineData("ends: [{at: R2-05/S7/J14, label: 'R205 S7J14 > R103 S2J3'}]", LabelVerdict.FromLabel, "a tag gives `R1-03/S2/J3`")]
    [InlineData("ends: [{at: R2-05/S7/J14}, {label: R103 S2J3}]", LabelVerdict.FromLabel, "a tag gives `R1-03/S2/J3`")]
    [InlineData("ends: [{label: R205 S7J14}, {label: R103 S2J3}]", LabelVerdict.FromLabel, "a tag gives `R2-05/S7/J14` and `R1-03/S2/J3`")]
    [InlineData("ends: [{at: R2-05/S7/J14, label: R205 S7J14}]", LabelVerdict.Unlabelled, "the tags do not name both ends")]
    [InlineData(
        "ends: [{at: R2-05/S7/J14, label: R205 S7J14}, {at: R1-03/S2/J3}]", LabelVerdict.Unlabelled, "the tags do not name both ends")]
    [InlineData("ends: [{label: R205 S7J14}]", LabelVerdict.Unknown, "the tags do not name both ends")]
    [InlineData(
        "ends: [{at: R2-05/S7/J15, label: R205 S7J14}, {at: R1-03/S2/J3}]",
        LabelVerdict.Contradicts,
        "a tag says `R2-05/S7/J14`, but the end was seen at `R2-05/S7/J15`")]
    [InlineData(
        "ends: [{at: R2-05/S7/J14, label: 'R205 S7J14 > R103 S2J3'}, {at: R1-03/S2/J4}]",
        LabelVerdict.Contradicts,
        "a tag says `R1-03/S2/J3`, but the end was seen at `R1-03/S2/J4`")]
    [InlineData(
        "ends: [{label: 'R205 S7J14 > R103 S2J3'}, {label: R103 S2J4}]",
        LabelVerdict.Contradicts,
        "the tags give different places for one end: `R1-03/S2/J4` and `R1-03/S2/J3`")]
    [InlineData(
        "ends: [{label: R105 S7J14 > R103 S2J3}]", LabelVerdict.Misread, "a tag says `R1-05/S7/J14`, but there is no frame `R1-05`")]
    [InlineData("ends: [{at: R2-05/S7/J14, label: '14 B'}, {at: R1-03/S2/J3}]", LabelVerdict.Unlabelled, "no label says where it goes")]
    [InlineData(
        Print + ", ends: [{at: R2-05/S7/J14, label: '14 B'}, {at: R1-03/S2/J3}]",
        LabelVerdict.Agrees,
        "the label names the ends that were seen")]
    [InlineData(
        Print + ", ends: [{label: R205 S7J15}]", LabelVerdict.Contradicts, "a tag says `R2-05/S7/J15`, but the label says otherwise")]
    [InlineData(
        "label: '??', ends: [{at: R2-05/S7/J14, label: 'R205 S7J14 > R103 S2J3'}]", LabelVerdict.FromLabel, "a tag gives `R1-03/S2/J3`")]
    public void The_tags_at_the_ends_are_read_too(string cable, LabelVerdict verdict, string why)
    {
        var reading = Read($"id: C-1, kind: coax, {cable}").Find("C-1")!;
        Assert.Equal((verdict, why), (reading.Verdict, reading.Why));
    }

    [Fact]
    public void A_port_where_another_cable_was_seen_is_taken()
    {
        var readings = Read($"id: C-1, kind: coax, {Print}", "id: C-2, kind: coax, ends: [{at: R1-03/S2/J3}]");
        var reading = readings.Find("C-1")!;
        Assert.Equal(
            (LabelVerdict.Misread, "the label says `R1-03/S2/J3`, but cable `C-2` was seen there"), (reading.Verdict, reading.Why));
        Assert.Empty(reading.Ends);
    }

    [Fact]
    public void A_port_that_two_labels_give_is_given_by_neither()
    {
        var readings = Read(
            $"id: C-1, kind: coax, {Print}",
            "id: C-2, kind: coax, label: '0205-07J15 0103-02J03', ends: [{at: R2-05/S7/J15}]",
            "id: C-3, kind: coax, label: '0205-07J16 0103-02J04'");
        Assert.Equal("the label gives `R1-03/S2/J3`, and so does the label of cable `C-2`", readings.Find("C-1")!.Why);
        Assert.Equal("the label gives `R1-03/S2/J3`, and so does the label of cable `C-1`", readings.Find("C-2")!.Why);
        Assert.Equal(["R2-05/S7/J15"], readings.Find("C-2")!.Ends.Select(end => end.At.ToString()));
        Assert.Equal((2, 1), (readings.Count(LabelVerdict.Misread), readings.Rebuildable));
    }

    [Fact]
    public void Schemes_that_disagree_decide_nothing_unless_what_was_seen_does()
    {
        // The other scheme takes the ports crosswise.
        var other = Written.JacketPrint.Replace("id: jacket", "id: crossed", StringComparison.Ordinal)
            .Replace("J{port1}", "J{p}", StringComparison.Ordinal)
            .Replace("J{port2}", "J{port1}", StringComparison.Ordinal)
            .Replace("J{p}", "J{port2}", StringComparison.Ordinal)
            .Replace("[R2-05/S7/J14, R1-03/S2/J3]", "[R2-05/S7/J3, R1-03/S2/J14]", StringComparison.Ordinal);
        var readings = Written.Record.With("schemes/a.yaml", Written.JacketPrint).With("schemes/b.yaml", other).Cables(
            "id: C-1, kind: coax, label: '0205-07J14 0103-02J03'",
            "id: C-2, kind: coax, label: '0205-07J05 0103-02J05'",
            "id: C-3, kind: coax, label: '0205-07J08 0103-02J09', ends: [{at: R2-05/S7/J9}]").Labels();
        Assert.Equal(
            (LabelVerdict.Misread, "schemes `crossed` and `jacket` read the label differently"),
            (readings.Find("C-1")!.Verdict, readings.Find("C-1")!.Why));
        Assert.Equal(LabelVerdict.FromLabel, readings.Find("C-2")!.Verdict);
        Assert.Equal((LabelVerdict.FromLabel, "crossed"), (readings.Find("C-3")!.Verdict, readings.Find("C-3")!.Label!.Scheme.Scheme.Id));
    }

    [Fact]
    public void Ends_that_print_gives_count_and_are_marked()
    {
        var ends = Read($"id: C-1, kind: coax, ends: [{{at: R1-03/S2/J3}}], {Print}").Find("C-1")!.Ends;
        Assert.Equal(
            [("R1-03/S2/J3", false, true), ("R2-05/S7/J14", true, false)],
            ends.Select(end => (end.At.ToString(), end.IsDerived, end.Seen is not null)));
    }

    [Fact]
    public void A_harness_agrees_when_the_label_means_two_of_its_ends()
    {
        var reading = Read(
            $"id: C-1, kind: coax, ends: [{{at: R1-03/S2/J3}}, {{at: R2-05/S7/J14}}, {{at: R2-05/S7/J15}}], {Print}").Find("C-1")!;
        Assert.Equal((LabelVerdict.Agrees, 3), (reading.Verdict, reading.Ends.Length));
    }

    [Theory]
    // A tail that was not seen is where the label says; with none left over, one seen elsewhere contradicts.
    [InlineData(
        "ends: [{at: R2-05/S7/J14}, {at: R2-05/S7/J15}, {connector: BNC}], " + Print,
        LabelVerdict.FromLabel,
        "the label gives `R1-03/S2/J3`")]
    [InlineData(
        "ends: [{at: R2-05/S7/J15}, {at: R2-05/S7/J16}, {connector: BNC}], " + Print,
        LabelVerdict.Contradicts,
        "the label says `R2-05/S7/J14`, but the end was seen at `R2-05/S7/J15`")]
    [InlineData(
        "ends: [{at: R2-05/S7/J14}, {at: R2-05/S7/J15}, {at: R2-05/S7/J16}], " + Print,
        LabelVerdict.Contradicts,
        "the label says `R1-03/S2/J3`, but the end was seen at `R2-05/S7/J15`")]
    // Ends given less exactly take what the more exact leave them.
    [InlineData(
        "ends: [{at: R1-03}, {at: R1-03/S3}], label: '0103-02J03 0103-03J04'",
        LabelVerdict.Agrees,
        "the label names the ends that were seen")]
    [InlineData(
        "ends: [{at: R1-03}, {at: R1-03/S2/J4}], label: '0103-02J03 0103-02J04'",
        LabelVerdict.Agrees,
        "the label names the ends that were seen")]
    [InlineData(
        "ends: [{at: R1-03/S2}, {at: R1-03/S2}], label: '0103-02J03 0103-03J04'",
        LabelVerdict.Contradicts,
        "the label says `R1-03/S3/J4`, but the end was seen at `R1-03/S2`")]
    // What contradicts is reported, whatever else agrees.
    [InlineData(
        "ends: [{at: R2-05/S7/J15, label: R205 S7J15}, {at: R1-03/S2/J3, label: R103 S2J3}], " + Print,
        LabelVerdict.Contradicts,
        "the label says `R2-05/S7/J14`, but the end was seen at `R2-05/S7/J15`")]
    [InlineData(
        "ends: [{at: R2-05/S7/J14, label: R103 S2J3}, {at: R1-03/S2/J3, label: R205 S7J14}], " + Print,
        LabelVerdict.Contradicts,
        "a tag says `R1-03/S2/J3`, but the end was seen at `R2-05/S7/J14`")]
    [InlineData(
        "ends: [{at: R2-05/S7/J15, label: 'R205 S7J14 > R103 S2J3'}], label: '??'",
        LabelVerdict.Contradicts,
        "a tag says `R2-05/S7/J14`, but the end was seen at `R2-05/S7/J15`")]
    public void Harnesses_ends_told_less_exactly_and_what_contradicts(string cable, LabelVerdict verdict, string why)
    {
        var reading = Read($"id: C-1, kind: coax, {cable}").Find("C-1")!;
        Assert.Equal((verdict, why), (reading.Verdict, reading.Why));
    }

    [Theory]
    [InlineData("label: R205, ends: [{at: R2-05/S7/J14}, {at: R1-03/S2/J3}]", LabelVerdict.Unlabelled, "the label names only one end")]
    [InlineData(
        "label: R205, ends: [{at: OP-01/S1/J1}, {at: R1-03/S2/J3}]",
        LabelVerdict.Contradicts,
        "the label says `R2-05`, but the end was seen at `OP-01/S1/J1`")]
    [InlineData("label: R205", LabelVerdict.Unknown, "the label names only one end")]
    [InlineData("label: R205 R205", LabelVerdict.FromLabel, "the label gives `R2-05` and `R2-05`")]
    [InlineData(
        "label: R205 R103, ends: [{at: R1-03/S2/J3}, {at: R2-05/S7/J14}]", LabelVerdict.Agrees, "the label names the ends that were seen")]
    [InlineData(
        "label: R103 R103, ends: [{at: R1-03/S2/J3}, {at: R2-05/S7/J14}]",
        LabelVerdict.Contradicts,
        "the label says `R1-03`, but the end was seen at `R2-05/S7/J14`")]
    public void A_label_may_name_frames_only_and_one_end_only(string cable, LabelVerdict verdict, string why)
    {
        var reading = Written.Record
            .With(
                "schemes/a.yaml",
                "id: a\nname: a\nreads: '^R(?<row1>\\d)(?<frame1>\\d\\d)( R(?<row2>\\d)(?<frame2>\\d\\d))?$'\nmeans: ['R{row1}-{frame1}', 'R{row2}-{frame2}']\n")
            .Cables($"id: C-1, kind: coax, {cable}").Labels().Find("C-1")!;
        Assert.Equal((verdict, why), (reading.Verdict, reading.Why));
    }

    [Fact]
    public void Withdrawn_cables_and_schemes_take_no_part()
    {
        var readings = Read($"id: C-1, kind: coax, {Print}", "id: C-2, withdrawn: counted twice, ends: [{at: R1-03/S2/J3}]");
        Assert.Equal(LabelVerdict.FromLabel, Assert.Single(readings.Cables).Verdict);
        Assert.Equal(1.0, readings.RebuildableShare);
        Assert.Null(Read("id: C-2, withdrawn: counted twice").RebuildableShare);
    }

    [Theory]
    [InlineData("ends: [{at: R2-05/S7/J14}, {at: R1-03/S2/J4}], " + Print, "R1-03/S2/J4 label R1-03/S2/J3")]
    [InlineData(
        "ends: [{at: R1-03/S2/J4}, {at: R2-05/S7/J15}], " + Print, "R1-03/S2/J4 label R1-03/S2/J3; R2-05/S7/J15 label R2-05/S7/J14")]
    [InlineData("ends: [{at: OP-01/S1/J1}], " + Print, "OP-01/S1/J1 label R2-05/S7/J14")]
    [InlineData("ends: [{at: R2-05/S7/J14, label: R205 S7J15}, {at: R1-03/S2/J3}], " + Print, "R2-05/S7/J14 tag R2-05/S7/J15")]
    [InlineData(
        "ends: [{at: R2-05/S7/J14, label: 'R205 S7J15 > R103 S2J4'}, {at: R1-03/S2/J3}]",
        "R2-05/S7/J14 tag R2-05/S7/J15; R1-03/S2/J3 tag R1-03/S2/J4")]
    [InlineData(
        "ends: [{at: R2-05/S7/J14, label: 'R205 S7J14 > R103 S2J3'}, {at: R1-03/S2/J4, label: R103 S2J4}]", "R1-03/S2/J4 tag R1-03/S2/J3")]
    [InlineData(
        "ends: [{at: R2-05/S7/J14, label: R205 S7J15}, {at: R1-03/S2/J4}], " + Print,
        "R1-03/S2/J4 label R1-03/S2/J3; R2-05/S7/J14 tag R2-05/S7/J15")]
    [InlineData("ends: [{at: R2-05/S7/J14}, {at: R1-03/S2/J3}], " + Print, "")]
    public void What_disagrees_is_said_end_by_end(string cable, string expected) =>
        Assert.Equal(expected, string.Join("; ", Read("id: C-1, kind: coax, " + cable)
            .Find("C-1")!.Disagreements
            .Select(each => $"{each.Seen} {(each.IsTag ? "tag" : "label")} {each.Says}")));

    [Fact]
    public void Ten_thousand_labels_are_read()
    {
        const int Count = 10_000;
        var folder = InMemoryFolder.Empty.With("archive.yaml", "title: Trial\n").With("schemes/a.yaml", Written.JacketPrint.Replace(
            "\"01\": R1, ", string.Concat(Enumerable.Range(10, 50).Select(row => $"\"{row}\": R{row}, ")), StringComparison.Ordinal))
            .With("frames/all.yaml", string.Concat(from row in Enumerable.Range(10, 50)
                                                   from frame in Enumerable.Range(0, 100)
                                                   select $"- {{id: R{row}-{frame:00}, name: f}}\n"))
            .With("cables/all.yaml", string.Concat(Enumerable.Range(0, Count).Select(Row)));
        var parsed = RecordReader.Read(folder, TestContext.Current.CancellationToken);
        var readings = LabelReadings.From(ArchiveModel.From(parsed.Statement!, parsed.Records));
        Assert.Equal((Count / 2, Count / 2), (readings.Count(LabelVerdict.FromLabel), readings.Count(LabelVerdict.Contradicts)));

        // Each cable in ports of its own; every other one was seen where its label does not say.
        static string Row(int n)
        {
            var (row, frame, shelf) = (10 + (n % 50), n / 50 % 100, n / 5000);
            return $"- {{id: C-{n}, kind: coax, label: '{row}{frame:00}-{shelf:00}J1 {row}{frame:00}-{shelf:00}J2', ends: [{{at: R{row}-{frame:00}/S{shelf}/J{(n / 50 % 2 == 0 ? 1 : 3)}}}]}}\n";
        }
    }

    private static LabelReadings Read(params string[] cables) =>
        Written.Record.With("schemes/a.yaml", Written.JacketPrint).With("schemes/b.yaml", Written.Tag).Cables(cables).Labels();
}

using Archive.Records.Model;
using Archive.Wiring.Labels;
using Xunit;

namespace Archive.Wiring.Tests.Labels;

public sealed class HandTagListTests
{
    private static readonly ArchiveModel Record = Written.Record.With("schemes/a.yaml", Written.JacketPrint).Cables(
        "id: C-01, kind: coax, ends: [{at: R1-03/S3/J1}, {at: R2-05/S7/J1}]",
        "id: C-02, kind: coax, ends: [{at: R1-03/S2/J10}]",
        "id: C-03, kind: coax, ends: [{at: R1-03/S2/J2}, {at: OP-01/S1/J1}]",
        "id: C-04, kind: coax, label: '0205-07J14 0103-02J03'",
        "id: C-05, kind: coax, ends: [{at: R1-03}], label: '0103-02JO4 0205-07J04'",
        "id: C-06, kind: coax, note: seen in the tray",
        "id: C-07, kind: coax, ends: [{at: PW-03}]",
        "id: C-08, kind: coax, ends: [{at: R2-05/S7/TB1}]",
        "id: C-09, kind: coax, ends: [{at: R9-01}], fate: leave, reason: built in").Read();

    private static readonly HandTagList List = HandTagList.Compute(Record, LabelReadings.From(Record), ["R2-05", "R1-03", "OP-01"]);

    [Fact]
    public void Cables_are_listed_where_one_comes_by_them_first() => Assert.Equal(
        [
            "C-01 R2-05/S7/J1 and R1-03/S3/J1", "C-08 R2-05/S7/TB1", "C-03 R1-03/S2/J2 and OP-01/S1/J1", "C-02 R1-03/S2/J10", "C-05 R1-03",
            "C-07 PW-03", "C-09 R3-01", "C-06 "
        ],
        List.Tags.Select(tag => $"{tag.Reading.Cable.Id} {tag.At}{string.Concat(tag.Others.Select(other => $" and {other}"))}"));

    [Fact]
    public void The_likeliest_candidate_comes_with_it()
    {
        Assert.Equal("0103-02J04 0205-07J04", List.Tags.Single(tag => tag.Reading.Cable.Id == "C-05").Best!.Reading.Label);
        Assert.Null(List.Tags[0].Best);
    }
}

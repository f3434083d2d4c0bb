using Archive.Records.Model;
using Archive.Wiring.Graph;
using Archive.Wiring.Labels;
using Xunit;

namespace Archive.Wiring.Tests.Graph;

public sealed class WiringGraphTests
{
    private static readonly ArchiveModel Record = Written.Record.With("schemes/a.yaml", Written.JacketPrint).Cables(
        "id: C-1, kind: coax, ends: [{at: R2-05/S7/J1}, {at: R1-03/S2/J1}]",
        "id: C-2, kind: coax, ends: [{at: R1-03/S2/J2}, {at: R2-05/S7/J2}]",
        "id: C-3, kind: coax, label: '0205-07J14 0103-02J03'",
        "id: C-4, kind: coax, ends: [{at: R1-03/S2/J4}, {at: R1-03/S3/J4}]",
        "id: C-5, kind: coax, ends: [{at: R1-03/S2/J5}]",
        "id: C-6, kind: coax",
        "id: C-7, kind: coax, ends: [{at: OP-01/S1/J1}, {at: R1-03/S2/J7}, {at: R1-03/S2/J8}, {at: R9-01}]",
        "id: C-8, withdrawn: counted twice, ends: [{at: PW-03}, {at: R1-03}]").Read();

    private static readonly WiringGraph Graph = WiringGraph.From(Record, LabelReadings.From(Record));

    [Fact]
    public void Frames_are_paired_by_the_cables_between_them() => Assert.Equal(
        ["OP-01 R1-03: C-7", "OP-01 R3-01: C-7", "R1-03 R1-03: C-4", "R1-03 R2-05: C-1 C-2 C-3"],
        Graph.FramePairs.Select(pair => $"{pair.A} {pair.B}: {string.Join(' ', pair.Cables.Select(reading => reading.Cable.Id))}"));

    [Fact]
    public void Modules_are_paired_likewise() => Assert.Equal(
        [new ModulePair(null, "control", 1), new ModulePair("control", "receivers", 1), new ModulePair("receivers", "receivers", 4)],
        Graph.ModulePairs);

    [Fact]
    public void A_frame_lists_its_ends_with_the_far_ones()
    {
        Assert.Equal(
            [
                "C-1 R1-03/S2/J1 > R2-05/S7/J1",
                "C-2 R1-03/S2/J2 > R2-05/S7/J2",
                "C-3 R1-03/S2/J3 > R2-05/S7/J14",
                "C-4 R1-03/S2/J4 > R1-03/S3/J4",
                "C-4 R1-03/S3/J4 > R1-03/S2/J4",
                "C-5 R1-03/S2/J5 > ",
                "C-7 R1-03/S2/J7 > OP-01/S1/J1 R1-03/S2/J8 R3-01",
                "C-7 R1-03/S2/J8 > OP-01/S1/J1 R1-03/S2/J7 R3-01"
            ],
            Graph.At("R1-03").Select(end => $"{end.Cable.Id} {end.Here.At} > {string.Join(' ', end.Far.Select(far => far.At))}"));
        Assert.Empty(Graph.At("PW-03"));
    }

    [Fact]
    public void Cables_that_leave_the_record_and_frames_that_nothing_reaches()
    {
        Assert.Equal(["C-5", "C-6"], Graph.Leaving.Select(reading => reading.Cable.Id));
        Assert.Equal(["PW-03"], Graph.Unreached.Select(frame => frame.Id));
    }
}

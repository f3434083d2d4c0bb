using Archive.Wiring.Labels;
using Archive.Wiring.Reconnecting;
using CsCheck;
using Xunit;

namespace Archive.Wiring.Tests.Reconnecting;

public sealed class ReconnectionTests
{
    [Fact]
    public void The_lowest_is_laid_first_and_a_knot_as_one()
    {
        var back = Read(
            "id: C-1, kind: coax, ends: [{at: R1-03/S2/J1}, {at: R2-05/S7/J1}], lies_over: [C-4, C-5]",
            "id: C-2, kind: coax, ends: [{at: R1-03/S2/J2}, {at: OP-01/S1/J2}], lies_over: [C-3]",
            "id: C-3, kind: coax, ends: [{at: R1-03/S2/J3}], lies_over: [C-6]",
            "id: C-4, kind: coax, ends: [{at: R1-03/S2/J4}]",
            "id: C-5, kind: coax, label: '0205-07J14 0103-02J05'",
            "id: C-6, kind: coax, ends: [{at: R1-03/S2/J6}], lies_over: [C-2]",
            "id: C-7, withdrawn: counted twice, lies_over: [C-1]");
        Assert.Equal(["1 C-2", "2 C-3", "3 C-6", "4 C-4", "5 C-5", "6 C-1"], back.Cables.Select(laid => $"{laid.Turn} {laid.Cable.Id}"));
        Assert.Equal(["C-2", "C-3", "C-6"], back.Cables[0].Cycle!.Cables.Select(cable => cable.Id));
        Assert.Null(back.Cables[3].Cycle);
        Assert.Equal(["C-5", "C-1"], back.At("R2-05").Select(laid => laid.Cable.Id));
        Assert.Empty(back.At("PW-03"));
        Assert.Equal(["C-4", "C-1"], back.Among(new HashSet<string> { "C-1", "C-4" }).Select(laid => laid.Cable.Id));
    }

    [Fact]
    public void A_coil_begins_at_the_frame_that_it_stays_fast_to()
    {
        var ends = Read("id: C-1, kind: coax, ends: [{at: R1-03/S2/J1}, {at: R2-05/S7/J1}], fate: coil, coil_to: R2-05").Cables[0].Ends;
        Assert.Equal([("R2-05/S7/J1", true), ("R1-03/S2/J1", false)], ends.Select(end => (end.End.At.ToString(), end.StaysFast)));
    }

    [Theory]
    [InlineData("shows: [R1-03/S2/J01]", true)]
    [InlineData("shows: [C-1, R1-03]", true)]
    [InlineData("shows: [R1-03], regions: [{box: [0, 0, 0.5, 0.5], shows: C-1}]", true)]
    [InlineData("shows: [R1-03/S2]", true)]
    [InlineData("shows: [R1-03]", false)]
    [InlineData("shows: [C-1]", false)]
    [InlineData("shows: [R1-03/S2/J2]", false)]
    [InlineData("shows: [C-1, R2-05]", false)]
    [InlineData("shows: [C-1, R1-03/S2/J2]", false)]
    [InlineData("shows: [R1-3/S02/J1]", true)]
    [InlineData("shows: [R2-05], regions: [{box: [0, 0, 0.5, 0.5], shows: R1-03/S2/J1}]", true)]
    [InlineData("withdrawn: blurred, shows: [R1-03/S2/J1]", false)]
    public void A_photo_shows_an_end_where_it_shows_the_place_or_cable_and_frame(string shows, bool isShown)
    {
        var record = Written.Record.With("photos/p.yaml", $"{{id: P-1, file: a.jpg, {shows}}}\n").With("photos/a.jpg", "")
            .Cables("id: C-1, kind: coax, ends: [{at: R1-03/S2/J1}]", "id: C-2, kind: coax, ends: [{at: R1-03/S3/J1}]").Read();
        var back = ReconnectionOrder.Compute(record, LabelReadings.From(record));
        Assert.Equal(isShown, back.Cables[0].Ends[0].Photo is not null);
        Assert.Null(back.Cables[1].Ends[0].Photo);
    }

    [Fact]
    public void Whatever_lies_over_whatever_each_cable_comes_after_those_below_it() =>
        Gen.Select(Gen.Int[0, 11], Gen.Int[0, 11]).Array[0, 24].Sample(arrows =>
        {
            var back = Read([.. Enumerable.Range(0, 12)
                .Select(n =>
                    $"id: C-{n:00}, kind: coax, ends: [{{at: R1-03/S2/J{n + 1}}}], lies_over: [{string.Join(", ", arrows.Where(arrow => arrow.Item1 == n && arrow.Item2 != n).Select(arrow => $"C-{arrow.Item2:00}").Distinct())}]")]);
            var turns = back.Cables.ToDictionary(laid => laid.Cable.Id, laid => laid);
            Assert.Equal(12, turns.Count);
            foreach (var laid in back.Cables)
            {
                foreach (var under in laid.Cable.LiesOver.Select(name => turns[name.Value]))
                {
                    Assert.True(under.Turn < laid.Turn || under.Lift == laid.Lift);
                }

                if (laid.Cycle is { } knot) Assert.Equal(
                    knot.Cables.Length - 1,
                    knot.Cables.Max(cable => turns[cable.Id].Turn) - knot.Cables.Min(cable => turns[cable.Id].Turn));
            }
        }, iter: 100);

    private static ReconnectionOrder Read(params string[] cables)
    {
        var record = Written.Record.With("schemes/a.yaml", Written.JacketPrint).Cables(cables).Read();
        return ReconnectionOrder.Compute(record, LabelReadings.From(record));
    }
}

using Archive.Records.Model;
using Archive.Wiring.Labels;
using Archive.Wiring.Sets;
using Xunit;

namespace Archive.Wiring.Tests.Sets;

public sealed class WorkingSetTests
{
    private const string Frames = """
        - {id: RX-1, name: one, module: receivers, needs: [PW-1], weight: 310 kg, size: 600 x 500 x 2000 mm, draws: [{volts: -24 V, amps: 14 A}, {volts: 230 V, amps: 2 A}]}
        - {id: RX-2, name: two, module: receivers, needs: [PW-1], weight: 290 kg, size: 600 x 500 x 2000 mm, draws: {volts: -24 V, amps: 10 A}}
        - {id: PW-1, name: plant}
        - {id: TM-1, name: tape, module: tapes}
        """;

    private static readonly ArchiveModel Record = new Written()
        .With("kinds/all.yaml", "- {id: coax, name: coax, family: coax}\n")
        .With("frames/all.yaml", Frames)
        .With("displays/all.yaml", "{id: listen, name: listen, needs: [{any: 1, of: {module: receivers}}]}")
        .Cables(
            "id: C-1, kind: coax, ends: [{at: RX-2/S1/J1}, {at: PW-1/S1/J1}]",
            "id: C-2, kind: coax, ends: [{at: TM-1/S1/J1}, {at: RX-2/S1/J2}]",
            "id: C-3, kind: coax, ends: [{at: RX-1/S1/J1}, {at: TM-1/S1/J2}]",
            "id: C-4, kind: coax, ends: [{at: PW-1/S1/J3}]",
            "id: C-5, kind: coax, ends: [{at: RX-2/S1/J8}, {at: RX-2/S1/J9}]")
        .Read();

    private static readonly WorkingSet Set = WorkingSets.Compute(Record, LabelReadings.From(Record)).Find("listen")!;

    [Fact]
    public void Cables_lie_inside_cross_the_edge_or_leave_the_record()
    {
        Assert.Equal(["PW-1", "RX-2"], Set.Frames.Select(frame => frame.Id));
        Assert.Equal(["C-1", "C-5"], Set.Inside.Select(reading => reading.Cable.Id));
        var edge = Assert.Single(Set.Edge);
        Assert.Equal(
            ("C-2", "RX-2/S1/J2", "TM-1/S1/J1"),
            (edge.Reading.Cable.Id, Assert.Single(edge.Staying).At.ToString(), Assert.Single(edge.Parked).At.ToString()));
        Assert.Equal(["C-4"], Set.Loose.Select(reading => reading.Cable.Id));
    }

    [Fact]
    public void Figures_are_added_up_and_what_is_unknown_is_named()
    {
        var figures = SetTotals.From(Record.Frames);
        Assert.Equal(600, figures.Weight.Known.Kilograms, 9);
        Assert.Equal(["PW-1", "TM-1"], figures.Weight.Lacking.Select(frame => frame.Id));
        Assert.Equal(0.6, figures.FloorArea.Known.SquareMeters, 9);
        Assert.Equal(
            [(-24.0, 24.0), (230.0, 2.0)], figures.Currents.Select(at => ((double)at.Potential.Volts, (double)at.Current.Amperes)));
        Assert.Equal(24 * 24 + 230 * 2, (double)figures.Heat.Watts, 9);
        Assert.Equal(["PW-1", "TM-1"], figures.WithoutDraws.Select(frame => frame.Id));
    }

    [Fact]
    public void Needs_that_cannot_be_met_are_told_down_to_what_is_lacking()
    {
        var record = Made.Record(
            Made.Frame("A", Made.Any(1, Made.Needs("B"))),
            Made.Frame("B", Made.AnyOf(2, "plant")),
            Made.Frame("P") with { Module = Made.Said("plant") },
            Made.Frame("W") with { Withdrawn = Made.Said("gone"), Module = Made.Said("plant") },
            Made.Display("show", Made.Needs("P"), Made.Any(1, Made.Needs("A"), Made.Needs("X")), Made.Needs("W")));
        var set = WorkingSets.Compute(record, LabelReadings.From(record)).All[0];
        Assert.False(set.IsMet);
        Assert.Empty(set.Frames);
        Assert.Equal(
            [
                "show: it takes one of a list, but none can be used",
                "show: frame `W` was withdrawn",
                "A: it takes one of a list, but none can be used",
                "B: it takes 2 of module `plant`, but one can be used"
            ],
            set.Unmet.Select(unmet => $"{unmet.Of.Id}: {unmet.Why}"));
    }
}

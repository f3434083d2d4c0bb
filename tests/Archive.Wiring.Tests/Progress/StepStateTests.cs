using System.Collections.Frozen;
using Archive.Records.Model;
using Archive.Wiring.Decabling;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Reconnecting;
using CsCheck;
using Xunit;

namespace Archive.Wiring.Tests.Progress;

public sealed class StepStateTests
{
    private static readonly string[] Cables =
    [
        "id: C-1, kind: earth, ends: [{at: R1-03/EB/E1}, {at: R2-05/EB/E1}]",
        "id: C-2, kind: coax, ends: [{at: R1-03/S2/J2}, {at: R2-05/S1/J2}], lies_over: [C-3]",
        "id: C-3, kind: coax, ends: [{at: R1-03/S2/J3}, {at: R2-05/S1/J3}]",
        "id: C-4, kind: feeder, ends: [{at: R1-03/PD/T1}, {at: R2-05/PD/T1}]",
    ];

    [Fact]
    public void Nothing_has_happened() => Assert.Equal(
        [
            "Disconnect C-4 Waiting Isolated Licensed",
            "C-2 Waiting FeedersOff:C-4",
            "C-3 Waiting FeedersOff:C-4 CablesOverOut:C-2",
            "Pull C-4 Waiting EndsOff Licensed",
            "C-1 Waiting FeedersOff:C-4 OthersOff@R1-03:C-4,C-2,C-3 OthersOff@R2-05:C-4,C-2,C-3 Licensed",
        ],
        Out());

    [Fact]
    public void What_is_out_is_done_and_what_waited_for_it_is_open() => Assert.Equal(
        [
            "C-1 Waiting OthersOff@R1-03:C-3 OthersOff@R2-05:C-3 Licensed",
            "C-2 Done E-2",
            "C-3 Open",
            "Disconnect C-4 Done E-1",
            "Pull C-4 Done E-1"
        ],
        Out("{id: E-1, on: 2026-06-01, what: removed, of: [C-4]}", "{id: E-2, on: 2026-06-02, what: coiled, of: [C-2]}").Order(
            StringComparer.Ordinal));

    [Fact]
    public void A_cable_of_a_frame_that_has_left_is_not_open() => Assert.Equal(
        "C-3 Waiting Recorded@R2-05 FeedersOff:C-4 CablesOverOut:C-2",
        Out("{id: E-1, on: 2026-06-01, what: loaded, of: [R2-05]}").Single(line => line.StartsWith("C-3", StringComparison.Ordinal)));

    [Fact]
    public void A_feeder_that_is_disconnected_keeps_nothing_back_and_is_not_out() => Assert.Equal(
        ["Disconnect C-4 Done E-1", "C-2 Open", "Pull C-4 Waiting Licensed"],
        Out("{id: E-1, on: 2026-06-01, what: disconnected, of: [C-4]}").Where(line => line.Contains("C-2 ", StringComparison.Ordinal)
            || line.Contains("C-4 ", StringComparison.Ordinal)));

    /// <summary>One end off is not off; both are, in one event or two, and a connection undoes them.</summary>
    [Theory]
    [InlineData("Disconnect C-4 Waiting Isolated Licensed", "{id: E-1, on: 2026-06-01, what: disconnected, of: [C-4/R1-03]}")]
    [InlineData(
        "Disconnect C-4 Waiting Licensed",
        "{id: E-1, on: 2026-06-01, what: isolated, of: [C-4]}",
        "{id: E-2, on: 2026-06-02, what: disconnected, of: [C-4/R1-03]}")]
    [InlineData("Disconnect C-4 Done E-1", "{id: E-1, on: 2026-06-01, what: disconnected, of: [C-4/R1-03, C-4/R2-05/PD/T1]}")]
    [InlineData(
        "Disconnect C-4 Done E-2",
        "{id: E-1, on: 2026-06-01, what: disconnected, of: [C-4/R1-03]}",
        "{id: E-2, on: 2026-06-02, what: disconnected, of: [C-4/R2-05]}")]
    public void Ends_are_disconnected_one_by_one(string expected, params string[] events) =>
        Assert.Equal(expected, Out(events).Single(line => line.StartsWith("Disconnect C-4", StringComparison.Ordinal)));

    /// <summary>A feeder that stays in the hall is no step, and is live all the same until an event says that it is off.</summary>
    [Fact]
    public void A_feeder_that_stays_keeps_the_others_back()
    {
        const string Mains = "id: C-5, kind: feeder, ends: [{at: R1-03/AC/L1}], fate: leave, reason: fixed to the building";
        const string Out4 = "{id: E-1, on: 2026-06-01, what: removed, of: [C-4]}";
        Assert.Equal(
            "C-2 Waiting FeedersOff:C-5", OutOf([.. Cables, Mains], Out4).Single(line => line.StartsWith("C-2", StringComparison.Ordinal)));
        Assert.Equal("C-2 Open", OutOf([.. Cables, Mains], Out4, "{id: E-2, on: 2026-06-02, what: disconnected, of: [C-5]}").Single(line =>
            line.StartsWith("C-2", StringComparison.Ordinal)));
    }

    /// <summary>What lies over a feeder is pulled before it, and disconnected after it.</summary>
    [Fact]
    public void What_lies_over_a_feeder_waits_until_that_is_disconnected() => Assert.Equal(
        "C-6 Waiting FeedersOff:C-4",
        OutOf([
            .. Cables[..3],
            "id: C-4, kind: feeder, ends: [{at: R1-03/PD/T1}, {at: R2-05/PD/T1}]",
            "id: C-6, kind: coax, ends: [{at: R1-03/S2/J6}, {at: R2-05/S1/J6}], lies_over: [C-4]"
        ])
            .Single(line => line.StartsWith("C-6", StringComparison.Ordinal)));

    [Fact]
    public void Connecting_waits_for_frames_then_earths_then_a_licensed_person()
    {
        string[] arrived =
        [
            "{id: E-1, on: 2026-06-01, what: removed, of: [C-1, C-2, C-3, C-4]}",
                "{id: E-2, on: 2026-06-02, what: loaded, of: [C-1, C-2, C-3, C-4, R1-03, R2-05]}",
                "{id: E-3, on: 2026-06-03, what: arrived, of: [C-1, C-2, C-3, R1-03, R2-05], to: {hall: store}}",
            ];
        Assert.Equal(
            [
                "C-1 Waiting FrameInPlace@R1-03 FrameInPlace@R2-05 Licensed",
                "C-2 Waiting FrameInPlace@R1-03 FrameInPlace@R2-05 FrameEarthed@R1-03:C-1 FrameEarthed@R2-05:C-1",
                "C-3 Waiting FrameInPlace@R1-03 FrameInPlace@R2-05 FrameEarthed@R1-03:C-1 FrameEarthed@R2-05:C-1",
                "C-4 Waiting CableUnloaded FrameInPlace@R1-03 FrameInPlace@R2-05 FrameEarthed@R1-03:C-1 FrameEarthed@R2-05:C-1 OthersOn:C-1,C-3,C-2 Licensed",
            ],
            Back(arrived));
        Assert.Equal(
            ["C-1 Done E-5", "C-2 Done E-6", "C-3 Open", "C-4 Waiting OthersOn:C-3 Licensed"],
            Back([
                .. arrived,
                "{id: E-4, on: 2026-06-04, what: fixed, of: [R1-03, R2-05]}",
                "{id: E-8, on: 2026-06-04, what: earthed, of: [R1-03, R2-05]}",
                "{id: E-5, on: 2026-06-05, what: connected, of: [C-1]}",
                "{id: E-6, on: 2026-06-06, what: connected, of: [C-2]}",
                "{id: E-7, on: 2026-06-07, what: arrived, of: [C-4], to: {hall: store}}"
            ]));
    }

    /// <summary>
    /// Whatever happened in whatever order: no step is open that a rule keeps back, nothing on power or earth is ever open, and what is
    /// done has its event.
    /// </summary>
    [Fact]
    public void No_step_is_open_that_a_rule_keeps_back() =>
        Gen.Select(
            Gen.Int[0, 6].Select(at => new[] { "removed", "coiled", "loaded", "arrived", "stood", "connected", "found_missing" }[at]),
            Gen.Int[0, 5].Select(at => new[] { "C-1", "C-2", "C-3", "C-4", "R1-03", "R2-05" }[at])).Array[0, 12].Sample(events =>
        {
            string[] written = [.. events.Select((happened, at) =>
                $"{{id: E-{at}, on: 2026-06-{at + 1:00}, what: {happened.Item1}, of: [{happened.Item2}]{(happened.Item1 == "arrived" ? ", to: {hall: store}" : "")}}}")];
            var (takingOut, back) = (Out(written)
                .Select(line => line.StartsWith("Pull ", StringComparison.Ordinal)
                    ? "C-5" + line[8..]
                    : line.Replace("Disconnect ", "", StringComparison.Ordinal))
                .ToDictionary(line => line[..3]), Back(written).ToDictionary(line => line[..3]));
            foreach (var all in (Dictionary<string, string>[])[takingOut, back])
            {
                Assert.DoesNotContain(all.Values, line => line is "C-1 Open" or "C-4 Open" or "C-5 Open");
                Assert.All(all.Values, line => Assert.Matches("^C-. (Done E-|Waiting .|Open$)", line));
            }

            // no event here disconnects
            if (takingOut["C-3"] == "C-3 Open")
                Assert.All(["C-2", "C-4"], id => Assert.Contains(" Done ", takingOut[id], StringComparison.Ordinal));
            if (back["C-3"] == "C-3 Open") Assert.Contains(" Done ", back["C-1"], StringComparison.Ordinal);
        });

    private static IEnumerable<string> Out(params string[] events) => OutOf(Cables, events);

    private static IEnumerable<string> OutOf(string[] cables, params string[] events)
    {
        var record = Record(cables, events);
        return DecablingOrder.Compute(record, LabelReadings.From(record), FrozenSet<string>.Empty).Steps
            .Select(step => (step.Action == StepAction.TakeOut ? "" : step.Action + " ") + Line(step.Cable!, step.State));
    }

    private static IEnumerable<string> Back(params string[] events)
    {
        var record = Record(Cables, events);
        var order = ReconnectionOrder.Compute(record, LabelReadings.From(record));
        return order.List(order.Cables).Select(step => Line(step.Laid.Cable, step.State)).Order(StringComparer.Ordinal);
    }

    private static string Line(Cable cable, StepState state) =>
        $"{cable.Id} {state.Status}{(state.By is { } by ? " " + by.Id : "")}{string.Concat(state.WaitsFor.Select(each =>
        $" {each.Kind}{(each.Frame is { } frame ? "@" + frame : "")}{(each.Cables.IsEmpty ? "" : ":" + string.Join(',', each.Cables))}"))}";

    private static ArchiveModel Record(string[] cables, string[] events) => Written.Record
        .With("kinds/more.yaml", "- {id: earth, name: Earth, family: earth}\n- {id: feeder, name: Feeder, family: power}\n")
        .With("halls/all.yaml", "- {id: origin, name: origin, as_found: true}\n- {id: store, name: store}\n")
        .With("events/e.yaml", string.Concat(events.Select(line => $"- {line}\n"))).Cables(cables).Read();
}

using System.Collections.Frozen;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Wiring.Decabling;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;
using CsCheck;
using Xunit;

namespace Archive.Wiring.Tests.Decabling;

/// <summary>
/// No step frees a frame, to be tipped or lifted, before the units that must be out of it are out; and none of them comes out before the
/// frame is dead, or after its earth is off.
/// </summary>
public sealed class UnitsOutTests
{
    private const int Frames = 4;
    private static readonly string?[] KindIds = ["coax", "coax", "coax", "feeder", "earth", "earth", "line", null];

    private static readonly Gen<ArchiveModel> Archives =
        from cables in Gen.Select(Gen.Int[0, KindIds.Length - 1], Gen.Int[0, Frames - 1].Array[0, 2], Gen.Int[0, 9]).Array[0, 12]
        from over in Gen.Select(Gen.Int[0, 11], Gen.Int[0, 11]).Array[0, 6]
        from units in Gen.Select(Gen.Int[0, Frames - 1], Gen.Bool).Array[0, 6]
        select Record(cables, over, units);

    [Fact]
    public void No_step_frees_a_frame_before_its_units_are_out_and_none_comes_out_before_it_is_dead() => Archives.Sample(record =>
    {
        var readings = LabelReadings.From(record);
        var whole = DecablingOrder.Compute(record, readings, FrozenSet<string>.Empty);
        Check(record, readings, whole, Frames);
        for (var number = 0; number < Frames; number++)
        {
            var part = whole.For($"R{number}");
            Check(record, readings, part, 0);
            var own = UnitsIn(record, $"R{number}");
            Assert.Equal(own.Count > 0, part.Steps.Any(step => step.Units.Length > 0 && step.Frame!.Id == $"R{number}"));
            Assert.Equal(
                own.Count, part.Steps[^1].State.WaitsFor.Where(why => why.Kind == PreconditionKind.UnitsTakenOut).Sum(why => why.Count));
        }
    }, iter: 400);

    [Theory]
    [InlineData("", "Waiting Isolated", "Waiting UnitsTakenOut")]
    [InlineData("isolated R1-03", "Waiting", "Waiting UnitsTakenOut")]
    [InlineData("removed U-1", "Waiting Isolated", "Waiting UnitsTakenOut")]
    [InlineData("removed U-1; removed U-2", "Done E-1", "Waiting")]
    [InlineData("loaded U-1; found_missing U-2", "Done E-1", "Waiting")]
    [InlineData("loaded R1-03", "Waiting Recorded Isolated", "Done E-0")]
    public void Events_show_that_units_are_out(string what, string takeOut, string release)
    {
        var events = what.Split("; ", StringSplitOptions.RemoveEmptyEntries).Select((each, day) =>
            $"- {{id: E-{day}, on: 2026-06-0{day + 1}, what: {each.Split(' ')[0]}, of: [{each.Split(' ')[1]}]}}\n");
        var record = Written.Record
            .With("units/u.yaml", """
                - {id: U-1, at: R1-03/S2:1, handling: [static_sensitive, out_before_moving]}
                - {id: U-2, at: R1-03/S2:2, handling: [out_before_moving]}
                - {id: U-3, at: R1-03/S2:3, handling: [fragile]}

                """)
            .With("events/e.yaml", string.Concat(events)).Read();
        var list = DecablingOrder.Compute(record, LabelReadings.From(record), FrozenSet<string>.Empty).For("R1-03");
        Assert.Equal([StepAction.TakeOutUnits, StepAction.Release], list.Steps.Select(step => step.Action));
        Assert.Equal(["U-1", "U-2"], list.Steps[0].Units.Select(unit => unit.Id));
        Assert.Equal([takeOut, release], list.Steps.Select(step => string.Join(' ', step.State.WaitsFor
            .Where(why => why.Kind != PreconditionKind.Licensed)
            .Select(why => why.Kind.ToString())
            .Prepend(step.State.Status + (step.State.By is { } by ? " " + by.Id : "")))));
    }

    private static void Check(ArchiveModel record, LabelReadings readings, DecablingOrder order, int frames)
    {
        var steps = order.Steps.Where(step => step.Action == StepAction.TakeOutUnits).ToDictionary(step => step.Frame!.Id);
        for (var number = 0; number < frames; number++)
            Assert.Equal(UnitsIn(record, $"R{number}").Count > 0, steps.ContainsKey($"R{number}"));
        foreach (var step in order.Steps)
        {
            foreach (var free in step.Released.Where(frame => UnitsIn(record, frame).Count > 0))
            {
                Assert.True(
                    steps.TryGetValue(free, out var units) && units.Number <= step.Number, $"{free} is free before its units are out");
            }
        }

        foreach (var (frame, step) in steps)
        {
            Assert.Equal(UnitsIn(record, frame), step.Units.Select(unit => unit.Id));
            if (order.ReleaseOf(frame) is { } release) Assert.True(release.Step >= step.Number, $"{frame} is free in {release.Step}");
            var earths = EarthTree.From(record, readings);
            var off = order.Steps.Where(each => each.Disconnects).ToDictionary(each => each.Cable!.Id, each => each.Number);
            foreach (var cable in record.Cables.Where(cable => cable.Owner is null))
            {
                var role = RoleOf(cable);
                var isHere = cable.Ends.Any(end => end.At!.Value.Value.Frame == frame);
                var isEarth = isHere && earths.RoleAt(frame, cable.Id, role) == CableRole.Earth;
                if (role is CableRole.Outside or CableRole.Feeder or CableRole.Unknown || (isHere && !isEarth))
                    Assert.True(off.TryGetValue(cable.Id, out var before) && before < step.Number, $"{frame}: {cable.Id} is off first");
                if (isEarth && off.TryGetValue(cable.Id, out var after))
                    Assert.True(after > step.Number, $"{frame}: its earth {cable.Id} is off before its units are out");
            }
        }
    }

    private static List<string> UnitsIn(ArchiveModel record, string frame) =>
    [
        .. record.Units
            .Where(unit => unit.At!.Value.Value.At.Frame == frame && unit.Handling.Any(each => each.Value == Handling.OutBeforeMoving))
            .Select(unit => unit.Id),
    ];

    private static CableRole RoleOf(Cable cable) => cable.Kind?.Value switch
    {
        "feeder" => CableRole.Feeder,
        "line" => CableRole.Outside,
        "earth" => CableRole.Earth,
        "coax" => CableRole.Signal,
        _ => CableRole.Unknown,
    };

    private static ArchiveModel Record(
        (int Kind, int[] Ends, int Fate)[] cables, (int Over, int Under)[] over, (int Frame, bool Out)[] units) =>
        Made.Record(
        [
            Made.Kind("coax", CableFamily.Coax),
            Made.Kind("feeder", CableFamily.Power),
            Made.Kind("earth", CableFamily.Earth),
            Made.Kind("line", CableFamily.Pairs) with { Hazards = [Made.Said(Hazard.OutsideLine)] },
            .. Enumerable.Range(0, Frames).Select(n => Made.Frame($"R{n}")),
            .. cables.Select((cable, n) => Made.Cable(
                $"C-{n:00}",
                over.Where(pair => pair.Over == n && pair.Under != n && pair.Under < cables.Length)
                    .Select(pair => $"C-{pair.Under:00}")
                    .Distinct())
                with
            {
                Kind = KindIds[cable.Kind] is { } kind ? Made.Said(kind) : null,
                Ends = [.. cable.Ends.Select(frame => Made.End($"R{frame}"))],
                Fate = cable.Fate == 0 ? Made.Said(Fate.Leave) : null,
                Owner = cable.Fate == 1 ? Made.Said("the host") : null,
            }),
            .. units.Select((unit, n) => new Unit
            {
                Id = $"U-{n}",
                IdSpan = Made.Said("").Span,
                Span = Made.Said("").Span,
                At = Made.Said(UnitPlace.TryParse($"R{unit.Frame}/S1:{n}", out var at) ? at : default),
                Handling = unit.Out ? [Made.Said(Handling.OutBeforeMoving)] : [Made.Said(Handling.Fragile)],
            }),
        ]);
}

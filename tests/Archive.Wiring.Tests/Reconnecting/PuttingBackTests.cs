using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Reconnecting;
using Archive.Wiring.Safety;
using CsCheck;
using UnitsNet;
using Xunit;

namespace Archive.Wiring.Tests.Reconnecting;

/// <summary>
/// No list of what is put back breaks a rule that it states: found by looking at every pair of steps, in this test's own words.
/// </summary>
public sealed class PuttingBackTests
{
    private const int Frames = 4;
    private static readonly string?[] KindIds = ["coax", "coax", "feeder", "earth", "line", null];

    private static readonly Gen<(ArchiveModel Record, bool[] Short, string? Here)> Archives =
        from cables in Gen.Select(Gen.Int[0, KindIds.Length - 1], Gen.Int[0, Frames - 1].Array[0, 3], Gen.Bool).Array[1, 14]
        from tooShort in Gen.Frequency((3, Gen.Const(false)), (1, Gen.Const(true))).Array[cables.Length]
        from here in Gen.Int[-1, Frames - 1]
        select (Record(cables), tooShort, here < 0 ? null : $"R{here}");

    [Fact]
    public void Whatever_is_put_back_its_list_keeps_the_rules_that_it_states() => Archives.Sample(drawn =>
    {
        var (record, isShort, here) = drawn;
        var list = List(record, here, id => isShort[int.Parse(id[2..], System.Globalization.CultureInfo.InvariantCulture)]);
        var steps = list.Steps;
        Assert.Equal(Enumerable.Range(1, steps.Length), steps.Select(step => step.Number));
        Assert.Equal(steps.Select(step => step.Stage).Order(), steps.Select(step => step.Stage));

        var connected = new Dictionary<(string Cable, string Frame), int>();
        foreach (var step in steps.Where(step => step.Connects))
        {
            foreach (var end in step.Ends) connected.TryAdd((step.Laid!.Cable.Id, end.End.At.Frame), step.Number);
            if (step.Action == StepAction.Connect)
                Assert.Contains(steps.Take(step.Number), earlier => earlier.Lays && earlier.Laid!.Cable.Id == step.Laid!.Cable.Id);
            foreach (var frame in step.Ends.Select(end => end.End.At.Frame).Where(frame => here is null || frame == here))
                Assert.Contains(steps.Take(step.Number), earlier => earlier.Action == StepAction.Fix && earlier.Frame!.Id == frame);
        }

        foreach (var (one, at) in connected)
        {
            foreach (var (other, later) in connected.Where(other => other.Key.Cable != one.Cable
                && MustGoOnFirst(RoleOf(record, one.Cable), RoleOf(record, other.Key.Cable), one.Frame == other.Key.Frame)))
            {
                // An earth may wait for one that is nearer the building's: then the list says that it is to be checked, or has it before.
                Assert.True(at < later || RoleOf(record, one.Cable) == CableRole.Earth, $"{one} goes on before {other}");
                if (RoleOf(record, one.Cable) == CableRole.Earth && RoleOf(record, other.Cable) != CableRole.Earth)
                    Assert.True(at < later, $"{one} earths before {other}");
            }
        }

        // Each end of what is not too short is connected once, but for the end that a coil stayed fast to.
        var expected = record.Cables
            .Where(cable => !isShort[Number(cable)])
            .SelectMany(cable => cable.Ends.Select((end, at) => (cable, end.At!.Value.Value.Frame, at)))
            .Where(end => here is null
                || end.Frame == here
                || (RoleOf(record, end.cable.Id) == CableRole.Earth && end.cable.Ends.Any(each => each.At!.Value.Value.Frame == here)))
            .Count(end => RoleOf(record, end.cable.Id) == CableRole.Earth || !(end.cable.Fate?.Value == Fate.Coil
                && end.cable.Ends.ToList().FindIndex(each => each.At!.Value.Value.Frame == end.cable.CoilTo!.Value.Value) == end.at));
        Assert.Equal(expected, steps.Where(step => step.Connects).Sum(step => step.Ends.Length));
        Assert.Equal(
            record.Cables.Where(cable => isShort[Number(cable)]).Select(cable => cable.Id).Order(),
            list.TooShort.Select(each => each.Laid.Cable.Id).Order());
        Assert.DoesNotContain(steps, step => step.Laid is { } laid && isShort[Number(laid.Cable)]);
        Assert.DoesNotContain(steps, step => step.State.Status == StepStatus.Open
            && step.Laid is { } laid
            && laid.Role != CableRole.Signal);
    });

    [Fact]
    public void Frames_are_fixed_and_earthed_long_runs_laid_first_and_ends_connected_by_position_and_port()
    {
        var record = Made.Record(
        [
            .. Kinds,
                Made.Frame("R0"),
                Made.Frame("R1"),
                Cable("C-01", "coax", "R1/S2/J2", "R0/S1/J10"),
                Cable("C-02", "coax", "R1/S2/J1", "R0/S1/J9"),
                Cable("C-03", "earth", "R0/EB/E1", "R1/EB/E1"),
                Cable("C-04", "feeder", "R0/PD/T1", "R1/PD/T1"),
                Cable("C-05", "line", "R1/S9/J1"),
                Cable("C-06", "coax", "R1/S1/J1", "R0/S3/J1"),
            ]);
        var runs = new Dictionary<string, LaidRun>
        {
            ["C-01"] = new(Length.FromMeters(4), null, []),
            ["C-02"] = new(Length.FromMeters(9), null, []),
            ["C-06"] = new(Length.FromMeters(5), Length.FromMeters(1), [])
        };
        var list = Order(record, runs.GetValueOrDefault) is var order
            ? order.PutBack([.. record.Frames.Where(frame => frame.Id == "R1")], order.At("R1"), "R1")
            : null!;
        Assert.Equal(
            [
                "Fix R1", "LayAndConnect C-03 R0/EB/E1 R1/EB/E1", "TestEarth R1", "Lay C-02 R1/S2/J1 R0/S1/J9",
                    "Lay C-01 R1/S2/J2 R0/S1/J10", "Lay C-04 R0/PD/T1 R1/PD/T1", "Lay C-05 R1/S9/J1",
                    "Connect C-02 R1/S2/J1",
                    "Connect C-01 R1/S2/J2", "Connect C-04 R1/PD/T1", "Connect C-05 R1/S9/J1", "Check R1",
                ],
            list.Steps.Select(step =>
                $"{step.Action} {step.Laid?.Cable.Id ?? step.Frame!.Id}{string.Concat(step.Ends.Select(end => " " + end.End.At))}"));
        Assert.Equal(["C-06"], list.TooShort.Select(each => each.Laid.Cable.Id));
    }

    [Fact]
    public void Each_end_waits_for_its_own_frame_and_is_done_by_its_own_event()
    {
        var record = Written.Record
            .With("kinds/more.yaml", "- {id: earth, name: Earth, family: earth}\n")
            .With("halls/all.yaml", "- {id: origin, name: origin, as_found: true}\n- {id: store, name: store}\n")
            .With("events/e.yaml", string.Concat(((string[])
            [
                "{id: E-1, on: 2026-06-01, what: removed, of: [C-1, C-2]}",
                    "{id: E-2, on: 2026-06-02, what: arrived, of: [C-1, C-2, R1-03, R2-05], to: {hall: store}}",
                    "{id: E-3, on: 2026-06-03, what: fixed, of: [R1-03, R2-05]}",
                    "{id: E-4, on: 2026-06-04, what: connected, of: [C-1]}",
                    "{id: E-5, on: 2026-06-05, what: earthed, of: [R1-03]}",
                    "{id: E-6, on: 2026-06-06, what: laid, of: [C-2]}",
                    "{id: E-7, on: 2026-06-07, what: connected, of: [C-2/R1-03]}",
                ]).Select(line => $"- {line}\n")))
            .Cables(
                "id: C-1, kind: earth, ends: [{at: R1-03/EB/E1}, {at: R2-05/EB/E1}]",
                "id: C-2, kind: coax, ends: [{at: R1-03/S2/J2}, {at: R2-05/S1/J2}]").Read();
        var order = Order(record);
        var list = order.PutBack([.. record.Frames.Where(frame => frame.Id is "R1-03" or "R2-05")], order.Cables, null);
        Assert.Equal(
            [
                "Fix R1-03 Done E-3", "Fix R2-05 Done E-3", "LayAndConnect C-1 Done E-4", "TestEarth R1-03 Done E-5",
                    "TestEarth R2-05 Waiting Licensed", "Lay C-2 Done E-6",
                    "Connect C-2 Done E-7", "Connect C-2 Waiting EarthTested",
                    "Check R1-03 Waiting OthersOn Licensed", "Check R2-05 Waiting OthersOn Licensed",
                ],
            list.Steps.Select(step =>
                $"{step.Action} {step.Laid?.Cable.Id ?? step.Frame!.Id} {step.State.Status}{(step.State.By is { } by ? " " + by.Id : "")}{string.Concat(step.State.WaitsFor.Select(why => " " + why.Kind))}"));
    }

    // No unit goes in while anything is still to be connected, nor before the supply is proved without it; nothing starts before it is in.
    [Fact]
    public void Units_go_in_after_the_supply_is_proved_without_them() => Archives.Sample(drawn =>
    {
        var (record, isShort, here) = drawn;
        var unit = new Unit { Id = "U-1", IdSpan = Made.Said("x").Span, Span = Made.Said("x").Span, At = Made.Said(PlaceOf("R0/S1:1")) };
        record = ArchiveModel.From(record.Statement, [.. record.ById.Values, unit]);
        var steps = List(record, here, id => isShort[int.Parse(id[2..], System.Globalization.CultureInfo.InvariantCulture)]).Steps;
        var own = steps.Where(step => step.Action is StepAction.ProveSupply or StepAction.FitUnits or StepAction.Start).ToList();
        if (here is not null && here != "R0")
        {
            Assert.Empty(own);
            return;
        }

        Assert.Equal([StepAction.ProveSupply, StepAction.FitUnits, StepAction.Start], own.Select(step => step.Action));
        Assert.All(own, step => Assert.Equal("R0", step.Frame!.Id));
        Assert.All(steps.Take(own[0].Number - 1), step => Assert.DoesNotContain(step, own));
        Assert.All(steps.Where(step => step.Connects || step.Action == StepAction.Check), step => Assert.True(step.Number < own[0].Number));
        Assert.All(own, step => Assert.Contains(step.State.WaitsFor, why => why.Kind == PreconditionKind.Licensed));
        Assert.Contains(own[0].State.WaitsFor, why => why is { Kind: PreconditionKind.UnitsOut, Count: 1 });
        Assert.Contains(own[1].State.WaitsFor, why => why.Kind == PreconditionKind.SupplyProved);
    }, iter: 200);

    [Theory]
    [InlineData("removed", "Waiting", "Waiting SupplyProved", "Waiting UnitsIn")]
    [InlineData("removed refitted", "Done", "Done", "Waiting")]
    [InlineData("removed found_missing", "Waiting", "Waiting SupplyProved", "Waiting")]
    public void Units_that_are_out_hold_back_power(string what, string prove, string fit, string start)
    {
        var events = what.Split(' ').Select((each, day) => $"- {{id: E-{day}, on: 2026-06-0{day + 1}, what: {each}, of: [U-1]}}\n");
        var record = Written.Record
            .With("units/u.yaml", "- {id: U-1, at: R1-03/S2:1}\n")
            .With("events/e.yaml", string.Concat(events)).Read();
        var list = Order(record).PutBack([.. record.Frames.Where(frame => frame.Id == "R1-03")], [], null);
        Assert.Equal([prove, fit, start], list.Steps[^3..].Select(step => string.Join(' ', step.State.WaitsFor
            .Where(why => why.Kind is PreconditionKind.UnitsOut or PreconditionKind.SupplyProved or PreconditionKind.UnitsIn)
            .Select(why => why.Kind.ToString())
            .Prepend(step.State.Status.ToString()))));
    }

    // What ends on the front of a unit is connected after that unit is in, and before power; all else before the supply is proved.
    [Fact]
    public void What_ends_on_a_unit_is_connected_when_the_unit_is_in() => Gen.Select(Archives, Gen.Bool.Array[60]).Sample((drawn, onUnit) =>
    {
        var (record, isShort, here) = drawn;
        var unit = new Unit { Id = "U-1", IdSpan = Made.Said("x").Span, Span = Made.Said("x").Span, At = Made.Said(PlaceOf("R0/S1:1")) };
        var next = 0;
        record = ArchiveModel.From(
            record.Statement, [.. record.ById.Values.Select(each => each is Cable cable ? Moved(cable) : each), unit]);
        var steps = List(record, here, id => isShort[int.Parse(id[2..], System.Globalization.CultureInfo.InvariantCulture)]).Steps;
        Assert.Equal(steps.Select(step => step.Stage).Order(), steps.Select(step => step.Stage));
        var fit = steps.SingleOrDefault(step => step.Action == StepAction.FitUnits)?.Number;
        foreach (var step in steps.Where(step => step.Connects))
        {
            if (step.Ends.Any(end => end.End.At.Slot is not null)) Assert.True(step.Number > fit, $"{step.Ends[0].End.At} before the unit");
            else if (fit is not null) Assert.True(step.Number < fit);
        }

        foreach (var start in steps.Where(step => step.Action == StepAction.Start))
            Assert.DoesNotContain(steps.Skip(start.Number), later => later.Connects);
        var roles = steps.Where(step => step.Stage == PuttingBackStage.UnitFronts).Select(step => step.Laid!.Role).ToList();
        for (var at = 1; at < roles.Count; at++) Assert.False(MustGoOnFirst(roles[at], roles[at - 1], isSameFrame: false));
        Assert.Equal(
            record.Cables.Where(cable => !isShort[Number(cable)])
                .Sum(cable => cable.Ends.Count(end => end.At!.Value.Value.Slot is not null && (here ?? "R0") == "R0")),
            steps.Where(step => step.Connects).SelectMany(step => step.Ends).Count(end => end.Unit?.Id == "U-1"));

        Cable Moved(Cable cable) => cable with
        {
            Fate = null,
            Ends = [.. cable.Ends.Select(end => end.At!.Value.Value.Frame == "R0" && onUnit[next++ % onUnit.Length]
                ? end with { At = Made.Said(Address.Create("R0", "S1", $"1:J{next}")) }
                : end)],
        };
    }, iter: 200);

    private static UnitPlace PlaceOf(string text) =>
        UnitPlace.TryParse(text, out var place) ? place : throw new ArgumentException("no place", nameof(text));

    private static bool MustGoOnFirst(CableRole one, CableRole other, bool isSameFrame) => one switch
    {
        CableRole.Earth => isSameFrame && other != CableRole.Earth,
        CableRole.Signal => other is CableRole.Unknown or CableRole.Feeder or CableRole.Outside,
        CableRole.Unknown or CableRole.Feeder => other == CableRole.Outside,
        _ => false,
    };

    private static CableRole RoleOf(ArchiveModel record, string cable) => record.Find<Cable>(cable)!.Kind?.Value switch
    {
        "feeder" => CableRole.Feeder,
        "earth" => CableRole.Earth,
        "line" => CableRole.Outside,
        "coax" => CableRole.Signal,
        _ => CableRole.Unknown,
    };

    private static int Number(Cable cable) => int.Parse(cable.Id[2..], System.Globalization.CultureInfo.InvariantCulture);

    private static ReconnectionOrder Order(ArchiveModel record, Func<string, LaidRun?>? runs = null) =>
        ReconnectionOrder.Compute(record, LabelReadings.From(record), runs: runs);

    private static PuttingBackList List(ArchiveModel record, string? here, Func<string, bool> isShort)
    {
        var order = Order(record, id => isShort(id) ? new LaidRun(null, Length.FromMeters(1), []) : null);
        ImmutableArray<Frame> frames = [.. record.Frames.Where(frame => here is null || frame.Id == here)];
        // A frame's list has the cables that end there.
        var cables = here is null ? order.Cables : order.At(here);
        var list = order.PutBack(frames, cables, here);
        return here is null ? list : list with
        {
            TooShort = [.. list.TooShort, .. order.Cables
            .Where(laid => isShort(laid.Cable.Id) && !cables.Contains(laid))
            .Select(laid => new PuttingBackShort(laid, new LaidRun(null, Length.FromMeters(1), [])))]
        };
    }

    private static CableKind[] Kinds =>
        [
            Made.Kind("coax", CableFamily.Coax),
            Made.Kind("feeder", CableFamily.Power),
            Made.Kind("earth", CableFamily.Earth),
            Made.Kind("line", CableFamily.Pairs) with { Hazards = [Made.Said(Hazard.OutsideLine)] }
        ];

    private static Cable Cable(string id, string? kind, params IEnumerable<string> ends) =>
        Made.Cable(id) with { Kind = kind is null ? null : Made.Said(kind), Ends = [.. ends.Select(End)] };

    private static CableEnd End(string at) => Made.End("") with
    {
        At = Made.Said(Address.TryParse(at, out var address) ? address : throw new ArgumentException("no address", nameof(at)))
    };

    private static ArchiveModel Record((int Kind, int[] Ends, bool Coil)[] cables) => Made.Record(
    [
        .. Kinds,
        .. Enumerable.Range(0, Frames).Select(n => Made.Frame($"R{n}")),
        .. cables.Select((cable, n) =>
            Cable($"C-{n:00}", KindIds[cable.Kind], cable.Ends.Select((frame, at) => $"R{frame}/S{n}/J{at}")) with
            {
                Fate = cable.Coil && cable.Ends.Length > 0 ? Made.Said(Fate.Coil) : null,
                CoilTo = cable.Coil && cable.Ends.Length > 0 ? Made.Said($"R{cable.Ends[^1]}") : null,
            }),
    ]);
}

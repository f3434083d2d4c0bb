using System.Collections.Frozen;
using Archive.Records.Model;
using Archive.Wiring.Decabling;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;
using CsCheck;
using Xunit;

namespace Archive.Wiring.Tests.Decabling;

/// <summary>
/// The steps that free one frame are a part of the whole order that leaves out nothing which must come before them, and leave nothing at
/// the frame: found by looking at every pair of cables, and not as the list is made.
/// </summary>
public sealed class FrameRemovalTests
{
    private const int Frames = 4;
    private static readonly string?[] KindIds = ["coax", "coax", "coax", "coax", "feeder", "earth", "earth", "line", null];

    private static readonly Gen<ArchiveModel> Archives =
        from cables in Gen.Select(Gen.Int[0, KindIds.Length - 1], Gen.Int[0, Frames - 1].Array[0, 3], Gen.Int[0, 9]).Array[1, 14]
        from over in Gen.Select(Gen.Int[0, cables.Length - 1], Gen.Int[0, cables.Length - 1]).Array[0, cables.Length]
        select Record(cables, over);

    [Fact]
    public void What_frees_one_frame_is_a_part_of_the_whole_order_that_lacks_nothing_and_frees_it() => Archives.Sample(record =>
    {
        var readings = LabelReadings.From(record);
        var whole = DecablingOrder.Compute(record, readings, FrozenSet<string>.Empty);
        var (allOff, allPulled) = Turns(whole);
        for (var number = 0; number < Frames; number++)
        {
            var frame = $"R{number}";
            var part = whole.For(frame);
            var (off, pulled) = Turns(part);

            // In the order of the whole, numbered from 1, and each step as far on as there.
            Assert.Equal(off.Keys.OrderBy(id => allOff[id]), off.OrderBy(pair => pair.Value).Select(pair => pair.Key));
            Assert.Equal(pulled.Keys.OrderBy(id => allPulled[id]), pulled.OrderBy(pair => pair.Value).Select(pair => pair.Key));
            Assert.Equal(Enumerable.Range(1, part.Steps.Length), part.Steps.Select(step => step.Number));
            Assert.Equal(part.Steps.Sum(step => step.Minutes), part.Minutes, 6);

            // Nothing is left that must come before a step.
            foreach (var cable in record.Cables)
            {
                if (off.TryGetValue(cable.Id, out var turn))
                {
                    foreach (var before in record.Cables.Where(other => other != cable && other.Owner is null
                        && MustComeOffFirst(record, readings, other, cable)))
                    {
                        Assert.True(
                            off.TryGetValue(before.Id, out var first) && first < turn, $"{frame}: {before.Id} comes off before {cable.Id}");
                    }
                }

                if (!pulled.TryGetValue(cable.Id, out var pull)) continue;
                Assert.True(off.TryGetValue(cable.Id, out var freed) && freed <= pull, $"{frame}: {cable.Id} is off before it is pulled");
                foreach (var above in record.Cables.Where(other =>
                    other != cable && allPulled.ContainsKey(other.Id) && other.LiesOver.Any(under => under.Value == cable.Id)))
                {
                    Assert.True(pulled.TryGetValue(above.Id, out var sooner), $"{frame}: {above.Id} lies over {cable.Id}");
                    Assert.True(sooner < pull || LiesOver(record, cable.Id, above.Id), $"{frame}: {above.Id} is pulled before {cable.Id}");
                }
            }

            // Nothing is left at the frame, and the list says where.
            var here = record.Cables.Where(cable => cable.Owner is null && FramesOf(readings.Find(cable.Id)!).Contains(frame)).ToList();
            Assert.All(here, cable => Assert.True(off.ContainsKey(cable.Id), $"{cable.Id} is still connected at {frame}"));
            Assert.All(
                here.Where(cable => cable.Fate?.Value != Fate.Leave),
                cable => Assert.True(pulled.ContainsKey(cable.Id), $"{cable.Id} still holds {frame}"));
            var release = part.ReleaseOf(frame)!;
            Assert.Equal(whole.ReleaseOf(frame)!.Staying, release.Staying);
            var last = part.Steps[^1];
            Assert.Equal((release.Step, StepAction.Release, frame), (last.Number, last.Action, last.Frame!.Id));
            Assert.Equal([frame], last.Released);
            Assert.DoesNotContain(part.Steps.SkipLast(1), step => step.Released.Contains(frame));

            // It waits for all that holds the frame, and for people.
            var holds = record.Cables.Count(cable => FramesOf(readings.Find(cable.Id)!).Contains(frame));
            Assert.Equal(holds, last.State.WaitsFor.Sum(each => each.Count));
            Assert.Contains(last.State.WaitsFor, each => each.Kind == PreconditionKind.Licensed);

            // Nothing that the frame does not need: every step but the last comes before one at the frame, or is one.
            if (here.Count == 0) Assert.Single(part.Steps);
        }
    });

    [Fact]
    public void A_step_of_one_frames_list_waits_for_what_it_waits_for_in_the_whole() => Archives.Sample(record =>
    {
        var whole = DecablingOrder.Compute(record, LabelReadings.From(record), FrozenSet<string>.Empty);
        var states = whole.Steps.ToDictionary(step => (step.Action, step.Cable!.Id), step => Waits(step.State));
        for (var number = 0; number < Frames; number++)
        {
            foreach (var step in whole.For($"R{number}").Steps.Where(step => step.Cable is not null))
            {
                if (states.TryGetValue((step.Action, step.Cable!.Id), out var state)) Assert.Equal(state, Waits(step.State));
            }
        }

        static string Waits(StepState state) => $"{state.Status} {string.Join("; ", state.WaitsFor.Select(each =>
            $"{each.Kind} {each.Frame} {each.Count} {string.Join(' ', each.Cables)}"))}";
    });

    /// <summary>
    /// By hand: C-3 holds R1, C-4 lies over it, and C-5 over that. The feeder of R2 is off first, and is not pulled; C-6 is not touched.
    /// </summary>
    [Fact]
    public void What_lies_over_the_cables_of_a_frame_is_pulled_and_the_feeders_of_others_are_only_disconnected()
    {
        var record = Made.Record([
            .. Kinds,
            .. Enumerable.Range(0, 3).Select(n => Made.Frame($"R{n}")),
            Cable("C-1", "feeder", ["R0", "R2"]),
            Cable("C-2", "earth", ["R1"]),
            Cable("C-3", "coax", ["R1", "R0"]),
            Cable("C-4", "coax", ["R0", "R2"], "C-3"),
            Cable("C-5", "coax", ["R0", "R2"], "C-4"),
            Cable("C-6", "coax", ["R0", "R2"])
        ]);
        var part = DecablingOrder.Compute(record, LabelReadings.From(record), FrozenSet<string>.Empty).For("R1");
        Assert.Equal(
            ["Disconnect C-1", "TakeOut C-5", "TakeOut C-4", "TakeOut C-3", "TakeOut C-2", "Release R1"],
            part.Steps.Select(step => $"{step.Action} {step.Cable?.Id ?? step.Frame!.Id}"));
        Assert.Equal(["R1"], part.Steps[^1].Released);
        Assert.Equal("R0", part.Steps[3].Pull.To!.Value.At.Frame);
        Assert.Null(DecablingOrder.Compute(record, LabelReadings.From(record), FrozenSet<string>.Empty).For("R1", 5));
    }

    /// <summary>A cable that is out needs nothing before it: what lay over it may stay.</summary>
    [Fact]
    public void What_was_done_needs_nothing_before_it_any_more()
    {
        var record = Written.Record.With("events/e.yaml", "- {id: E-1, on: 2026-06-01, what: removed, of: [C-1]}\n").With(
            "frames/f.yaml", "- {id: R1, name: One}\n- {id: R2, name: Two}\n- {id: R3, name: Three}\n").Cables(
            "id: C-1, kind: coax, ends: [{at: R1}, {at: R2}]",
            "id: C-2, kind: coax, ends: [{at: R2}, {at: R2}], lies_over: [C-1, C-3]",
            "id: C-3, kind: coax, ends: [{at: R3}, {at: R3}]").Read();
        Assert.All(record.Cables, cable => Assert.Equal(2, cable.Ends.Length));
        var whole = DecablingOrder.Compute(record, LabelReadings.From(record), FrozenSet<string>.Empty);
        Assert.Equal(["C-1 Done", " Waiting"], whole.For("R1").Steps.Select(step => $"{step.Cable?.Id} {step.State.Status}"));
        Assert.Equal(
            ["C-2 Open", "C-3 Waiting", " Waiting"], whole.For("R3").Steps.Select(step => $"{step.Cable?.Id} {step.State.Status}"));
        Assert.Equal([PreconditionKind.Licensed], whole.For("R1").Steps[^1].State.WaitsFor.Select(each => each.Kind));
    }

    private static (Dictionary<string, int> Off, Dictionary<string, int> Pulled) Turns(DecablingOrder order)
    {
        var (off, pulled) = (new Dictionary<string, int>(), new Dictionary<string, int>());
        foreach (var step in order.Steps.Where(step => step.Cable is not null))
        {
            if (step.Disconnects) off.Add(step.Cable!.Id, step.Number);
            if (step.Pulls) pulled.Add(step.Cable!.Id, step.Number);
        }

        return (off, pulled);
    }

    // The rules in this test's own words; which frames an earth is an earth of has tests of its own.
    private static bool MustComeOffFirst(ArchiveModel record, LabelReadings readings, Cable one, Cable other)
    {
        var (first, second) = (RoleOf(one), RoleOf(other));
        if (first == CableRole.Outside && second != CableRole.Outside) return true;
        if (first is CableRole.Feeder or CableRole.Unknown && second is CableRole.Signal or CableRole.Earth) return true;
        if (second != CableRole.Earth) return false;
        var earths = EarthTree.From(record, readings);
        return FramesOf(readings.Find(one.Id)!).Intersect(earths.FramesOf(other.Id))
            .Any(frame => earths.RoleAt(frame, one.Id, first) != CableRole.Earth);
    }

    private static bool LiesOver(ArchiveModel record, string one, string other)
    {
        var (seen, open) = (new HashSet<string>(), new Stack<string>([one]));
        while (open.TryPop(out var next))
        {
            if (next == other) return true;
            if (!seen.Add(next) || record.Find<Cable>(next) is not { Owner: null } cable || cable.Fate?.Value == Fate.Leave) continue;
            foreach (var under in cable.LiesOver) open.Push(under.Value);
        }

        return false;
    }

    private static CableRole RoleOf(Cable cable) => cable.Kind?.Value switch
    {
        "feeder" => CableRole.Feeder,
        "line" => CableRole.Outside,
        "earth" => CableRole.Earth,
        "coax" => CableRole.Signal,
        _ => CableRole.Unknown,
    };

    private static IEnumerable<string> FramesOf(CableReading reading) => reading.Ends.Select(end => end.At.Frame).Distinct();

    private static CableKind[] Kinds =>
        [
            Made.Kind("coax", CableFamily.Coax),
            Made.Kind("feeder", CableFamily.Power),
            Made.Kind("earth", CableFamily.Earth),
            Made.Kind("line", CableFamily.Pairs) with { Hazards = [Made.Said(Hazard.OutsideLine)] }
        ];

    private static Cable Cable(string id, string? kind, IEnumerable<string> frames, params IEnumerable<string> over) =>
        Made.Cable(id, over) with { Kind = kind is null ? null : Made.Said(kind), Ends = [.. frames.Select(Made.End)] };

    private static ArchiveModel Record((int Kind, int[] Ends, int Fate)[] cables, (int Over, int Under)[] over) => Made.Record(
    [
        .. Kinds,
        .. Enumerable.Range(0, Frames).Select(n => Made.Frame($"R{n}")),
        .. cables.Select((cable, n) => Cable(
            $"C-{n:00}",
            KindIds[cable.Kind],
            cable.Ends.Select(frame => $"R{frame}"),
            over.Where(pair => pair.Over == n && pair.Under != n).Select(pair => $"C-{pair.Under:00}").Distinct()) with
        {
            Fate = cable.Fate == 0 ? Made.Said(Fate.Leave) : null,
            Owner = cable.Fate == 1 ? Made.Said("the host") : null,
        }),
    ]);
}

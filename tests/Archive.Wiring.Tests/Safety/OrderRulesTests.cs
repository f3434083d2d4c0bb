using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Decabling;
using Archive.Wiring.Labels;
using Archive.Wiring.Reconnecting;
using Archive.Wiring.Safety;
using CsCheck;
using Xunit;

namespace Archive.Wiring.Tests.Safety;

/// <summary>No list breaks the sentence that it states: found by looking at every pair of steps, and not as the lists find it.</summary>
public sealed class OrderRulesTests
{
    private const int Frames = 4;
    private static readonly string?[] KindIds = ["coax", "coax", "feeder", "earth", "earth", "unsaid", "line", null];

    private static readonly Gen<(ArchiveModel Record, bool[] Picked)> Archives =
        from cables in Gen.Select(Gen.Int[0, KindIds.Length - 1], Gen.Int[0, Frames - 1].Array[0, 3], Gen.Int[0, 7]).Array[1, 14]
        from picked in Gen.Bool.Array[cables.Length]
        from over in Gen.Select(Gen.Int[0, cables.Length - 1], Gen.Int[0, cables.Length - 1]).Array[0, 2 * cables.Length]
        select (Record(cables, over), picked);

    [Fact]
    public void Connecting_puts_earth_first_and_feeders_last_and_the_sentences_say_so()
    {
        CableRole[] order = [.. Enum.GetValues<CableRole>().OrderBy(role => OrderRules.Connecting.Rank(role)).ThenBy(role => role)];
        Assert.Equal([CableRole.Earth, CableRole.Signal, CableRole.Unknown, CableRole.Feeder, CableRole.Outside], order);
        Assert.Equal("earth first, then signal and control, feeders last, outside lines last of all", OrderRules.ConnectingOrder);
        Assert.Equal(
            ["Earth goes on first", "Feeders go on last", "Outside lines go on last of all"],
            OrderRules.Connecting.Select(rule => rule.Title));
        Assert.Equal(
            ["Outside lines come off first", "Feeders come off next", "Earth comes off last"],
            OrderRules.Disconnecting.Select(rule => rule.Title));
    }

    [Fact]
    public void No_re_connection_list_breaks_a_rule_that_it_states() => Archives.Sample(drawn =>
    {
        var (record, picked) = drawn;
        var readings = LabelReadings.From(record);
        var back = ReconnectionOrder.Compute(record, readings);
        Holds(readings, back, back.Cables);
        for (var frame = 0; frame < Frames; frame++) Holds(readings, back, back.At($"R{frame}"));
        Holds(readings, back, [.. back.Among(back.Cables.Where((_, index) => picked[index]).Select(laid => laid.Cable.Id).ToHashSet())]);
    });

    /// <summary>
    /// Whatever lies over whatever: no cable is disconnected against a rule, and none is pulled before it is off or from under another.
    /// </summary>
    [Fact]
    public void Taking_out_breaks_neither_the_rules_for_ends_nor_what_lies_on_what() => Archives.Sample(drawn =>
    {
        var readings = LabelReadings.From(drawn.Record);
        var order = DecablingOrder.Compute(drawn.Record, readings, FrozenSet<string>.Empty);
        var (off, pulled) = (new Dictionary<string, int>(), new Dictionary<string, int>());
        foreach (var step in order.Steps)
        {
            var id = step.Cable!.Id;
            if (step.Disconnects) Assert.True(off.TryAdd(id, step.Number), $"{id} is disconnected twice");
            if (step.Pulls) Assert.True(pulled.TryAdd(id, step.Number), $"{id} is pulled twice");
        }

        Assert.Equal(drawn.Record.Cables.Select(cable => cable.Id).Order(), off.Keys.Order());
        Assert.Equal(
            drawn.Record.Cables.Where(cable => cable.Fate?.Value != Fate.Leave).Select(cable => cable.Id).Order(), pulled.Keys.Order());
        Assert.All(pulled, pull => Assert.True(off[pull.Key] <= pull.Value, $"{pull.Key} is pulled before it is off"));
        foreach (var one in drawn.Record.Cables)
        {
            foreach (var other in drawn.Record.Cables.Where(other => other != one && MustComeOffFirst(readings, one, other)))
            {
                Assert.True(off[one.Id] < off[other.Id], $"{one.Id} comes off before {other.Id}");
            }

            foreach (var under in one.LiesOver
                .Select(under => under.Value)
                .Where(under => pulled.ContainsKey(under) && pulled.ContainsKey(one.Id) && !LiesOver(drawn.Record, under, one.Id)))
            {
                Assert.True(pulled[one.Id] < pulled[under], $"{one.Id} lies over {under}");
            }
        }
    });

    [Fact]
    public void An_earth_that_lies_over_its_feeder_is_pulled_first_and_disconnected_last()
    {
        var record = Made.Record([
            .. Kinds,
            Made.Frame("R0"),
            Made.Frame("R1"),
            Cable("C-1", "feeder", ["R0", "R1"]),
            Cable("C-2", "earth", ["R0", "R1"], "C-1"),
            Cable("C-3", "coax", ["R1"])
        ]);
        var readings = LabelReadings.From(record);
        var off = DecablingOrder.Compute(record, readings, FrozenSet<string>.Empty).Steps;
        Assert.Equal(["Disconnect C-1", "TakeOut C-3", "TakeOut C-2", "Pull C-1"], off.Select(step => $"{step.Action} {step.Cable!.Id}"));
        var on = ReconnectionOrder.Compute(record, readings);
        Assert.Equal(["C-2", "C-3", "C-1"], on.Cables.Select(laid => laid.Cable.Id));
        Assert.Equal(["C-1"], on.List(on.Cables)[0].LayBefore);
    }

    /// <summary>The board's earth is its own, not those of the frames that are earthed through it.</summary>
    [Fact]
    public void Earths_form_a_tree_from_where_one_leaves_the_record()
    {
        var record = Made.Record(
        [
            .. Kinds, Made.Frame("R0"), Made.Frame("R1"), Made.Frame("R2"), Made.Frame("R3"),
            Cable("C-1", "earth", ["R0"]),
                Cable("C-2", "earth", ["R0", "R1"]),
                Cable("C-3", "earth", ["R2", "R1"]),
                Cable("C-4", "earth", ["R3", "R0"]),
                Cable("C-5", "coax", ["R0", "R2"]),
            ]);
        var readings = LabelReadings.From(record);
        var tree = EarthTree.From(record, readings);
        Assert.Equal(["R0", "R1", "R2", "R3"], record.Cables.Take(4).Select(cable => Assert.Single(tree.FramesOf(cable.Id))));
        var off = DecablingOrder.Compute(record, readings, FrozenSet<string>.Empty).Steps
            .ToDictionary(step => step.Cable!.Id, step => step.Number);
        Assert.True(off["C-5"] < off["C-3"] && off["C-3"] < off["C-2"] && off["C-2"] < off["C-1"] && off["C-4"] < off["C-1"]);
        Assert.Equal(["C-1", "C-2", "C-4", "C-3", "C-5"], ReconnectionOrder.Compute(record, readings).Cables.Select(laid => laid.Cable.Id));
    }

    /// <summary>Where no earth leads out of the record, each counts as an earth of both its frames.</summary>
    [Fact]
    public void Without_a_way_out_every_earth_is_one_of_both_its_frames()
    {
        var record = Made.Record([.. Kinds, Made.Frame("R0"), Made.Frame("R1"), Cable("C-1", "earth", ["R0", "R1"])]);
        Assert.Equal(["R0", "R1"], EarthTree.From(record, LabelReadings.From(record)).FramesOf("C-1"));
    }

    [Fact]
    public void What_belongs_to_others_is_no_step_and_a_battery_is_the_first()
    {
        var battery = Made.Frame("R1") with { Hazards = [Made.Said(Hazard.LeadAcidBattery)] };
        var record = Made.Record([
            .. Kinds,
            Made.Frame("R0"),
            battery,
            Cable("C-1", "coax", ["R0", "R1"]) with { Owner = Made.Said("the host") },
            Cable("C-2", "coax", ["R0", "R1"]),
            Cable("C-3", "line", ["R0"])
        ]);
        var steps = DecablingOrder.Compute(record, LabelReadings.From(record), FrozenSet<string>.Empty).Steps;
        Assert.Equal(
            ["MakeSafe R1", "Disconnect C-3", "TakeOut C-2", "Pull C-3"],
            steps.Select(step => $"{step.Action} {step.Cable?.Id ?? step.Frame!.Id}"));
    }

    [Fact]
    public void The_earth_of_the_other_end_is_named_where_it_is_on_another_list()
    {
        var record = Made.Record([
            .. Kinds,
            .. Enumerable.Range(0, 3).Select(n => Made.Frame($"R{n}")),
            Cable("C-1", "earth", ["R0"]),
            Cable("C-2", "coax", ["R1", "R0"]),
            Cable("C-3", "coax", ["R1", "R0"]),
            Cable("C-4", "feeder", ["R1", "R2"])
        ]);
        var back = ReconnectionOrder.Compute(record, LabelReadings.From(record));
        Assert.Equal(["C-2 R1:0 R0:1 C-1", "C-3", "C-4 R2:0"], back.List(back.At("R1")).Select(step => string.Join(' ', step.EarthsBefore
            .Select(earth => $"{earth.Frame}:{earth.Count} {string.Join(' ', earth.Cables)}".TrimEnd())
            .Prepend(step.Laid.Cable.Id))));
    }

    private static void Holds(LabelReadings readings, ReconnectionOrder back, ImmutableArray<RefittedCable> cables)
    {
        var list = back.List(cables);
        Assert.Equal(cables.Select(laid => laid.Cable.Id), list.Select(step => step.Laid.Cable.Id));
        for (var at = 0; at < list.Length; at++)
        {
            var (step, before) = (list[at], list.Take(at).Select(earlier => earlier.Laid.Cable.Id).ToHashSet());
            foreach (var later in list.Skip(at + 1))
            {
                Assert.DoesNotContain(OrderRules.Connecting, rule => !rule.IsPerFrame
                    && rule.PutsBefore(RoleOf(later.Laid.Cable), RoleOf(step.Laid.Cable)));
            }

            // Whatever is connected to a frame: its earths are on, or the list has said which are to be on.
            foreach (var frame in RoleOf(step.Laid.Cable) == CableRole.Earth
                ? FramesOf(step.Laid.Reading).Except(EarthTreeOf(readings, step.Laid.Cable))
                : FramesOf(step.Laid.Reading))
            {
                var earths = back.At(frame)
                    .Where(laid => RoleOf(laid.Cable) == CableRole.Earth && EarthTreeOf(readings, laid.Cable).Contains(frame))
                    .Select(laid => laid.Cable.Id)
                    .ToList();
                var missing = earths.Where(earth => !before.Contains(earth)).ToHashSet();
                var said = list.Take(at + 1).SelectMany(earlier => earlier.EarthsBefore).Where(earth => earth.Frame == frame).ToList();
                Assert.Equal(earths.Count == 0 || missing.Count > 0 ? 1 : 0, said.Count);
                foreach (var earth in said)
                {
                    Assert.Equal(missing.Count, earth.Count);
                    Assert.Equal(Math.Min(missing.Count, EarthBefore.MostNamed), earth.Cables.Length);
                    Assert.Subset(missing, earth.Cables.ToHashSet());
                }
            }

            // Of one role the lowest comes first; what else lay under and is no step before it is named.
            var beneath = step.Laid.Cable.LiesOver
                .Select(under => under.Value)
                .Where(under => !before.Contains(under) && !step.Laid.Lift.Cables.Any(cable => cable.Id == under))
                .ToHashSet();
            Assert.Equal(beneath, step.LayBefore.ToHashSet());
            Assert.DoesNotContain(list.Skip(at + 1), later => later.Laid.Role == step.Laid.Role
                && later.Laid.Role != CableRole.Earth
                && beneath.Contains(later.Laid.Cable.Id));
        }
    }

    // The rules in this test's own words; an earth counts for the frames that the tree gives it, which has a test of its own.
    private static bool MustComeOffFirst(LabelReadings readings, Cable one, Cable other)
    {
        var (first, second) = (RoleOf(one), RoleOf(other));
        if (first == CableRole.Outside && second != CableRole.Outside) return true;
        if (first is CableRole.Feeder or CableRole.Unknown && second is CableRole.Signal or CableRole.Earth) return true;
        return second == CableRole.Earth && first != CableRole.Earth && first != CableRole.Outside
            && FramesOf(readings.Find(one.Id)!)
                .Intersect(FramesOf(readings.Find(other.Id)!))
                .Any(frame => EarthTreeOf(readings, other).Contains(frame));
    }

    // The frames that an earth is one of: farthest from where an earth leaves the record.
    private static IEnumerable<string> EarthTreeOf(LabelReadings readings, Cable earth)
    {
        var earths = readings.Cables
            .Where(reading => RoleOf(reading.Cable) == CableRole.Earth)
            .Select(reading => FramesOf(reading).ToList())
            .ToList();
        var far = Enumerable.Range(0, Frames)
            .ToDictionary(frame => $"R{frame}", frame => earths.Exists(frames => frames.Count == 1 && frames[0] == $"R{frame}") ? 0 : 99);
        for (var again = 0; again < Frames; again++)
        {
            foreach (var frames in earths.Where(frames => frames.Count > 0))
            {
                var least = frames.Min(frame => far[frame]);
                foreach (var frame in frames) far[frame] = Math.Min(far[frame], least + 1);
            }
        }

        var own = FramesOf(readings.Find(earth.Id)!).ToList();
        return own.Count == 0 || own.TrueForAll(frame => far[frame] == far[own[0]])
            ? own
            : own.Where(frame => far[frame] > own.Min(each => far[each]));
    }

    private static bool LiesOver(ArchiveModel record, string one, string other)
    {
        var (seen, open) = (new HashSet<string>(), new Stack<string>([one]));
        while (open.TryPop(out var next))
        {
            if (next == other) return true;
            if (!seen.Add(next) || record.Find<Cable>(next) is not { } cable || cable.Fate?.Value == Fate.Leave) continue;
            foreach (var under in cable.LiesOver) open.Push(under.Value);
        }

        return false;
    }

    // As the record says it, in this test's own words.
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
            Made.Kind("unsaid", CableFamily.Other) with { Family = null },
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
        }),
    ]);
}

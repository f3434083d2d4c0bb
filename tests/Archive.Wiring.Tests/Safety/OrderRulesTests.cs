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
    private static readonly string?[] KindIds = ["coax", "coax", "feeder", "earth", "unsaid", null];

    private static readonly Gen<(ArchiveModel Record, bool[] Picked)> Archives =
        from cables in Gen.Select(Gen.Int[0, KindIds.Length - 1], Gen.Int[0, Frames - 1].Array[0, 3], Gen.Int[0, 7]).Array[1, 14]
        from picked in Gen.Bool.Array[cables.Length]
        from over in Gen.Select(Gen.Int[0, cables.Length - 1], Gen.Int[0, cables.Length - 1]).Array[0, 2 * cables.Length]
        select (Record(cables, over), picked);

    [Fact]
    public void Connecting_puts_earth_first_and_feeders_last_and_the_sentences_say_so()
    {
        CableRole[] order = [.. Enum.GetValues<CableRole>().OrderBy(role => OrderRules.Connecting.Rank(role)).ThenBy(role => role)];
        Assert.Equal([CableRole.Earth, CableRole.Signal, CableRole.Unknown, CableRole.Feeder], order);
        Assert.Equal("earth first, then signal and control, feeders last", OrderRules.ConnectingOrder);
        Assert.Equal(["Earth goes on first", "Feeders go on last"], OrderRules.Connecting.Select(rule => rule.Title));
        Assert.Equal(["Feeders come off first", "Earth comes off last"], OrderRules.Disconnecting.Select(rule => rule.Title));
    }

    [Fact]
    public void No_re_connection_list_breaks_a_rule_that_it_states() => Archives.Sample(drawn =>
    {
        var (record, picked) = drawn;
        var readings = LabelReadings.From(record);
        var back = ReconnectionOrder.Compute(record, readings);
        Holds(back, back.Cables);
        for (var frame = 0; frame < Frames; frame++) Holds(back, back.At($"R{frame}"));
        Holds(back, [.. back.Among(back.Cables.Where((_, index) => picked[index]).Select(laid => laid.Cable.Id).ToHashSet())]);
    });

    [Fact]
    public void Decabling_says_at_each_step_which_rule_it_breaks_and_for_how_many_cables()
    {
        var broken = 0;
        Archives.Sample(drawn =>
        {
            var steps = DecablingOrder.Compute(drawn.Record, LabelReadings.From(drawn.Record), FrozenSet<string>.Empty).Steps;
            for (var at = 0; at < steps.Length; at++)
            {
                var step = steps[at];
                var expected = OrderRules.Disconnecting
                    .SelectMany(rule => rule.IsPerFrame ? FramesOf(step.Reading).Select(frame => (Rule: rule, Frame: (string?)frame)) : [(rule, null)])
                    .Select(place => (place.Rule.Title, place.Frame, Waiting: steps.Skip(at + 1).Where(later => MustComeFirst(place.Rule, later, step) && (place.Frame is null || FramesOf(later.Reading).Contains(place.Frame))).Select(later => later.Cable.Id).ToList()))
                    .Where(place => place.Waiting.Count > 0).ToList();
                Assert.Equal(expected.Select(place => (place.Title, place.Frame, place.Waiting.Count)), step.Breaks.Select(found => (found.Rule.Title, found.Frame, found.Waiting)));
                foreach (var (found, place) in step.Breaks.Zip(expected))
                {
                    Assert.Subset(place.Waiting.ToHashSet(), found.Named.ToHashSet());
                    var beneath = place.Waiting.Intersect(step.Cable.LiesOver.Select(under => under.Value)).ToHashSet();
                    Assert.Equal(beneath.Count > 0, found.LiesOver);
                    Assert.Equal(beneath.Count > 0 ? beneath : [place.Waiting[0]], found.Named.ToHashSet());
                }

                Interlocked.Add(ref broken, step.Breaks.Length);
            }
        });
        Assert.True(broken > 0, "no random archive made a step break a rule");
    }

    [Fact]
    public void An_earth_that_lies_over_its_feeder_comes_off_before_it_and_says_so_and_goes_on_before_it()
    {
        var record = Made.Record([.. Kinds, Made.Frame("R0"), Made.Frame("R1"), Cable("C-1", "feeder", ["R0", "R1"]), Cable("C-2", "earth", ["R0", "R1"], "C-1"), Cable("C-3", "coax", ["R1"])]);
        var readings = LabelReadings.From(record);
        var off = DecablingOrder.Compute(record, readings, FrozenSet<string>.Empty).Steps;
        Assert.Equal(["C-2", "C-1", "C-3"], off.Select(step => step.Cable.Id));
        Assert.Equal(
            [("Feeders come off first", null, 1, "C-1"), ("Earth comes off last", "R0", 1, "C-1"), ("Earth comes off last", "R1", 2, "C-1")],
            off[0].Breaks.Select(found => (found.Rule.Title, found.Frame, found.Waiting, Assert.Single(found.Named))));
        var on = ReconnectionOrder.Compute(record, readings);
        Assert.Equal(["C-2", "C-3", "C-1"], on.Cables.Select(laid => laid.Cable.Id));
        Assert.Equal(["C-1"], on.List(on.Cables)[0].LayBefore);
    }

    [Fact]
    public void The_earth_of_the_other_end_is_named_where_it_is_on_another_list()
    {
        var record = Made.Record([.. Kinds, .. Enumerable.Range(0, 3).Select(n => Made.Frame($"R{n}")), Cable("C-1", "earth", ["R0"]), Cable("C-2", "coax", ["R1", "R0"]), Cable("C-3", "coax", ["R1", "R0"]), Cable("C-4", "feeder", ["R1", "R2"])]);
        var back = ReconnectionOrder.Compute(record, LabelReadings.From(record));
        Assert.Equal(["C-2 R1:0 R0:1 C-1", "C-3", "C-4 R2:0"], back.List(back.At("R1")).Select(step => string.Join(' ', step.EarthsBefore.Select(earth => $"{earth.Frame}:{earth.Count} {string.Join(' ', earth.Cables)}".TrimEnd()).Prepend(step.Laid.Cable.Id))));
    }

    private static void Holds(ReconnectionOrder back, ImmutableArray<RefittedCable> cables)
    {
        var list = back.List(cables);
        Assert.Equal(cables.Select(laid => laid.Cable.Id), list.Select(step => step.Laid.Cable.Id));
        for (var at = 0; at < list.Length; at++)
        {
            var (step, before) = (list[at], list.Take(at).Select(earlier => earlier.Laid.Cable.Id).ToHashSet());
            foreach (var later in list.Skip(at + 1))
            {
                Assert.DoesNotContain(OrderRules.Connecting, rule => rule.PutsBefore(RoleOf(later.Laid.Cable), RoleOf(step.Laid.Cable)));
            }

            // Whatever is connected to a frame: its earths are on, or the list has said which are to be on.
            foreach (var frame in RoleOf(step.Laid.Cable) == CableRole.Earth ? [] : FramesOf(step.Laid.Reading))
            {
                var earths = back.At(frame).Where(laid => RoleOf(laid.Cable) == CableRole.Earth).Select(laid => laid.Cable.Id).ToList();
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

            // Of one role the lowest comes first; what else lay beneath and is no step before it is named.
            var beneath = step.Laid.Cable.LiesOver.Select(under => under.Value).Where(under => !before.Contains(under) && !step.Laid.Lift.Cables.Any(cable => cable.Id == under)).ToHashSet();
            Assert.Equal(beneath, step.LayBefore.ToHashSet());
            Assert.DoesNotContain(list.Skip(at + 1), later => later.Laid.Role == step.Laid.Role && beneath.Contains(later.Laid.Cable.Id));
        }
    }

    private static bool MustComeFirst(OrderRule rule, DecablingStep one, DecablingStep other) => rule.Title switch
    {
        "Feeders come off first" => one.Family == CableFamily.Power && other.Family != CableFamily.Power,
        "Earth comes off last" => one.Family != CableFamily.Earth && other.Family == CableFamily.Earth,
        _ => throw new InvalidOperationException(rule.Title),
    };

    // As the record says it, in this test's own words.
    private static CableRole RoleOf(Cable cable) => cable.Kind?.Value switch
    {
        "feeder" => CableRole.Feeder,
        "earth" => CableRole.Earth,
        "coax" => CableRole.Signal,
        _ => CableRole.Unknown,
    };

    private static IEnumerable<string> FramesOf(CableReading reading) => reading.Ends.Select(end => end.At.Frame).Distinct();

    private static CableKind[] Kinds => [Made.Kind("coax", CableFamily.Coax), Made.Kind("feeder", CableFamily.Power), Made.Kind("earth", CableFamily.Earth), Made.Kind("unsaid", CableFamily.Other) with { Family = null }];

    private static Cable Cable(string id, string? kind, IEnumerable<string> frames, params IEnumerable<string> over) =>
        Made.Cable(id, over) with { Kind = kind is null ? null : Made.Said(kind), Ends = [.. frames.Select(Made.End)] };

    private static ArchiveModel Record((int Kind, int[] Ends, int Fate)[] cables, (int Over, int Under)[] over) => Made.Record(
    [
        .. Kinds,
        .. Enumerable.Range(0, Frames).Select(n => Made.Frame($"R{n}")),
        .. cables.Select((cable, n) => Cable($"C-{n:00}", KindIds[cable.Kind], cable.Ends.Select(frame => $"R{frame}"), over.Where(pair => pair.Over == n && pair.Under != n).Select(pair => $"C-{pair.Under:00}").Distinct()) with
        {
            Fate = cable.Fate == 0 ? Made.Said(Fate.Leave) : null,
        }),
    ]);
}

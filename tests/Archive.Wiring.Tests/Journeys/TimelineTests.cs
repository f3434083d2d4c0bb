using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Wiring.Journeys;
using CsCheck;
using Xunit;

namespace Archive.Wiring.Tests.Journeys;

/// <summary>
/// What can have gone before what, against the plain definitions, which go through all events for each; and that it does not grow so.
/// </summary>
public sealed class TimelineTests
{
    private static readonly EventType[] Whats =
    [
        EventType.Loaded, EventType.Arrived, EventType.Stood, EventType.FoundMissing, EventType.Inspected
    ];

    private static readonly Gen<ImmutableArray<ArchiveEvent>> Events =
        Gen.Select(Gen.Int[0, Whats.Length - 1], Gen.Int[0, 12], Gen.Int[0, 4], Gen.Bool).Array[0, 14].Select(all =>
            all.OrderBy(each => each.Item2)
                .Select((each, i) => Event(i, Whats[each.Item1], each.Item2, each.Item2 + each.Item3, each.Item4))
                .ToImmutableArray());

    [Fact]
    public void Unloaded_arrivals_are_those_of_the_definition() => Events.Sample(
        all =>
        {
            var timeline = new Timeline(all);
            foreach (var one in all)
            {
                var isUnloaded = one.What?.Value == EventType.Arrived
                    && all.Count(other => other.What?.Value == EventType.Loaded
                        && MayGoBefore(other, one)) <= all.Count(other => other.What?.Value == EventType.Arrived && GoesBefore(other, one));
                Assert.Equal(isUnloaded, timeline.IsArrivalUnloaded(one));
            }
        },
        iter: 5_000);

    [Fact]
    public void What_is_on_the_road_is_that_of_the_definition() => Events.Sample(
        all =>
        {
            var timeline = new Timeline(all);
            foreach (var one in all)
            {
                var since = all.LastOrDefault(loaded => loaded.What?.Value == EventType.Loaded && GoesBefore(loaded, one)
                    && !all.Any(seen =>
                        !ReferenceEquals(seen, one) && Journey.ShowsPlace(seen) && MayGoBefore(seen, one) && MayGoBefore(loaded, seen)));
                Assert.Equal(since?.Id, timeline.OnTheRoadSince(one)?.Id);
            }
        },
        iter: 5_000);

    // The definitions would go through 10^10 pairs.
    [Fact]
    public void A_frame_to_which_a_hundred_thousand_things_happened()
    {
        var events = Enumerable.Range(0, 100_000)
            .Select(i => Event(i, i % 2 == 0 ? EventType.Loaded : EventType.Arrived, i, i, false) with { Of = [new("F-1", Nowhere)] });
        var record = ArchiveModel.From(
            new ArchiveStatement { Span = Nowhere }, [new Frame { Id = "F-1", IdSpan = Nowhere, Span = Nowhere }, .. events]);
        Assert.Empty(JourneyChecks.Check(record));
        Assert.Equal(Situation.Arrived, JourneyIndex.From(record).All.Single().Situation);
    }

    // Each thing was looked for from the beginning of the list.
    [Fact]
    public void An_event_of_a_hundred_thousand_things()
    {
        ImmutableArray<Stated<string>> all = [.. Enumerable.Range(0, 100_000).Select(i => new Stated<string>($"F-{i}", Nowhere))];
        var arrival = Event(0, EventType.Arrived, 0, 0, false) with { Of = all };
        var record = ArchiveModel.From(
            new ArchiveStatement { Span = Nowhere },
            [.. all.Select(of => new Frame { Id = of.Value, IdSpan = Nowhere, Span = Nowhere }), arrival]);
        Assert.Equal(DiagnosticList.MostPerFile + 1, JourneyChecks.Check(record).Length);
    }

    private static readonly SourceSpan Nowhere = new SourceText("events/e.yaml", "E").Whole;

    private static bool GoesBefore(ArchiveEvent one, ArchiveEvent other) => EventHistory.Latest(one) < EventHistory.Earliest(other);

    private static bool MayGoBefore(ArchiveEvent one, ArchiveEvent other) =>
        !ReferenceEquals(one, other) && EventHistory.Earliest(one) <= EventHistory.Latest(other);

    private static ArchiveEvent Event(int number, EventType what, int from, int to, bool hasHall)
    {
        var first = new DateOnly(1926, 6, 1);
        Assert.True(EdtfDate.TryParse($"{first.AddDays(from):yyyy-MM-dd}/{first.AddDays(to):yyyy-MM-dd}", out var date, out _));
        return new ArchiveEvent
        {
            Id = $"E-{number:D6}",
            IdSpan = Nowhere,
            Span = Nowhere,
            On = new(date!, Nowhere),
            What = new(what, Nowhere),
            ToHall = hasHall ? new("h", Nowhere) : null,
        };
    }
}

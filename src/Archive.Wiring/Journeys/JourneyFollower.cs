using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Journeys;

/// <summary>Follows things through their events, and boxes with what is in them.</summary>
/// <remarks>
/// What happens to a box is never copied to its content: how a box was at any turn is looked up in its own journey, which costs the
/// logarithm of its events, once for each box around it.
/// </remarks>
internal sealed class JourneyFollower
{
    private readonly ArchiveModel _record;
    private readonly FrozenDictionary<string, ImmutableArray<ArchiveEvent>> _events;
    private readonly string? _hall;

    // The turn of each event, where boxes are used; and the last at which something came out of each box.
    private readonly Dictionary<ArchiveEvent, int> _turns = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<string, int> _opened = new(StringComparer.Ordinal);

    // How each box was after each of its events; null while that is being found out.
    private readonly Dictionary<string, List<(int Turn, Journey Then)>?> _boxes = new(StringComparer.Ordinal);

    public JourneyFollower(
        ArchiveModel record, FrozenDictionary<string, ImmutableArray<ArchiveEvent>> events, ImmutableArray<BoxStay> stays)
    {
        (_record, _events, _hall) = (record, events, record.AsFoundHall?.Id);
        if (stays.IsEmpty) return;
        foreach (var archiveEvent in EventHistory.InOrder(record)) _turns[archiveEvent] = _turns.Count;
        foreach (var stay in stays)
        {
            if (stay.Out is { What.Value: EventType.Unpacked } unpacked)
                _opened[stay.Box] = Math.Max(_opened.GetValueOrDefault(stay.Box, -1), TurnOf(unpacked));
        }
    }

    /// <summary>The journey of a thing until now.</summary>
    public Journey Follow(ArchiveRecord thing) => InBox(Follow(thing, null, 0), int.MaxValue, 0);

    private Journey Follow(ArchiveRecord thing, List<(int Turn, Journey Then)>? turns, int depth)
    {
        var journey = new Journey(thing, _events.GetValueOrDefault(thing.Id, [])) { Hall = _hall };

        // How it stood before it was last loaded or missed.
        var before = Situation.Arrived;
        var timeline = new Timeline(journey.Events);
        var ends = EndConnections.Nothing(_record);
        turns?.Add((-1, journey));
        foreach (var archiveEvent in journey.Events)
        {
            ends.Note(journey, archiveEvent);
            var box = BoxStay.BoxAfter(_record, journey.Box, archiveEvent);

            // What leaves a box was wherever the box was.
            if (box != journey.Box) journey = InBox(journey, TurnOf(archiveEvent), depth) with { IsToBeFound = false };
            var next = Next(journey, archiveEvent, before, ends);
            if (next.Situation is Situation.OnTheRoad or Situation.Missing && ReferenceEquals(next.Since, archiveEvent))
            {
                before = journey.Situation is Situation.OnTheRoad or Situation.Missing ? Situation.Arrived : journey.Situation;
            }

            journey = next with
            {
                Box = box,
                PackedAt = box == journey.Box ? journey.PackedAt : TurnOf(archiveEvent),
                ArrivedAt = archiveEvent.What?.Value switch
                {
                    EventType.Arrived => TurnOf(archiveEvent),
                    EventType.Loaded or EventType.Packed => -1,
                    _ => journey.ArrivedAt,
                },
            };
            turns?.Add((TurnOf(archiveEvent), journey));
        }

        return journey with { NeverLoaded = [.. journey.Events.Where(timeline.IsArrivalUnloaded)] };
    }

    // A thing as it is at a turn, by what happened to the box that it is in since it, or the thing itself, was last seen.
    private Journey InBox(Journey journey, int turn, int depth)
    {
        var known = Math.Max(journey.PackedAt, journey.Since is { } seen ? TurnOf(seen) : -1);
        if (journey.Box is not { } id || depth > BoxStay.MostNested || BoxAt(id, turn, depth + 1) is not { Since: { } since } box
            || TurnOf(since) <= known) return journey;
        var situation = box.Situation switch
        {
            Situation.OnTheRoad or Situation.Missing => box.Situation,
            // A box may have come out of its crate since: what was packed into it after it had arrived is only packed.
            Situation.Arrived or Situation.Unpacked or Situation.Stood when box.ArrivedAt > known => Situation.Arrived,
            _ => journey.Situation,
        };
        return journey with
        {
            Situation = situation,
            Hall = box.Hall,
            Place = box.Place,
            Since = since,
            ArrivedAt = box.ArrivedAt,
            IsToBeFound = situation == Situation.Arrived
                && (box.IsToBeFound || _opened.GetValueOrDefault(id, -1) > box.ArrivedAt),
        };
    }

    private Journey? BoxAt(string id, int turn, int depth)
    {
        if (depth > BoxStay.MostNested || TurnsOf(id, depth) is not { } turns) return null;
        int low = 0, high = turns.Count - 1;
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            if (turns[middle].Turn < turn) low = middle;
            else high = middle - 1;
        }

        return InBox(turns[low].Then, turn, depth);
    }

    // None for a box that is inside itself.
    private List<(int Turn, Journey Then)>? TurnsOf(string id, int depth)
    {
        if (_boxes.TryGetValue(id, out var known)) return known;
        _boxes[id] = null;
        var turns = new List<(int Turn, Journey Then)>();
        Follow(_record.Find<Box>(id)!, turns, depth);
        return _boxes[id] = turns;
    }

    private int TurnOf(ArchiveEvent archiveEvent) => _turns.GetValueOrDefault(archiveEvent, -1);

    private static Journey Next(Journey journey, ArchiveEvent archiveEvent, Situation before, EndConnections ends)
    {
        var stand = archiveEvent.What?.Value switch
        {
            // One end alone says nothing of where the cable is.
            EventType.Disconnected when !EndConnections.IsWhole(journey, archiveEvent)
                && journey.Situation is not (Situation.AsFound or Situation.Connected) => journey.Situation,
            EventType.Connected when !EndConnections.IsWhole(journey, archiveEvent)
                && !(journey.Of is Cable cable && ends.AreConnected(cable)) => journey.Situation,
            EventType.Disconnected => Situation.Disconnected,
            EventType.Removed => Situation.Removed,
            EventType.Coiled => Situation.Coiled,
            EventType.Severed => Situation.Severed,
            EventType.Packed => Situation.Packed,
            EventType.Loaded => Situation.OnTheRoad,
            EventType.Arrived => Situation.Arrived,
            EventType.Unpacked => Situation.Unpacked,
            EventType.Stood => Situation.Stood,
            EventType.Fixed => Situation.Fixed,
            EventType.Laid => Situation.Laid,
            EventType.Refitted => Situation.Refitted,
            EventType.Connected => Situation.Connected,
            EventType.FoundMissing => Situation.Missing,
            // Seen at a place, it is neither in transit nor missing; how it is there is not said again.
            _ when Journey.ShowsPlace(archiveEvent) && journey.Situation is Situation.OnTheRoad or Situation.Missing => before,
            _ => journey.Situation,
        };
        if (stand is Situation.OnTheRoad or Situation.Missing)
            return journey with { Situation = stand, Hall = null, Place = archiveEvent.ToPlace?.Value, Since = archiveEvent };
        if (archiveEvent.ToHall is null && archiveEvent.What?.Value != EventType.Arrived)
            return stand == journey.Situation ? journey : journey with { Situation = stand, Since = archiveEvent };
        return journey with
        {
            Situation = stand,
            Hall = archiveEvent.ToHall?.Value,
            Place = archiveEvent.ToPlace?.Value,
            Since = archiveEvent
        };
    }
}

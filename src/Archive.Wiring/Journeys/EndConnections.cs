using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Journeys;

/// <summary>Which ends of a cable were disconnected and which are connected again, by its events.</summary>
/// <remarks>
/// An event at a frame holds for every place there, one of the whole cable for every end; the last that covers an end decides. Each event
/// costs what it names.
/// </remarks>
public sealed class EndConnections
{
    private readonly Dictionary<string, Dictionary<Address, (ArchiveEvent By, int Turn)>> _byFrame = new(StringComparer.Ordinal);
    private readonly ArchiveModel? _record;
    private ArchiveEvent? _whole;
    private int _turn;

    private EndConnections(ArchiveModel? record) => _record = record;

    /// <summary>What all events of a cable come to.</summary>
    /// <param name="journey">Its events.</param>
    public static EndConnections From(ArchiveModel record, Journey journey)
    {
        var ends = Nothing(record);
        foreach (var archiveEvent in journey.Events) ends.Note(journey, archiveEvent);
        return ends;
    }

    /// <summary>The event by which an end is connected again; null if it is not.</summary>
    /// <param name="at">Its place.</param>
    public ArchiveEvent? ConnectedAt(Address at) => LastAt(at) is { What.Value: EventType.Connected } by ? by : null;

    /// <summary>The event by which an end was disconnected; null if it was not, or was connected again.</summary>
    /// <param name="at">Its place.</param>
    public ArchiveEvent? DisconnectedAt(Address at) => LastAt(at) is { What.Value: not EventType.Connected } by ? by : null;

    internal static EndConnections Nothing(ArchiveModel? record) => new(record);

    internal void Note(Journey journey, ArchiveEvent archiveEvent)
    {
        if (archiveEvent.What?.Value is not (EventType.Connected or EventType.Disconnected or EventType.Removed or EventType.Severed))
            return;
        _turn++;
        if (IsWhole(journey, archiveEvent))
        {
            _whole = archiveEvent;
            _byFrame.Clear();
            return;
        }

        foreach (var end in archiveEvent.Ends)
        {
            if (!journey.IsOf(end.Cable.Value)) continue;
            var at = Now(end.At.Value);
            if (!_byFrame.TryGetValue(at.Frame, out var places)) _byFrame[at.Frame] = places = [];
            if (at.Position is null) places.Clear();
            places[at] = (archiveEvent, _turn);
        }
    }

    /// <summary>Whether all ends of a cable are connected again: those that were seen, or two where fewer were.</summary>
    internal bool AreConnected(Cable cable)
    {
        var seen = cable.Ends.Where(end => end.At is not null).Select(end => end.At!.Value.Value).ToList();
        return seen.Count > 1
            ? seen.TrueForAll(at => ConnectedAt(at) is not null)
            : _byFrame.Values.Sum(places => places.Values.Count(each => each.By.What?.Value == EventType.Connected)) > 1;
    }

    /// <summary>Whether an event happened to a cable as a whole, and not at an end.</summary>
    internal static bool IsWhole(Journey journey, ArchiveEvent archiveEvent) =>
        archiveEvent.Ends.IsEmpty
            || archiveEvent.Of.Any(of => journey.IsOf(of.Value))
            || !archiveEvent.Ends.Any(end => journey.IsOf(end.Cable.Value));

    private ArchiveEvent? LastAt(Address at)
    {
        var here = Now(at);
        if (!_byFrame.TryGetValue(here.Frame, out var places)) return _whole;
        ArchiveEvent? last = null;
        var turn = 0;
        foreach (var outer in (Address[])[here, Address.Create(here.Frame, here.Position), Address.Create(here.Frame)])
        {
            if (places.TryGetValue(outer, out var found) && found.Turn > turn) (last, turn) = found;
        }

        return last ?? _whole;
    }

    private Address Now(Address at) => _record?.FrameAt(at) is { } frame ? Address.Create(frame.Id, at.Position, at.Port) : at;
}

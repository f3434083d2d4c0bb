using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Wiring.Journeys;
using Archive.Wiring.Labels;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Progress;

/// <summary>What has been done to each frame and cable. There is no clock: all of it is as of the last event.</summary>
public sealed class WorkProgress
{
    private static readonly FrozenSet<EventType> TakesOut = new[] { EventType.Removed, EventType.Coiled, EventType.Severed }.ToFrozenSet();

    // What can only happen to a cable that is out, even if no event says how it came out.
    private static readonly FrozenSet<EventType> HappensOutside = new[]
    {
        EventType.Packed, EventType.Loaded, EventType.Arrived, EventType.Unpacked, EventType.Stood, EventType.Fixed, EventType.Laid,
        EventType.Connected
    }.ToFrozenSet();

    private readonly ArchiveModel _record;
    private readonly FrozenDictionary<string, Journey> _journeys;
    private readonly bool _moves;

    private WorkProgress(ArchiveModel record)
    {
        _record = record;
        Journeys = JourneyIndex.From(record);
        _journeys = Journeys.All.ToFrozenDictionary(journey => journey.Of.Id, StringComparer.Ordinal);
        _moves = record.Halls.Any(hall => !hall.IsWithdrawn && hall.Id != record.AsFoundHall?.Id);
        AsOf = record.Events.Where(archiveEvent => archiveEvent is { IsWithdrawn: false, On: not null })
            .OrderBy(archiveEvent => archiveEvent.On?.Value.Latest ?? archiveEvent.On?.Value.Earliest)
            .ThenBy(archiveEvent => archiveEvent.Id, StringComparer.Ordinal)
            .LastOrDefault();
    }

    /// <summary>The journeys of all frames and cables.</summary>
    public JourneyIndex Journeys { get; }

    /// <summary>The last event; null if there is none.</summary>
    public ArchiveEvent? AsOf { get; }

    /// <summary>Reads the events. Linear in records and events, but for sorting.</summary>
    public static WorkProgress From(ArchiveModel record) => new(record);

    /// <summary>The journey of a frame, cable or tray; null if it has none.</summary>
    public Journey? JourneyOf(string id) => _journeys.GetValueOrDefault(id);

    /// <summary>The event by which a cable was taken out; null if it was not.</summary>
    public ArchiveEvent? TakenOutBy(string cable)
    {
        if (JourneyOf(cable) is not { } journey) return null;
        return journey.Events.LastOrDefault(archiveEvent => archiveEvent.What is { } what && TakesOut.Contains(what.Value))
            ?? journey.Events.FirstOrDefault(archiveEvent => archiveEvent.What is { } what && HappensOutside.Contains(what.Value));
    }

    /// <summary>The event that shows that a unit is out of the slot where it was found; null for none.</summary>
    /// <param name="unit">Id of the unit.</param>
    public ArchiveEvent? UnitOutBy(string unit) => JourneyOf(unit)?.Events.FirstOrDefault(archiveEvent =>
        archiveEvent.What?.Value is EventType.Removed or EventType.Refitted or EventType.FoundMissing
        || (archiveEvent.What is { } what && HappensOutside.Contains(what.Value)));

    /// <summary>The event by which the last of some units came out; null if one is in its slot, or nothing says that it is not.</summary>
    public ArchiveEvent? UnitsOutBy(IEnumerable<Unit> units)
    {
        ArchiveEvent? last = null;
        foreach (var unit in units)
        {
            if (UnitOutBy(unit.Id) is not { } by) return null;
            if (last is null || by.On?.Value.Latest > last.On?.Value.Latest) last = by;
        }

        return last;
    }

    /// <summary>The event by which a cable was disconnected at every end that comes off, or taken out; null if it was not.</summary>
    /// <param name="reading">The cable and its known ends.</param>
    public ArchiveEvent? FreedBy(CableReading reading)
    {
        if (TakenOutBy(reading.Cable.Id) is { } takenOut) return takenOut;
        if (JourneyOf(reading.Cable.Id) is not { Events.IsEmpty: false } journey) return null;
        var ends = EndConnections.From(_record, journey);
        var fast = CoilFrame(reading.Cable);
        ImmutableArray<ArchiveEvent?> off = [.. reading.Ends.Where(end => end.At.Frame != fast).Select(end => ends.DisconnectedAt(end.At))];
        if (off.IsEmpty) return journey.Events.LastOrDefault(archiveEvent => archiveEvent.What?.Value is EventType.Disconnected
            or EventType.Connected) is { What.Value: EventType.Disconnected } last ? last : null;
        return off.All(by => by is not null) ? off.MaxBy(by => journey.Events.IndexOf(by!)) : null;
    }

    /// <summary>Whether a cable is disconnected at every end at a frame, or a coil is free at its other end.</summary>
    /// <param name="reading">The cable and its known ends.</param>
    /// <param name="frame">Id of the frame.</param>
    public bool IsFreedAt(CableReading reading, string frame)
    {
        if (JourneyOf(reading.Cable.Id) is not { Events.IsEmpty: false } journey) return false;
        if (CoilFrame(reading.Cable) == frame) return FreedBy(reading) is not null;
        var ends = EndConnections.From(_record, journey);
        return reading.Ends.Where(end => end.At.Frame == frame).All(end => ends.DisconnectedAt(end.At) is not null);
    }

    /// <summary>The last event of a type that happened to a thing; null for none.</summary>
    public ArchiveEvent? LastOf(string id, EventType type) =>
        JourneyOf(id)?.Events.LastOrDefault(archiveEvent => archiveEvent.What?.Value == type);

    /// <summary>The first event that shows that a frame has left the place where it was found; null for none.</summary>
    public ArchiveEvent? LeftBy(string frame) =>
        JourneyOf(frame)?.Events.FirstOrDefault(archiveEvent => archiveEvent.What is { } what && HappensOutside.Contains(what.Value));

    /// <summary>The event by which a cable was connected again; null if it is not connected now.</summary>
    public ArchiveEvent? ConnectedBy(string cable) => JourneyOf(cable) is { Situation: Situation.Connected } journey
        ? journey.Events.LastOrDefault(archiveEvent => archiveEvent.What?.Value == EventType.Connected)
        : null;

    /// <summary>Whether a cable is connected again at an end at a frame.</summary>
    /// <param name="frame">Id of the frame.</param>
    public bool IsConnectedAt(Cable cable, string frame) =>
        JourneyOf(cable.Id) is { Events.IsEmpty: false } journey && EndConnections.From(_record, journey) is var ends
        && (ends.ConnectedAt(Address.Create(frame)) is not null
            || cable.Ends.Any(end => end.At is { } at && _record.FrameAt(at.Value)?.Id == frame && ends.ConnectedAt(at.Value) is not null));

    /// <summary>Whether a frame is in the place where cables are connected to it again.</summary>
    public bool IsInPlace(string frame) => JourneyOf(frame)?.Situation switch
    {
        Situation.AsFound => !_moves,
        { } situation => situation.IsInPlace(),
        null => false,
    };

    /// <summary>Whether a frame has left the place where it was found.</summary>
    public bool HasLeft(string frame) => LeftBy(frame) is not null;

    /// <summary>What keeps a cable from being connected that lies in its own journey.</summary>
    public IEnumerable<Precondition> Absence(Cable cable)
    {
        if (JourneyOf(cable.Id) is not { } journey) yield break;
        switch (journey.Situation)
        {
            case Situation.Missing:
                yield return Precondition.Of(PreconditionKind.CableFound);
                break;
            case Situation.OnTheRoad:
                yield return Precondition.Of(PreconditionKind.CableUnloaded);
                break;
            case Situation.AsFound when _moves:
                yield return Precondition.Of(PreconditionKind.CableTakenOut);
                break;
            case Situation.Removed or Situation.Severed when _moves && !IsBeyondAsFound(journey):
                yield return Precondition.Of(PreconditionKind.CableArrived);
                break;
        }
    }

    /// <summary>Whether a licensed or competent person does the work on a cable, or says that it may be done.</summary>
    public static bool NeedsLicence(ArchiveModel record, Cable cable) =>
        CableRoles.Of(record, cable) != CableRole.Signal || CableRoles.FamilyOf(record, cable) == CableFamily.Fibre;

    // A coil goes with the frame that it is lashed to; what was taken out whole has to be seen somewhere else.
    private bool IsBeyondAsFound(Journey journey) => journey.Hall is { } hall && hall != _record.AsFoundHall?.Id;

    private string? CoilFrame(Cable cable) => cable is { Fate.Value: Fate.Coil, CoilTo: { } to } ? _record.Find<Frame>(to.Value)?.Id : null;
}

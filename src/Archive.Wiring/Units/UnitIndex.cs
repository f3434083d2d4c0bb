using System.Collections.Concurrent;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Weights;
using Archive.Records.Wording;

namespace Archive.Wiring.Units;

/// <summary>Units by where they were found, and by what is printed on them. Withdrawn units are left out.</summary>
public sealed class UnitIndex
{
    private readonly ArchiveModel _record;
    private readonly ILookup<string, Unit> _byFrame;
    private readonly ConcurrentDictionary<string, ImmutableArray<Unit>> _sparesFirst = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, ImmutableArray<SlotLine>> _maps = new(StringComparer.Ordinal);

    /// <summary>Linear in the units.</summary>
    public UnitIndex(ArchiveModel record)
    {
        _record = record;
        Weights = FrameWeights.From(record);
        All = [.. record.Units.Where(unit => !unit.IsWithdrawn)];
        _byFrame = All.Where(unit => FrameOf(unit) is not null).ToLookup(unit => FrameOf(unit)!.Id, StringComparer.Ordinal);
        ByMarking = All.Where(unit => unit.Marking is not null)
            .ToLookup(unit => Phrase.OneLine(unit.Marking!.Value.Value), StringComparer.Ordinal);
    }

    /// <summary>All units, by id.</summary>
    public ImmutableArray<Unit> All { get; }

    /// <summary>Units by their marking, on one line.</summary>
    public ILookup<string, Unit> ByMarking { get; }

    /// <summary>The frame in which a unit was found; null for none, or one that is not known.</summary>
    public Frame? FrameOf(Unit unit) => unit.At is { } at && _record.FrameAt(at.Value.At) is { IsWithdrawn: false } frame ? frame : null;

    /// <summary>The units found in a frame, by id.</summary>
    /// <param name="frame">Id of the frame.</param>
    public IEnumerable<Unit> In(string frame) => _byFrame[frame];

    /// <summary>
    /// The unit on whose front a port is; null where the port is the position's own, or no unit is known to have been there.
    /// </summary>
    public Unit? WithFront(Address port) => port.Slot is { } slot
        ? In(port.Frame).FirstOrDefault(unit => unit.At!.Value.Value is { Slot: { } its } place
            && LeadingZeros.Comparer.Equals(its, slot)
            && LeadingZeros.Comparer.Equals(place.At.Position, port.Position))
        : null;

    /// <summary>The units of a frame that must be out before it is tipped or lifted, by id.</summary>
    /// <param name="frame">Id of the frame.</param>
    public IEnumerable<Unit> OutBeforeMoving(string frame) =>
        In(frame).Where(unit => unit.Handling.Any(handling => handling.Value == Handling.OutBeforeMoving));

    /// <summary>The units with a marking, spares first; sorted once.</summary>
    /// <param name="marking">The marking, on one line.</param>
    public ImmutableArray<Unit> Marked(string marking) => _sparesFirst.GetOrAdd(
        marking, (key, all) => [.. all[key].OrderBy(unit => unit.Spare is not { Value: true })], ByMarking);

    /// <summary>What was in each slot of a frame.</summary>
    public ImmutableArray<SlotLine> MapOf(Frame frame) => _maps.GetOrAdd(
        frame.Id, (id, by) => SlotMap.Create(by.frame, by._byFrame[id]), (frame, _byFrame));

    /// <summary>The weight of a frame with and without its units; null if its weight is not recorded.</summary>
    public FrameWeight? WeightOf(Frame frame) => Weights.Of(frame);

    /// <summary>The weights of all frames with and without their units.</summary>
    public FrameWeights Weights { get; }
}

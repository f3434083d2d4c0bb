using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Journeys;

namespace Archive.Wiring.Boxes;

/// <summary>What is in each box, what was, and what it weighs with it; by the events.</summary>
public sealed class BoxIndex
{
    private readonly FrozenDictionary<string, ImmutableArray<BoxStay>> _stays;
    private readonly FrozenDictionary<string, string> _boxOf;
    private readonly Dictionary<string, BoxLoad> _laden = new(StringComparer.Ordinal);
    private readonly PackedWeights _weights;

    /// <summary>Linear in boxes and their content.</summary>
    public BoxIndex(ArchiveModel record, JourneyIndex journeys)
    {
        _weights = new PackedWeights(record);
        All = [.. record.Boxes.Where(box => !box.IsWithdrawn)];
        _stays = journeys.Stays.GroupBy(stay => stay.Box, StringComparer.Ordinal)
            .ToFrozenDictionary(box => box.Key, box => box.ToImmutableArray(), StringComparer.Ordinal);
        _boxOf = journeys.Stays.Where(stay => stay.Out is null)
            .ToFrozenDictionary(stay => stay.Thing.Id, stay => stay.Box, StringComparer.Ordinal);
        foreach (var box in record.Boxes) Weigh(box);
    }

    /// <summary>All boxes that stand, by id.</summary>
    public ImmutableArray<Box> All { get; }

    /// <summary>All times that something was in a box; by thing.</summary>
    /// <param name="box">Id of the box.</param>
    public ImmutableArray<BoxStay> StaysIn(string box) => _stays.GetValueOrDefault(box, []);

    /// <summary>What is in a box now.</summary>
    /// <param name="box">Id of the box.</param>
    public IEnumerable<BoxStay> Content(string box) => StaysIn(box).Where(stay => stay.Out is null);

    /// <summary>What is in a box now, and in the boxes in it.</summary>
    /// <param name="box">Id of the box.</param>
    public IEnumerable<ArchiveRecord> Everything(string box) => Everything(box, 0);

    /// <summary>Id of the box that a thing is in now; null for none.</summary>
    /// <param name="thing">Its id.</param>
    public string? BoxOf(string thing) => _boxOf.GetValueOrDefault(thing);

    /// <summary>What a box weighs with all that is in it.</summary>
    /// <param name="box">Id of the box.</param>
    public BoxLoad Laden(string box) => _laden[box];

    /// <summary>What a thing weighs; a box with all that is in it.</summary>
    public BoxLoad WeightOf(ArchiveRecord thing) => thing is Box ? Laden(thing.Id) : _weights.Of(thing);

    private IEnumerable<ArchiveRecord> Everything(string box, int depth) => depth > BoxStay.MostNested ? [] : Content(box)
        .SelectMany(stay => stay.Thing is Box ? Everything(stay.Thing.Id, depth + 1).Prepend(stay.Thing) : [stay.Thing]);

    // Each box once, with all around it; none around it is counted that a wrong record puts inside it.
    private void Weigh(Box box)
    {
        var load = _weights.Of(box);
        foreach (var stay in Content(box.Id))
        {
            if (stay.Thing is not Box) load += _weights.Of(stay.Thing);
        }

        string? at = box.Id;
        for (var depth = 0; at is not null && depth <= BoxStay.MostNested; depth++)
        {
            _laden[at] = _laden.GetValueOrDefault(at) + load;
            at = _boxOf.GetValueOrDefault(at);
        }
    }
}

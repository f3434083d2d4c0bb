using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Journeys;

/// <summary>The journeys of all frames and cables that stand, and of trays, units, pieces and boxes that something happened to.</summary>
public sealed class JourneyIndex
{
    private JourneyIndex(ImmutableArray<Journey> all, ImmutableArray<BoxStay> stays) => (All, Stays) = (all, stays);

    /// <summary>Frames, then cables, trays, units, pieces and boxes; each by id.</summary>
    public ImmutableArray<Journey> All { get; }

    /// <summary>Which things were in which boxes; by thing in that order, then in order of time.</summary>
    public ImmutableArray<BoxStay> Stays { get; }

    /// <summary>Works all journeys out. Linear in records and events, but for sorting.</summary>
    public static JourneyIndex From(ArchiveModel record)
    {
        var events = EventHistory.From(record);
        ImmutableArray<ArchiveRecord> things =
        [
            .. record.Frames
                .Cast<ArchiveRecord>()
                .Concat(record.Cables)
                .Concat(record.Trays.Where(Moved))
                .Concat(record.Units.Where(Moved))
                .Concat(record.Pieces.Where(Moved))
                .Concat(record.Boxes.Where(Moved))
                .Where(each => !each.IsWithdrawn),
        ];
        ImmutableArray<BoxStay> stays = [.. things
            .Where(Moved)
            .SelectMany(thing => BoxStay.Of(record, thing, events[thing.Id]))];
        var follower = new JourneyFollower(record, events, stays);
        return new JourneyIndex([.. things.Select(follower.Follow)], stays);

        bool Moved(ArchiveRecord thing) => events.ContainsKey(thing.Id);
    }
}

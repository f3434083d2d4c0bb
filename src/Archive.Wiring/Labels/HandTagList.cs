using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

/// <summary>
/// The cables that print alone cannot rebuild, in the order in which someone walks past them: each is tagged by hand before it is pulled.
/// </summary>
/// <param name="Tags">A tag a cable: frame by frame, within a frame as its positions and ports go; then cables at no known frame. Ties by
/// id.</param>
public sealed record HandTagList(ImmutableArray<HandTag> Tags)
{
    /// <summary>Writes the list.</summary>
    /// <param name="readings">Its labels as read.</param>
    /// <param name="walk">Ids of the frames in walking order; those not named are visited after them, by id.</param>
    public static HandTagList Compute(ArchiveModel record, LabelReadings readings, IEnumerable<string> walk)
    {
        var turns = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var frame in walk) turns.TryAdd(frame, turns.Count);
        foreach (var frame in record.Frames) turns.TryAdd(frame.Id, turns.Count);
        var positions = new Dictionary<string, Dictionary<string, int>>(StringComparer.Ordinal);
        return new HandTagList(
        [
            .. readings.Cables.Where(reading => !reading.IsRebuildable)
                .Select(reading => TagOf(reading, turns))
                .OrderBy(tag => tag.At is { } at ? turns.GetValueOrDefault(at.Frame, int.MaxValue - 1) : int.MaxValue)
                .ThenBy(tag => PlaceOf(tag.At))
                .ThenBy(tag => PortOf(tag.At).Length).ThenBy(tag => PortOf(tag.At), StringComparer.Ordinal)
                .ThenBy(tag => tag.Reading.Cable.Id, StringComparer.Ordinal),
        ]);

        // As the frame lists them; one that it does not list behind those it does, the frame as a whole last.
        int PlaceOf(Address? at)
        {
            if (at is not { Position: { } position } || record.FrameAt(at.Value) is not { } frame) return int.MaxValue;
            if (!positions.TryGetValue(frame.Id, out var places))
            {
                positions[frame.Id] = places = new(LeadingZeros.Comparer);
                foreach (var each in frame.Positions) places.TryAdd(each.Id.Value, places.Count);
            }

            return places.GetValueOrDefault(position, int.MaxValue - 1);
        }
    }

    // At the first of its known ends that one comes by.
    private static HandTag TagOf(CableReading reading, Dictionary<string, int> turns)
    {
        if (reading.Ends.IsEmpty) return new HandTag(reading, null, []);
        var here = reading.Ends.MinBy(end => turns.GetValueOrDefault(end.At.Frame, int.MaxValue));
        return new HandTag(reading, here.At, [.. reading.Ends.Where(end => end != here).Select(end => end.At)]);
    }

    // J2 comes before J10.
    private static string PortOf(Address? at) => at?.Port is { } port ? LeadingZeros.Strip(port) : "";
}

/// <summary>A cable to tag by hand.</summary>
/// <param name="Reading">What is known of it, and why its print does not do.</param>
/// <param name="At">The end where one comes by it first; null where no end is known.</param>
/// <param name="Others">Its other known ends, in their order: they are tagged too.</param>
public sealed record HandTag(CableReading Reading, Address? At, ImmutableArray<Address> Others)
{
    /// <summary>What its misread print may have been, the most likely; null where nothing near would do.</summary>
    public Candidate? Best => Reading.Candidates.IsEmpty ? null : Reading.Candidates[0];
}

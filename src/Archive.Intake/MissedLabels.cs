using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.Intake;

/// <summary>A frame of which there is no photo, although its neighbours were photographed one after the other.</summary>
/// <param name="Id">The frame.</param>
/// <param name="Before">The frame whose label was read before.</param>
/// <param name="After">The frame whose label was read after.</param>
/// <param name="Photos">Paths of the photos in between, which count as photos of <paramref name="Before"/>.</param>
public sealed record MissedLabel(string Id, string Before, string After, ImmutableArray<string> Photos);

/// <summary>
/// Finds labels that were perhaps not read: a crew walks along a row, so between the labels of comes that of A-05.
/// </summary>
internal sealed class MissedLabels
{
    // More frames than this between two labels were passed over on purpose.
    private const int MostMissed = 3;

    private readonly FrozenDictionary<string, (int Row, int Place)> _places;
    private readonly List<ImmutableArray<string>> _rows = [];

    /// <summary>Lists the frames in the order in which they stand; those in no row by their ids.</summary>
    public MissedLabels(ArchiveModel record)
    {
        _rows.AddRange(record.Halls.Where(hall => !hall.IsWithdrawn).OrderBy(hall => hall.AsFound?.Value != true)
            .SelectMany(hall => hall.Rows)
            .Select(row => row.Places.Select(place => place.Frame?.Value).OfType<string>().ToImmutableArray()));
        var standing = _rows.SelectMany(row => row).ToHashSet(StringComparer.Ordinal);
        _rows.Add([.. record.Frames.Where(frame => !frame.IsWithdrawn && !standing.Contains(frame.Id)).Select(frame => frame.Id)
            .OrderBy(id => new NaturalSortKey(id)).ThenBy(id => id, StringComparer.Ordinal)]);
        _places = _rows.SelectMany((row, i) => row.Select((id, j) => (id, Place: (i, j))))
            .DistinctBy(frame => frame.id, StringComparer.Ordinal)
            .ToFrozenDictionary(frame => frame.id, frame => frame.Place, StringComparer.Ordinal);
    }

    /// <summary>Finds them.</summary>
    /// <param name="groups">All groups; a frame that any of their photos shows was not missed.</param>
    public ImmutableArray<MissedLabel> Find(ImmutableArray<IntakeGroup> groups)
    {
        var shown = groups.SelectMany(group => group.Photos).SelectMany(photo => photo.Shows).ToHashSet(StringComparer.Ordinal);
        return [.. groups.SelectMany(Between).Where(missed => !shown.Contains(missed.Id))];
    }

    private IEnumerable<MissedLabel> Between(IntakeGroup group)
    {
        string? before = null;
        var since = new List<string>();
        foreach (var photo in group.Photos)
        {
            if (photo.Label is not { } label)
            {
                if (before is not null && photo.Shows is [var shown] && shown == before) since.Add(photo.Path);
                continue;
            }

            if (label == before) continue;
            foreach (var id in Passed(before, label)) yield return new MissedLabel(id, before!, label, [.. since]);
            before = label;
            since.Clear();
        }
    }

    private IEnumerable<string> Passed(string? before, string after)
    {
        if (before is null || !_places.TryGetValue(before, out var one) || !_places.TryGetValue(after, out var other)) return [];
        var (first, last) = (Math.Min(one.Place, other.Place) + 1, Math.Max(one.Place, other.Place));
        if (one.Row != other.Row || last - first is < 1 or > MostMissed) return [];
        var passed = _rows[one.Row].AsSpan(first, last - first).ToArray();
        return one.Place < other.Place ? passed : passed.Reverse();
    }
}

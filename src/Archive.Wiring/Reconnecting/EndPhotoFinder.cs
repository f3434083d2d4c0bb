using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Reconnecting;

/// <summary>Says which photos show an end of a cable. Pages, plans and the survey all ask here.</summary>
/// <remarks>
/// A photo shows an end if it, or a region of it, names the place where the cable ends, or both the cable and the whole frame. Where no
/// photo does, one that names the position shows each of its ports. A photo of the frame alone does not show the end, and neither does one
/// of the cable at another place of the frame. Every written form of an id or address counts: former ids, and addresses with or without
/// leading zeros. Withdrawn photos show nothing. Building is linear in what photos show; finding, in the photos that name the cable or the
/// place.
/// </remarks>
public sealed class EndPhotoFinder
{
    private readonly ArchiveModel _record;
    private readonly Dictionary<Address, List<Photo>> _byPlace = [];
    private readonly Dictionary<string, List<Photo>> _byCable = new(StringComparer.Ordinal);
    private readonly HashSet<(string Photo, string Frame)> _frames = [];

    /// <summary>Looks through all photos.</summary>
    public EndPhotoFinder(ArchiveModel record)
    {
        _record = record;

        // Close views first, and of those the as-found state, so that every list begins with them.
        foreach (var photo in record.Photos.Where(photo => !photo.IsWithdrawn)
            .OrderBy(photo => !IsClose(photo)).ThenBy(photo => !IsAsFound(photo)))
        {
            foreach (var shown in photo.Shows.Concat(photo.Regions.SelectMany(region => region.Shows)).Select(shown => shown.Value))
                Note(photo, shown);
        }
    }

    /// <summary>
    /// The photos of an end, the best one first: the end marked in a label or detail view, marked in another, in a label or detail view,
    /// any other; of two alike, one of the as-found state before one that is known to be later; ties by id.
    /// </summary>
    /// <param name="at">The address of the end, in any written form.</param>
    /// <returns>Empty if none shows it. One photo of the position if none shows the end more closely.</returns>
    public ImmutableArray<Photo> Find(Cable cable, Address at)
    {
        if (_record.FrameAt(at) is not { } frame) return [];
        var place = Address.Create(frame.Id, at.Position, at.Port);
        var photos = At(place).Concat(_byCable.GetValueOrDefault(cable.Id, []).Where(photo => _frames.Contains((photo.Id, frame.Id))))
            .DistinctBy(photo => photo.Id)
            .OrderBy(photo => Rank(photo, cable, place))
            .ThenBy(photo => !IsAsFound(photo))
            .ThenBy(photo => photo.Id, StringComparer.Ordinal)
            .ToImmutableArray();
        return photos.IsEmpty && at.Port is not null ? [.. At(Address.Create(frame.Id, at.Position)).Take(1)] : photos;
    }

    /// <summary>The part of a photo that shows an end.</summary>
    /// <param name="photo">A photo that shows it.</param>
    /// <param name="at">The address of the end, in any written form.</param>
    /// <returns>The first region that names the place; else the first that names the cable; null if there is neither.</returns>
    public ImageBox? RegionOf(Photo photo, Cable cable, Address at)
    {
        if (photo.Regions.IsEmpty || _record.FrameAt(at) is not { } frame) return null;
        var place = Address.Create(frame.Id, at.Position, at.Port);
        var region = (at.Position is null
            ? null
            : photo.Regions.FirstOrDefault(region => region.Shows.Any(shown => PlaceOf(shown.Value) == place)))
            ?? photo.Regions.FirstOrDefault(region => region.Shows.Any(shown => _record.Find(shown.Value) == cable));
        return region?.Box.Value;
    }

    private static bool IsClose(Photo photo) => photo.View?.Value is PhotoView.Label or PhotoView.Detail;

    private bool IsAsFound(Photo photo) => _record.Statement.IsAsFound(photo.Day);

    private int Rank(Photo photo, Cable cable, Address place) => (RegionOf(photo, cable, place) is null ? 2 : 0) + (IsClose(photo) ? 0 : 1);

    private List<Photo> At(Address place) => place.Position is null ? [] : _byPlace.GetValueOrDefault(place, []);

    // Only an address has a slash; without one the name is an id, which must be exact.
    private Address? PlaceOf(string shown) =>
        shown.Contains('/', StringComparison.Ordinal) && Address.TryParse(shown, out var at) && _record.FrameAt(at) is { } frame
            ? Address.Create(frame.Id, at.Position, at.Port) : null;

    private void Note(Photo photo, string shown)
    {
        if (PlaceOf(shown) is { } place) Add(_byPlace, place, photo);
        else if (_record.Find(shown) is Cable cable) Add(_byCable, cable.Id, photo);
        else if (_record.Find(shown) is Frame frame) _frames.Add((photo.Id, frame.Id));
    }

    // Photos are noted one after the other, so one that names a thing twice is last in its list.
    private static void Add<TKey>(Dictionary<TKey, List<Photo>> lists, TKey key, Photo photo)
        where TKey : notnull
    {
        if (!lists.TryGetValue(key, out var photos)) lists[key] = photos = [];
        if (photos.Count == 0 || !ReferenceEquals(photos[^1], photo)) photos.Add(photo);
    }
}

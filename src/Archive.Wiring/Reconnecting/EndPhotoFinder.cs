using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Reconnecting;

/// <summary>Finds the photo that shows an end of a cable as it was.</summary>
/// <remarks>Linear in what photos show. Withdrawn photos show nothing.</remarks>
internal sealed class EndPhotoFinder
{
    private readonly ArchiveModel _record;
    private readonly Dictionary<Address, Photo> _byPlace = [];
    private readonly Dictionary<string, List<Photo>> _byCable = new(StringComparer.Ordinal);
    private readonly Dictionary<Photo, HashSet<string>> _frames = new(ReferenceEqualityComparer.Instance);

    /// <summary>Looks through all photos.</summary>
    /// <param name="record">The record.</param>
    internal EndPhotoFinder(ArchiveModel record)
    {
        _record = record;
        foreach (var photo in record.Photos.Where(photo => !photo.IsWithdrawn))
        {
            foreach (var shown in photo.Shows.Concat(photo.Regions.SelectMany(region => region.Shows)).Select(shown => shown.Value).Distinct()) Note(photo, shown);
        }
    }

    /// <summary>The photo of an end.</summary>
    /// <param name="cable">The cable.</param>
    /// <param name="at">Where the end is; the frame by its present id.</param>
    /// <returns>One that shows the very place; else one that shows the cable and the frame; else one that shows the position. Null where none does; the first by id where several do.</returns>
    internal Photo? Find(Cable cable, Address at) =>
        At(at)
        ?? _byCable.GetValueOrDefault(cable.Id)?.FirstOrDefault(photo => _frames.TryGetValue(photo, out var frames) && frames.Contains(at.Frame))
        ?? (at.Port is null ? null : At(Address.Create(at.Frame, at.Position)));

    private Photo? At(Address at) => at.Position is null ? null : _byPlace.GetValueOrDefault(at);

    private void Note(Photo photo, string shown)
    {
        if (_record.Find(shown) is Cable cable)
        {
            if (!_byCable.TryGetValue(cable.Id, out var photos)) _byCable[cable.Id] = photos = [];
            photos.Add(photo);
        }
        else if (Address.TryParse(shown, out var at) && _record.FrameAt(at) is { } frame)
        {
            if (!_frames.TryGetValue(photo, out var frames)) _frames[photo] = frames = new(StringComparer.Ordinal);
            frames.Add(frame.Id);
            _byPlace.TryAdd(Address.Create(frame.Id, at.Position, at.Port), photo);
        }
    }
}

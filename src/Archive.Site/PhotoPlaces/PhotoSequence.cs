using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using Archive.Halls.Layout;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Site.Contents;

namespace Archive.Site.PhotoPlaces;

/// <summary>
/// The photos in the order in which one who walks along the rows would look at them: by place, then view, then date. Of each row the
/// photos that show several of its frames come first; what is in no row comes behind all rows.
/// </summary>
internal sealed class PhotoSequence
{
    private readonly SiteContents _site;
    private readonly ImmutableArray<Photo> _photos;
    private readonly FrozenDictionary<string, int> _places;
    private readonly ILookup<(string Frame, PhotoView? View), Photo> _ofFrame;
    private readonly FrozenDictionary<string, (Photo Earlier, Photo Later)> _pairs;
    private readonly ILookup<string, (Photo Earlier, Photo Later)> _pairsOf;

    public PhotoSequence(SiteContents site)
    {
        _site = site;
        var photos = site.Record.Photos.Where(photo => !photo.IsWithdrawn).ToList();
        var frames = photos.ToDictionary(photo => photo.Id, FramesOf, StringComparer.Ordinal);
        _photos =
        [
            .. photos.OrderBy(photo => PlaceOf(frames[photo.Id]))
                .ThenBy(photo => photo.View?.Value ?? (PhotoView)int.MaxValue)
                .ThenBy(photo => DayOf(photo) ?? DateOnly.MaxValue)
                .ThenBy(TakenText, StringComparer.Ordinal)
                .ThenBy(photo => photo.Id, StringComparer.Ordinal)
        ];
        _places = _photos.Select((photo, at) => (photo.Id, At: at))
            .ToFrozenDictionary(pair => pair.Id, pair => pair.At, StringComparer.Ordinal);
        _ofFrame = _photos.Where(photo => frames[photo.Id].Count == 1)
            .ToLookup(photo => (frames[photo.Id][0].Id, photo.View?.Value));
        var pairs = new Dictionary<string, (Photo, Photo)>(StringComparer.Ordinal);
        var widest = new List<(string Frame, (Photo, Photo) Pair)>();
        foreach (var group in _photos.Select(photo => (Photo: photo, Subject: SubjectOf(photo, frames[photo.Id])))
                     .Where(each => each.Subject is not null && DayOf(each.Photo) is not null)
                     .GroupBy(each => each.Subject!, each => each.Photo, StringComparer.Ordinal))
        {
            // In order of their days already.
            var days = group.GroupBy(DayOf).Select(day => day.ToList()).ToList();
            if (days.Count < 2) continue;
            foreach (var photo in days[0]) pairs[photo.Id] = (photo, days[1][0]);
            for (var day = 1; day < days.Count; day++)
            {
                foreach (var photo in days[day]) pairs[photo.Id] = (days[day - 1][^1], photo);
            }

            var pair = (Earlier: days[0][^1], Later: days[^1][0]);
            var (then, now) = (frames[pair.Earlier.Id], frames[pair.Later.Id]);

            // Of a row only what is in one of the two has changed.
            foreach (var frame in then.Count == 1 && now.Count == 1 ? then : then.Except(now).Union(now.Except(then)))
                widest.Add((frame.Id, pair));
        }

        _pairs = pairs.ToFrozenDictionary(StringComparer.Ordinal);
        _pairsOf = widest.ToLookup(each => each.Frame, each => each.Pair, StringComparer.Ordinal);
    }

    /// <summary>The photo before one; null for the first.</summary>
    public Photo? Before(Photo photo) => _places[photo.Id] is > 0 and var at ? _photos[at - 1] : null;

    /// <summary>The photo behind one; null for the last.</summary>
    public Photo? Behind(Photo photo) => _places[photo.Id] is var at && at + 1 < _photos.Length ? _photos[at + 1] : null;

    /// <summary>
    /// The same view of the nearest frames to either side, where there is one; nothing for a photo of several frames, or none.
    /// </summary>
    public IEnumerable<(Frame Frame, Photo Photo, bool IsNext)> Beside(Photo photo)
    {
        if (FramesOf(photo) is not [var frame] || _site.HallLayouts.PlacementsOf(frame.Id) is not [var placement, ..]) yield break;
        var row = placement.Row.Frames;
        foreach (var step in new[] { -1, 1 })
        {
            for (var at = placement.Placed.Index + step; at >= 0 && at < row.Length; at += step)
            {
                if (_ofFrame[(row[at].Frame.Id, photo.View?.Value)].FirstOrDefault() is not { } other) continue;
                yield return (row[at].Frame, other, step > 0);
                break;
            }
        }
    }

    /// <summary>A photo and another of the same view and place from another day, the earlier one first; null where there is none.</summary>
    public (Photo Earlier, Photo Later)? PairOf(Photo photo) => _pairs.TryGetValue(photo.Id, out var pair) ? pair : null;

    /// <summary>
    /// The first and the last day of each view of a frame that was photographed on several days; and of its row, if it is in one of the two
    /// alone.
    /// </summary>
    public IEnumerable<(Photo Earlier, Photo Later)> PairsOf(Frame frame) => _pairsOf[frame.Id];

    /// <summary>The day on which a photo was taken, as the record or else the camera says; null where neither says the day.</summary>
    public DateOnly? DayOf(Photo photo)
    {
        if (photo.Taken is not null) return photo.Day;
        return _site.Photos.GetValueOrDefault(photo.Id)?.Taken is { Length: >= 10 } camera
            && DateOnly.TryParse(camera.AsSpan(0, 10), CultureInfo.InvariantCulture, out var date)
                ? date
                : null;
    }

    /// <summary>Whether a photo shows the as-found state: it is not known to be from a day after the survey.</summary>
    public bool IsAsFound(Photo photo) => _site.Record.Statement.IsAsFound(DayOf(photo));

    private string TakenText(Photo photo) => photo.Taken?.Value.Text ?? _site.Photos.GetValueOrDefault(photo.Id)?.Taken ?? "";

    // Frames that it shows as a whole, and those of places that it shows.
    private List<Frame> FramesOf(Photo photo) =>
    [
        .. photo.Shows.Select(id => _site.Record.Find(id.Value) is { } record
                ? record as Frame
                : Address.TryParse(id.Value, out var at) ? _site.Record.FrameAt(at) : null)
            .OfType<Frame>()
            .DistinctBy(frame => frame.Id)
    ];

    private (int Hall, int Row, int Place) PlaceOf(List<Frame> frames)
    {
        var placements = frames.Select(frame => _site.HallLayouts.PlacementsOf(frame.Id))
            .Where(all => !all.IsEmpty)
            .Select(all => all[0])
            .ToList();
        if (placements.Count == 0) return (int.MaxValue, 0, 0);
        var first = placements.MinBy(placement => (IndexOf(placement), placement.Placed.Index))!;
        return (
            _site.HallLayouts.Layouts.IndexOf(first.Layout),
            IndexOf(first),
            placements.Exists(placement => placement.Placed != first.Placed) ? -1 : first.Placed.Index);

        static int IndexOf(FramePlacement placement) => placement.Layout.Rows.IndexOf(placement.Row);
    }

    // What a view is of: one frame, several of one row, or a cable at a frame. Parts of a frame, trays and halls can be taken from
    // anywhere.
    private string? SubjectOf(Photo photo, List<Frame> frames)
    {
        if (photo.View is not { Value: var view }) return null;
        if (view is PhotoView.Label)
        {
            return frames is [var at] && photo.Shows.Select(id => _site.Record.Find(id.Value)).OfType<Cable>().FirstOrDefault() is { } cable
                ? $"{view} {at.Id} {cable.Id}"
                : null;
        }

        if (view is not (PhotoView.Front or PhotoView.Rear or PhotoView.Left or PhotoView.Right)) return null;
        if (frames is [var only]) return $"{view} {only.Id}";
        var rows = frames.Select(frame => _site.HallLayouts.PlacementsOf(frame.Id).FirstOrDefault()).ToList();
        if (rows.Count < 2 || !rows.TrueForAll(place => place is not null && place.Row == rows[0]!.Row)) return null;
        var (first, last) = (
            rows.MinBy(place => place!.Placed.Index)!.Placed.Frame.Id, rows.MaxBy(place => place!.Placed.Index)!.Placed.Frame.Id);
        return $"{view} {rows[0]!.Layout.Hall.Id} {rows[0]!.Row.Row.Id.Value} {first} {last}";
    }
}

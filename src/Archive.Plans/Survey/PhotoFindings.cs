using System.Collections.Frozen;
using Archive.Photos.Images;
using Archive.Photos.Measures;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.Plans.Survey;

/// <summary>
/// What looking at the photos themselves found: which are to be taken again, which look the same, of which no time is known.
/// </summary>
/// <param name="Again">Why photos are to be taken again, by photo id.</param>
/// <param name="Alike">Photos of one subject that look the same: the later and what it looks like, by the later's id.</param>
/// <param name="Untimed">Ids of photos of which neither record nor camera says the time.</param>
public sealed record PhotoFindings(
    FrozenDictionary<string, string> Again, FrozenDictionary<string, string> Alike, FrozenSet<string> Untimed)
{
    /// <summary>Nothing was looked at.</summary>
    public static PhotoFindings None { get; } = new(FrozenDictionary<string, string>.Empty, FrozenDictionary<string, string>.Empty, []);

    /// <summary>Judges photos beside each other.</summary>
    /// <param name="photos">The photos that could be read, with what was read and measured; in the record's order.</param>
    public static PhotoFindings Compute(IReadOnlyList<(Photo Photo, PhotoHeader Reading, PhotoMeasures Measures)> photos)
    {
        var shots = photos.Select(seen => new PhotoSample(seen.Photo.Id, PhotoSample.CameraOf(seen.Reading), seen.Measures)).ToList();
        var again = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var shot in shots)
        {
            if (Exposure.ProblemOf(shot.Measures) is { } fault) again[shot.Id] = fault;
        }

        foreach (var (shot, usual) in Blur.Among(shots))
        {
            var camera = shot.Camera.Length == 0 ? "photos from unknown cameras" : "photos from this camera";
            again.TryAdd(
                shot.Id,
                $"blurred: sharpness {Phrase.Number((int)shot.Measures.Sharpness)}, while half of the {camera} have {Phrase.Number((int)usual)} or more");
        }

        var byId = photos.ToFrozenDictionary(seen => seen.Photo.Id, seen => seen.Photo, StringComparer.Ordinal);
        var alike = SimilarPhotos.Among(shots).Where(pair => ShareSubject(byId[pair.First.Id], byId[pair.Second.Id]))
            .GroupBy(pair => pair.Second.Id, StringComparer.Ordinal)
            .ToFrozenDictionary(
                group => group.Key,
                group => $"looks the same as {group.First().First.Id}: keep the better one, or say what differs",
                StringComparer.Ordinal);
        var untimed = photos.Where(seen => seen.Photo.Taken is null && seen.Reading.Taken is null).Select(seen => seen.Photo.Id);
        return new PhotoFindings(again.ToFrozenDictionary(StringComparer.Ordinal), alike, untimed.ToFrozenSet(StringComparer.Ordinal));
    }

    // Frames of one make look alike, and are to: only two photos of one thing, or of nothing named, can be one too many.
    private static bool ShareSubject(Photo one, Photo other)
    {
        if (one.View?.Value != other.View?.Value) return false;
        var (a, b) = (Subjects(one), Subjects(other));
        return a.Count == 0 || b.Count == 0 || a.Overlaps(b);
    }

    private static HashSet<string> Subjects(Photo photo) =>
        photo.Shows.Concat(photo.Regions.SelectMany(region => region.Shows)).Select(id => id.Value).ToHashSet(StringComparer.Ordinal);
}

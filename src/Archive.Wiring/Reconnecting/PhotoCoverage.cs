using System.Collections.Frozen;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Reconnecting;

/// <summary>Which frames and which recorded ends of cables photos show.</summary>
public sealed class PhotoCoverage
{
    private readonly FrozenSet<string> _shown;
    private readonly FrozenDictionary<string, EndCount> _ends;

    private PhotoCoverage(FrozenSet<string> shown, FrozenDictionary<string, EndCount> ends) => (_shown, _ends) = (shown, ends);

    /// <summary>Looks through photos and cables once. Linear in what photos show and in ends.</summary>
    public static PhotoCoverage Compute(ArchiveModel record, EndPhotoFinder photos)
    {
        var shown = record.Photos.Where(photo => !photo.IsWithdrawn)
            .SelectMany(photo => photo.Shows.Concat(photo.Regions.SelectMany(region => region.Shows)))
            .Select(id => FrameIn(record, id.Value)?.Id).OfType<string>().ToFrozenSet(StringComparer.Ordinal);
        var ends = new Dictionary<string, EndCount>(StringComparer.Ordinal);
        foreach (var cable in record.Cables.Where(cable => !cable.IsWithdrawn))
        {
            foreach (var (frame, _, isShown) in EndsOf(record, photos, cable))
            {
                var count = ends.GetValueOrDefault(frame.Id);
                ends[frame.Id] = new EndCount(count.All + 1, count.Unseen + (isShown ? 0 : 1));
            }
        }

        return new PhotoCoverage(shown, ends.ToFrozenDictionary(StringComparer.Ordinal));
    }

    /// <summary>The ends of a cable that were seen at frames of the record, each with whether a photo shows it.</summary>
    public static IEnumerable<(Frame Frame, Address At, bool IsShown)> EndsOf(ArchiveModel record, EndPhotoFinder photos, Cable cable) =>
        from end in cable.Ends
        where end.At is not null
        let at = end.At!.Value.Value
        let frame = record.FrameAt(at)
        where frame is not null
        select (frame, at, !photos.Find(cable, at).IsEmpty);

    /// <summary>Whether any photo shows a frame, alone or among others, or a place in it.</summary>
    public bool Shows(string frame) => _shown.Contains(frame);

    /// <summary>The recorded ends at a frame.</summary>
    public EndCount EndsAt(string frame) => _ends.GetValueOrDefault(frame);

    private static Frame? FrameIn(ArchiveModel record, string shown) =>
        record.Find(shown) as Frame
        ?? (shown.Contains('/', StringComparison.Ordinal) && Address.TryParse(shown, out var at) ? record.FrameAt(at) : null);
}

/// <summary>How many ends of cables there are, and how many of them no photo shows.</summary>
public readonly record struct EndCount(int All, int Unseen);

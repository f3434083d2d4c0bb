using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Photos.Images;
using Archive.Photos.Processing;
using Archive.Records.Model;

namespace Archive.Publishing.Building;

/// <summary>
/// Which records speak of the same picture: by the file that they name, by the checksum that they state, and by the bytes that are there.
/// </summary>
/// <param name="groups">The records of each picture, in the record's order, by where each stands: an id may be given twice by
/// mistake.</param>
internal sealed class SamePictures(IReadOnlyDictionary<SourceSpan, ImmutableArray<Photo>> groups)
{
    /// <summary>Finds them. Bytes are compared only where that matters, and only of files of one size.</summary>
    /// <param name="photos">Every record of a picture, withdrawn ones too.</param>
    /// <param name="mustBeKnown">Whether all records of this one's picture must be known: it hides something, or may.</param>
    /// <param name="source">The file of a record.</param>
    /// <param name="processor">Takes checksums; those of unchanged files are known from before.</param>
    /// <exception cref="IOException">The cache cannot be written.</exception>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    internal static SamePictures Find(
        IReadOnlyList<Photo> photos,
        Func<Photo, bool> mustBeKnown,
        Func<Photo, PhotoSource> source,
        PhotoProcessor processor,
        CancellationToken cancellation)
    {
        var sets = Enumerable.Range(0, photos.Count).ToArray();
        Join(photos.Select(photo => photo.FilePath));
        Join(photos.Select(photo => photo.Sha256?.Value));
        if (photos.Any(mustBeKnown))
            Join(processor.ChecksumsOfCopies([.. photos.Select(source)], i => mustBeKnown(photos[i]), cancellation));
        return new SamePictures(photos.Select((photo, i) => (photo, Set: Root(i))).GroupBy(each => each.Set, each => each.photo)
            .Select(group => group.ToImmutableArray())
            .SelectMany(all => all.Select(photo => KeyValuePair.Create(photo.Span, all)))
            .ToDictionary());

        void Join(IEnumerable<string?> keys)
        {
            var first = new Dictionary<string, int>(StringComparer.Ordinal);
            foreach (var (i, key) in keys.Index())
            {
                if (key is not null && !first.TryAdd(key, i)) sets[Root(i)] = Root(first[key]);
            }
        }

        int Root(int i)
        {
            while (sets[i] != i) i = sets[i] = sets[sets[i]];
            return i;
        }
    }

    /// <summary>The records of a photo's picture, itself among them.</summary>
    internal ImmutableArray<Photo> GroupOf(Photo photo) => groups.TryGetValue(photo.Span, out var all) ? all : [photo];
}

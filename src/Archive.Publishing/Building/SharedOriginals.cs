using System.Collections.Frozen;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Photos.Metadata;
using Archive.Photos.Processing;
using Archive.Records.Model;
using Archive.Storage.Output;

namespace Archive.Publishing.Building;

/// <summary>What becomes of an original that is to be published.</summary>
/// <param name="File">It, or its stripped copy, as a file of the site; null where there is none to publish.</param>
/// <param name="Told">What is to be said of it; null for nothing.</param>
internal sealed record SharedOriginal(CopiedFile? File, Diagnostic? Told);

/// <summary>Prepares originals that are to be published: finds what they tell beside their pictures, or strips them of it.</summary>
internal static class SharedOriginals
{
    /// <summary>Prepares them.</summary>
    /// <param name="photos">Photos whose original is to be published, and nothing of which is hidden.</param>
    /// <param name="processor">Where they are looked at.</param>
    /// <returns>What becomes of each, by where its record stands.</returns>
    /// <exception cref="IOException">The cache cannot be written.</exception>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    internal static FrozenDictionary<SourceSpan, SharedOriginal> Find(
        IReadOnlyList<(Photo Photo, PhotoSource Source)> photos, PhotoProcessor processor, CancellationToken cancellation)
    {
        var stripped = photos.Where(each => each.Photo.PublishOriginal!.Value.Value == OriginalSharing.Stripped).ToList();
        var whole = photos.Except(stripped).ToList();
        return stripped.Zip(processor.StripAll([.. stripped.Select(each => each.Source)], cancellation), (each, outcome) =>
            (each.Photo.Span, Stripped(each.Photo, outcome)))
            .Concat(whole.Zip(processor.FindNotes([.. whole.Select(each => each.Source)], cancellation), (each, outcome) =>
                (each.Photo.Span, Whole(each.Photo, each.Source, outcome))))
            .ToFrozenDictionary(each => each.Span, each => each.Item2);
    }

    private static SharedOriginal Stripped(Photo photo, PhotoResult outcome) => outcome is StrippedPhoto stripped
        ? new SharedOriginal(new CopiedFile(PathOf(photo, stripped.CopySha256), stripped.Copy, stripped.CopySha256), null)
        : new SharedOriginal(null, (outcome as UnusablePhoto)?.At(photo.PublishOriginal!.Value.Span));

    private static SharedOriginal Whole(Photo photo, PhotoSource source, PhotoResult outcome)
    {
        if (outcome is not NotedPhoto noted)
            return new SharedOriginal(null, (outcome as UnusablePhoto)?.At(photo.PublishOriginal!.Value.Span));
        var file = new CopiedFile(PathOf(photo, noted.Sha256), source.FullPath, noted.Sha256);
        if (noted.Notes.IsEmpty || photo.PublishOriginal!.Value.Value == OriginalSharing.WithNotes) return new SharedOriginal(file, null);
        return new SharedOriginal(file, DiagnosticDescriptors.OriginalWithNotes.At(
            photo.PublishOriginal.Value.Span,
            $"the original `{photo.FilePath}` is published exactly as it came from the camera, with {Listed([.. noted.Notes.Select(PrivateNoteWords.Describe)])}",
            "write `publish_original: stripped` to publish the same pixels without that data, or `with_notes` if anyone may read it"));
    }

    private static string Listed(string[] words) => words.Length == 1 ? words[0] : $"{string.Join(", ", words[..^1])} and {words[^1]}";

    private static string PathOf(Photo photo, string sha256) =>
        $"images/{sha256[..2]}/{sha256[..32]}{Path.GetExtension(photo.FilePath!).ToLowerInvariant()}";
}

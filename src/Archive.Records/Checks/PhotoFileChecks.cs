using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>
/// AF0701: a RAW file that a photo names is missing. AF0716: a picture in <c>photos/</c> that no record names is on no page, and is lost
/// when nobody remembers what it shows.
/// </summary>
public static class PhotoFileChecks
{
    private static readonly string[] Pictures = [".jpg", ".jpeg", ".png", ".tif", ".tiff", ".webp", ".heic", ".heif", ".avif"];

    /// <summary>Reports each folder with such pictures once. Linear in files and photos.</summary>
    /// <param name="files">The files of the archive.</param>
    /// <param name="losses">What could not be read: a record of photos that is broken may name any of them.</param>
    public static IEnumerable<Diagnostic> Check(ImmutableArray<string> files, ArchiveModel record, ReadFailures losses)
    {
        var known = files.ToHashSet(StringComparer.Ordinal);
        var missing = record.Photos
            .Where(photo => photo is { IsWithdrawn: false, RawPath: { } path } && !known.Contains(path))
            .Select(photo => DiagnosticDescriptors.MissingPhoto.At(
                photo.Raw!.Value.Span, $"there is no RAW file `{photo.RawPath}`", "put the file there, or correct the name"));
        return missing.Concat(losses.Touch(RecordKind.Photo) ? [] : Unnamed(files, known, record));
    }

    private static IEnumerable<Diagnostic> Unnamed(ImmutableArray<string> files, HashSet<string> known, ArchiveModel record)
    {
        var named = record.Photos.SelectMany(photo => new[] { photo.FilePath, photo.RawPath })
            .OfType<string>()
            .ToHashSet(StringComparer.Ordinal);

        // A name that is no picture's is reported where it is written, and may be meant for one that no record seems to name.
        var doubtful = record.Photos.Select(photo => photo.FilePath).OfType<string>()
            .Where(path => !known.Contains(path) || !IsPicture(path)).Select(FolderOf).ToHashSet(StringComparer.Ordinal);
        return files
            .Where(path => path.StartsWith("photos/", StringComparison.Ordinal) && IsPicture(path) && !named.Contains(path))
            .GroupBy(FolderOf, StringComparer.Ordinal)
            .Where(folder => !doubtful.Contains(folder.Key))
            .Select(folder => Report(folder.Key, [.. folder]));
    }

    private static Diagnostic Report(string folder, string[] paths) => DiagnosticDescriptors.PhotoWithoutRecord.At(
        new SourceText(paths[0], string.Empty).Whole,
        paths.Length == 1 ? "no record names this picture" : $"no record names this picture, nor {paths.Length - 1} more in this folder",
        $"run `asfound intake {folder}`, and write in each new record what the picture shows; or put a dot at the start of its name");

    private static string FolderOf(string path) => path[..Math.Max(0, path.LastIndexOf('/'))];

    private static bool IsPicture(string path) => Pictures.Contains(Path.GetExtension(path), StringComparer.OrdinalIgnoreCase);
}

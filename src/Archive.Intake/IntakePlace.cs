using System.Collections.Immutable;
using Archive.Records.Reading;

namespace Archive.Intake;

/// <summary>Where photos come from, and where in the archive they will stand.</summary>
/// <param name="Content">Full path of the archive's folder.</param>
/// <param name="From">Full path of the folder that is taken in.</param>
/// <param name="Target">The folder of the archive in which they will stand, separated by <c>/</c>.</param>
/// <param name="IsCopied">Whether they come from outside.</param>
internal sealed record IntakePlace(string Content, string From, string Target, bool IsCopied)
{
    // What cameras write and the record takes; and what they write that is to be reported.
    private static readonly string[] Taken = [".jpg", ".jpeg", ".png", ".tif", ".tiff", ".webp", ".heic", ".heif", ".avif"];
    private static readonly string[] Told =
    [
        ".dng", ".cr2", ".cr3", ".nef", ".arw", ".raf", ".orf", ".rw2", ".gif", ".bmp"
    ];

    /// <summary>
    /// The pictures below the folder, ordinal, separated by <c>/</c>; names that begin with a dot, and links, are passed over.
    /// </summary>
    public ImmutableArray<string> Files =>
    [
        .. Directory.EnumerateFiles(
            From, "*", new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = FileAttributes.ReparsePoint })
            .Where(path => Taken.Concat(Told).Contains(System.IO.Path.GetExtension(path), StringComparer.OrdinalIgnoreCase))
            .Select(path => System.IO.Path.GetRelativePath(From, path).Replace('\\', '/'))
            .Where(ArchivePath.IsOfRecord)
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>Finds out where photos will stand.</summary>
    /// <param name="content">Full path of the archive's folder.</param>
    /// <param name="from">Full path of the folder that is taken in.</param>
    /// <returns>Null if it is in the archive, but not in its <c>photos</c>, or if the archive is in it.</returns>
    public static IntakePlace? Find(string content, string from)
    {
        var within = System.IO.Path.GetRelativePath(content, from).Replace('\\', '/');
        var isOutside = System.IO.Path.IsPathRooted(within) || within.Split('/')[0] == "..";
        var back = System.IO.Path.GetRelativePath(from, content).Replace('\\', '/');
        if (isOutside && !System.IO.Path.IsPathRooted(back) && back.Split('/')[0] != "..") return null;
        if (isOutside) return new IntakePlace(content, from, "photos/" + System.IO.Path.GetFileName(from), true);
        return within == "photos" || within.StartsWith("photos/", StringComparison.Ordinal)
            ? new IntakePlace(content, from, within, false)
            : null;
    }

    /// <summary>Full path of a picture where it comes from.</summary>
    public string FullPath(string path) => System.IO.Path.Combine(From, path);

    /// <summary>Full path of a picture, or of its sidecar, where it will stand.</summary>
    public string TargetOf(string path) => System.IO.Path.Combine(Content, Target, path);
}

using Archive.Publishing.Publication;
using Archive.Storage;

namespace Archive.Intake;

/// <summary>
/// Copies photos into the archive. A file that stands is never written to: a new one appears whole under a name that was free, or not at
/// all.
/// </summary>
internal static class IntakeWriter
{
    /// <summary>Copies a photo where that is needed.</summary>
    /// <param name="place">Where it comes from and will stand.</param>
    /// <exception cref="IOException">A link leads out of the archive, a file of that name appeared meanwhile, the copy differs from the
    /// original, or the disk won't take it.</exception>
    public static void Copy(IntakePhoto photo, IntakePlace place)
    {
        var target = place.TargetOf(photo.Path);
        if (!place.IsCopied || IsCopied(photo, place)) return;
        Appear(place, target, draft => File.Copy(place.FullPath(photo.Path), draft));
        if (SiteTree.Sha256Of(target) != photo.Photo.Sha256) throw new IOException($"{photo.Path} changed while it was being copied");
    }

    /// <summary>Whether exactly this photo is in its place already: an intake that ended between photo and sidecar left it there.</summary>
    /// <param name="place">Where it comes from and will stand.</param>
    public static bool IsCopied(IntakePhoto photo, IntakePlace place) =>
        place.TargetOf(photo.Path) is var target
            && File.Exists(target)
            && new FileInfo(target) is { LinkTarget: null, Length: > 0 }
            && SiteTree.Sha256Of(target) == photo.Photo.Sha256;

    private static void Appear(IntakePlace place, string path, Action<string> make)
    {
        var folder = Path.GetDirectoryName(path)!;
        if (RealPath.Resolve(folder)
            ?.StartsWith(RealPath.Resolve(place.Content) + Path.DirectorySeparatorChar, StringComparison.Ordinal) != true)
        {
            throw new IOException($"{folder} is behind a link that leads out of the archive; replace the link with a folder");
        }

        Directory.CreateDirectory(folder);
        var draft = Path.Combine(folder, $".{Guid.NewGuid():N}.part");
        try
        {
            make(draft);
            File.Move(draft, path, overwrite: false);
        }
        finally
        {
            File.Delete(draft);
        }
    }
}

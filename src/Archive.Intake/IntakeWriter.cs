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
        if (!place.IsCopied) return;
        Copy(photo.Path, photo.Photo.Sha256, place);
        if (photo.Photo.Raw is { } raw) Copy(raw.Path, raw.Sha256, place);
    }

    /// <summary>Whether exactly this file is in its place already: an intake that ended between photo and sidecar left it there.</summary>
    /// <param name="path">Its path below the folder that is taken in.</param>
    /// <param name="place">Where it comes from and will stand.</param>
    public static bool IsCopied(string path, string sha256, IntakePlace place) =>
        place.TargetOf(path) is var target
            && File.Exists(target)
            && new FileInfo(target) is { LinkTarget: null, Length: > 0 }
            && SiteTree.Sha256Of(target) == sha256;

    private static void Copy(string path, string sha256, IntakePlace place)
    {
        if (IsCopied(path, sha256, place)) return;
        var target = place.TargetOf(path);
        Appear(place, target, draft => File.Copy(place.FullPath(path), draft));
        if (SiteTree.Sha256Of(target) != sha256) throw new IOException($"{path} changed while it was being copied");
    }

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

using System.Collections.Concurrent;
using Archive.Photos.Images;

namespace Archive.Photos.Caching;

/// <summary>
/// Developed photos, kept in memory by what was asked for and by how the original looked: in one process, an unchanged photo costs no more
/// than a look at its file. Safe for use by many threads.
/// </summary>
public sealed class PhotoMemory
{
    private readonly ConcurrentDictionary<string, (FileStamp Mark, DevelopedPhoto Photo)> _photos = new(StringComparer.Ordinal);

    /// <summary>The photo that was made by the same request of the same file.</summary>
    /// <returns>Null where there is none, or the file, or what was made of it, may no longer be the same.</returns>
    internal DevelopedPhoto? Find(PhotoRequest request)
    {
        if (!_photos.TryGetValue(KeyOf(request), out var known) || FileStamp.Read(request.Source.FullPath) != known.Mark) return null;
        return File.Exists(known.Photo.All[0].Portfolio) ? known.Photo : null;
    }

    /// <summary>Keeps a photo.</summary>
    /// <param name="mark">How its original looked; its times were settled.</param>
    internal void Keep(PhotoRequest request, FileStamp mark, DevelopedPhoto photo) => _photos[KeyOf(request)] = (mark, photo);

    private static string KeyOf(PhotoRequest request) =>
        $"{request.Source.FullPath}\n{request.Source.Path}\n{request.Source.Sha256}\n{request.Recipe.KeyFor("")}";
}

using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Archive.Photos.Images;
using Archive.Storage;

namespace Archive.Photos.Caching;

/// <summary>What is remembered of an original.</summary>
/// <param name="Mark">How it looked.</param>
/// <param name="Sha256">Its SHA-256, lower-case hexadecimal.</param>
/// <param name="Reading">What its header said.</param>
internal sealed record CachedOriginal(FileStamp Mark, string Sha256, PhotoHeader Reading);

/// <summary>
/// Remembers originals, so that a big one is not read again while it looks the same. Its laws: a card counts only for the same
/// machine, full path, size and time of change; a file whose times were not settled when it was read (<see cref="FileTimes"/>) gets no
/// card. So a card never outlives a change made through the file system; a disk that rots silently is for a fixity audit, which reads every
/// byte.
/// </summary>
internal sealed class FileStampCache(FileCache cache, TimeProvider clock)
{
    // What is read of a header: where that changes, all are read again.
    private const string Reading = "reading 2";

    /// <summary>The card of an original.</summary>
    /// <param name="path">Full path.</param>
    /// <param name="mark">How it looks now.</param>
    /// <returns>Null if there is none, or it is of another state of the file.</returns>
    public CachedOriginal? Find(string path, FileStamp mark)
    {
        try
        {
            var card = cache.Text(NameOf(path)) is { } text
                ? JsonSerializer.Deserialize(text.Span, CacheJson.Default.CachedOriginal)
                : null;
            return card?.Mark == mark ? card : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>Remembers an original, unless it is too fresh.</summary>
    /// <param name="path">Full path.</param>
    /// <param name="card">What is to be remembered.</param>
    /// <param name="readAt">The time before it was read.</param>
    public void Keep(string path, CachedOriginal card, DateTimeOffset readAt)
    {
        if (!FileTimes.AreSettled(new DateTime(card.Mark.Changed, DateTimeKind.Utc), readAt.UtcDateTime)) return;
        cache.PutText(NameOf(path), JsonSerializer.Serialize(card, CacheJson.Default.CachedOriginal));
    }

    /// <summary>The time now, by the clock that cards go by.</summary>
    public DateTimeOffset Now => clock.GetUtcNow();

    private static string NameOf(string path)
    {
        var digits = Convert.ToHexStringLower(
            SHA256.HashData(Encoding.UTF8.GetBytes($"{Reading}\n{PhotoRecipe.Process}\n{Environment.MachineName}\n{path}")))[..32];
        return Path.Combine("originals", digits[..2], digits + ".json");
    }
}

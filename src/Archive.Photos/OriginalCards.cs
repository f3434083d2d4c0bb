using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace Archive.Photos;

/// <summary>How a file looked from outside when it was read.</summary>
/// <param name="Size">Size in bytes.</param>
/// <param name="Changed">Time of last change, UTC, in ticks of 100 ns.</param>
internal readonly record struct FileMark(long Size, long Changed)
{
    /// <summary>Looks at a file without opening it.</summary>
    /// <param name="path">Full path.</param>
    /// <exception cref="SpoiledException">There is no file, or nothing in it.</exception>
    public static FileMark Of(string path)
    {
        try
        {
            if (Directory.Exists(path)) throw new SpoiledException(PhotoFault.Unreadable, "is a folder, not a file");
            FileSystemInfo named = new FileInfo(path);
            var file = new FileInfo((named.ResolveLinkTarget(returnFinalTarget: true) ?? named).FullName); // a link would tell its own size
            if (!file.Exists) throw new SpoiledException(PhotoFault.Missing, "is missing");

            // Devices and pipes say 0 too: they are refused here, before anything waits for them.
            return file.Length > 0 ? new FileMark(file.Length, file.LastWriteTimeUtc.Ticks) : throw new SpoiledException(PhotoFault.Unreadable, "is empty");
        }
        catch (Exception fault) when (fault is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new SpoiledException(PhotoFault.Missing, "is missing");
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new SpoiledException(PhotoFault.Unreadable, "cannot be opened");
        }
    }
}

/// <summary>What is remembered of an original.</summary>
/// <param name="Mark">How it looked.</param>
/// <param name="Sha256">Its SHA-256, lower-case hexadecimal.</param>
/// <param name="Reading">What its header said.</param>
internal sealed record OriginalCard(FileMark Mark, string Sha256, PhotoReading Reading);

/// <summary>
/// Remembers originals, so that a big one is not read again while it looks the same. Its laws: a card counts only for the same
/// machine, full path, size and time of change; a file that changed within two seconds of being read gets no card, for it may change again
/// without
/// its time telling. So a card never outlives a change made through the file system; a disk that rots in silence is for a fixity audit,
/// which reads every byte.
/// </summary>
internal sealed class OriginalCards(Shelf shelf, TimeProvider clock)
{
    // What is read of a header: where that changes, all are read anew.
    private const string Reading = "reading 2";

    private static readonly TimeSpan Fresh = TimeSpan.FromSeconds(2);

    /// <summary>The card of an original.</summary>
    /// <param name="path">Full path.</param>
    /// <param name="mark">How it looks now.</param>
    /// <returns>Null if there is none, or it is of another state of the file.</returns>
    public OriginalCard? Find(string path, FileMark mark)
    {
        try
        {
            var card = shelf.Text(NameOf(path)) is { } text ? JsonSerializer.Deserialize(text.Span, CacheJson.Default.OriginalCard) : null;
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
    public void Keep(string path, OriginalCard card, DateTimeOffset readAt)
    {
        if (readAt.UtcDateTime - new DateTime(card.Mark.Changed, DateTimeKind.Utc) < Fresh) return;
        shelf.PutText(NameOf(path), JsonSerializer.Serialize(card, CacheJson.Default.OriginalCard));
    }

    /// <summary>The time now, by the clock that cards go by.</summary>
    public DateTimeOffset Now => clock.GetUtcNow();

    private static string NameOf(string path)
    {
        var digits = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{Reading}\n{PhotoRecipe.Process}\n{Environment.MachineName}\n{path}")))[..32];
        return Path.Combine("originals", digits[..2], digits + ".json");
    }
}

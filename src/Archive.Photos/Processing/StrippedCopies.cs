using System.Security.Cryptography;
using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Photos.Metadata;

namespace Archive.Photos.Processing;

/// <summary>
/// Stripped copies kept from run to run, each under the checksum of its original and its own. Their laws: a copy depends on nothing but its
/// original's bytes and the way of stripping; it appears whole, after it was read back, or not at all; one whose bytes are not those that
/// its name states is a miss, and made again.
/// </summary>
internal sealed class StrippedCopies(FileCache cache)
{
    // What is kept and what goes: where that changes, all copies are made again.
    private const string Way = "stripped-1";

    /// <summary>The copy of an original.</summary>
    /// <param name="sha256">SHA-256 of the original.</param>
    /// <returns>Null if there is none that is whole.</returns>
    public (string Path, string Sha256)? Find(string sha256)
    {
        if (cache.Text(CardOf(sha256)) is not { } card
            || System.Text.Encoding.ASCII.GetString(card.Span) is not { Length: 64 } copy) return null;
        var path = cache.PathOf(NameOf(sha256));
        try
        {
            return File.Exists(path) && Checksum(path) == copy ? (path, copy) : null;
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>Makes the copy of an original.</summary>
    /// <param name="sha256">SHA-256 of the original.</param>
    /// <param name="original">Full path of the original.</param>
    /// <param name="reading">What its header says.</param>
    /// <param name="requireUnchanged">Throws if the original changed meanwhile.</param>
    /// <exception cref="UnusablePhotoException">It cannot be copied so.</exception>
    /// <exception cref="IOException">The disk won't take it.</exception>
    public (string Path, string Sha256) Make(string sha256, string original, PhotoHeader reading, Action requireUnchanged)
    {
        var exif = reading.Format == PhotoFormat.Tiff
            ? null
            : SparseExif.Create(reading.Orientation, PrivateNotes.IsAdobeRgb(ImageReader.Exif(original, reading.Format)));
        var copy = "";
        cache.Put(NameOf(sha256), to =>
        {
            using var from = new FileStream(original, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16);
            MetadataStripping.Write(from, reading.Format, exif, to);
        },
        draft =>
        {
            MetadataStripping.Verify(draft, reading, exif);
            requireUnchanged();
            copy = Checksum(draft);
        });
        cache.PutText(CardOf(sha256), copy);
        return (cache.PathOf(NameOf(sha256)), copy);
    }

    private static string Checksum(string path)
    {
        using var stream = new FileStream(path, new FileStreamOptions { Options = FileOptions.SequentialScan, BufferSize = 0 });
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }

    private static string NameOf(string sha256) => Path.Combine(Way, sha256[..2], sha256 + ".picture");

    private static string CardOf(string sha256) => Path.Combine(Way, sha256[..2], sha256 + ".sum");
}

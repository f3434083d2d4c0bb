using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;
using Archive.Photos.Images;
using Archive.Photos.Measures;
using Archive.Photos.Metadata;

namespace Archive.Photos.Caching;

/// <summary>All derivatives of one photo, with what was measured of it.</summary>
/// <param name="Measures">What was measured.</param>
/// <param name="Derivatives">The derivatives, in the order in which they were made.</param>
internal sealed record CachedDerivatives(PhotoMeasures Measures, ImmutableArray<Derivative> Derivatives);

/// <summary>
/// Derivatives kept from run to run, those of a photo in one file: a line with the SHA-256 of the next, a line that lists them, then their
/// bytes. A photo may have two hundred; in files of their own they would be slow to copy to another machine, and could be there in part.
/// Its laws:
/// <list type="number">
/// <item>A portfolio depends on nothing but its key: the original's SHA-256, the recipe, and the process that makes derivatives of them.
/// Another of these, another key. The first half of a key decides the pixels, the second the rights that the files state: those are put
/// into files of known pixels without decoding anything.</item>
/// <item>Nothing in it changes once it stands.</item>
/// <item>Every file appears whole or not at all. Builds may run at once, and machines may share the folder: they write the same bytes to
/// the same names.</item>
/// <item>Whatever is missing, cut off or altered is a miss, never an error: it is made again. The list carries its checksum, and in it each
/// derivative its own. A portfolio has a fixed time of change from when its bytes were known to be right; one that has another time was
/// touched or copied, so it is read through and compared before it is used.</item>
/// <item>It may be deleted at any moment between runs, whole or in part; that costs time, nothing else.</item>
/// </list>
/// </summary>
internal sealed partial class DerivativeCache(FileCache cache)
{
    private const string Ending = ".portfolio";
    private const int ChecksumDigits = 64;
    private const int LongestList = 1 << 24;

    private static readonly DateTime Known = new(2000, 1, 1, 0, 0, 0, DateTimeKind.Utc);

    /// <summary>The portfolio kept under a key.</summary>
    /// <returns>Whole; null if it isn't there or isn't whole.</returns>
    public CachedDerivatives? Find(PhotoKey key) => At(cache.PathOf(NameOf(key)));

    /// <summary>Pictures with the same pixels, whatever rights they state.</summary>
    /// <param name="key">The second half of it does not matter.</param>
    /// <returns>Each with its bytes, which were compared with their checksums; null if there are none.</returns>
    public (PhotoMeasures Measures, ImmutableArray<Rendition> Pictures)? FindPixels(PhotoKey key)
    {
        var folder = Path.GetDirectoryName(cache.PathOf(NameOf(key)))!;
        if (!Directory.Exists(folder)) return null;
        foreach (var path in Directory.EnumerateFiles(folder, $"{key.Pixels}-*{Ending}").Order(StringComparer.Ordinal))
        {
            if (At(path) is { } kept && Bytes(kept) is { } pictures) return (kept.Measures, pictures);
        }

        return null;
    }

    private static ImmutableArray<Rendition>? Bytes(CachedDerivatives kept)
    {
        var pictures = ImmutableArray.CreateBuilder<Rendition>(kept.Derivatives.Length);
        foreach (var derivative in kept.Derivatives)
        {
            byte[] content;
            try
            {
                content = derivative.Read();
            }
            catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
            {
                return null;
            }

            if (ChecksumOf(content) != derivative.Sha256) return null;
            pictures.Add(new Rendition(derivative.Kind, derivative.Width, derivative.Height, derivative.Path, content));
        }

        return pictures.ToImmutable();
    }

    private static CachedDerivatives? At(string path)
    {
        try
        {
            if (!File.Exists(path)) return null;
            using var file = File.OpenHandle(path);
            if (List(file) is not var (list, start) || Bound(list, path, start) is not { } portfolio) return null;
            if (RandomAccess.GetLength(file) != start + list.Pieces.Sum(piece => (long)piece.Bytes)) return null;
            if (File.GetLastWriteTimeUtc(file) == Known) return portfolio;
            if (!portfolio.Derivatives.All(derivative => ChecksumOf(derivative.Read()) == derivative.Sha256)) return null;
            File.SetLastWriteTimeUtc(path, Known);
            return portfolio;
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException or JsonException)
        {
            return null;
        }
    }

    /// <summary>Keeps a portfolio.</summary>
    /// <param name="measures">What was measured.</param>
    /// <param name="prints">The derivatives.</param>
    /// <exception cref="IOException">The disk won't take it.</exception>
    public CachedDerivatives Keep(PhotoKey key, PhotoMeasures measures, IReadOnlyList<Rendition> prints)
    {
        var list = new CachedDerivativeList(
            measures, [.. prints.Select(rendition =>
                new CachedDerivative(
                    rendition.Kind,
                    rendition.Width,
                    rendition.Height,
                    rendition.Path,
                    ChecksumOf(rendition.Content),
                    rendition.Content.Length))]);
        var text = JsonSerializer.SerializeToUtf8Bytes(list, CacheJson.Default.CachedDerivativeList);
        byte[] head = [.. Encoding.ASCII.GetBytes(ChecksumOf(text)), (byte)'\n', .. text, (byte)'\n'];
        var path = cache.PathOf(NameOf(key));
        cache.Put(NameOf(key), [head, .. prints.Select(rendition => rendition.Content)]);

        // Not before it stands: a draft that has an old time would be swept by another run. One stamped too late is read through, no more.
        File.SetLastWriteTimeUtc(path, Known);
        return Bound(list, path, head.Length)!;
    }

    private static string NameOf(PhotoKey key) => Path.Combine("portfolios", key.Pixels[..2], key + Ending);

    private static string ChecksumOf(ReadOnlySpan<byte> content) => Convert.ToHexStringLower(SHA256.HashData(content));

    // The list, and where the first derivative begins.
    private static (CachedDerivativeList List, long Start)? List(Microsoft.Win32.SafeHandles.SafeFileHandle file)
    {
        var head = new byte[(int)Math.Min(RandomAccess.GetLength(file), 1 << 15)];
        if (RandomAccess.Read(file, head, 0) != head.Length || head.Length <= ChecksumDigits || head[ChecksumDigits] != '\n') return null;
        var end = head.AsSpan(ChecksumDigits + 1).IndexOf((byte)'\n');
        if (end < 0)
        {
            head = new byte[(int)Math.Min(RandomAccess.GetLength(file), LongestList)];
            if (RandomAccess.Read(file, head, 0) != head.Length) return null;
            end = head.AsSpan(ChecksumDigits + 1).IndexOf((byte)'\n');
            if (end < 0) return null;
        }

        var text = head.AsSpan(ChecksumDigits + 1, end);
        if (!head.AsSpan(0, ChecksumDigits).SequenceEqual(Encoding.ASCII.GetBytes(ChecksumOf(text)))) return null;
        return JsonSerializer.Deserialize(text, CacheJson.Default.CachedDerivativeList) is { } list
            ? (list, ChecksumDigits + 1 + end + 1)
            : null;
    }

    // A list is no order to read or write elsewhere: paths are held to their shape, even under a right checksum.
    private static CachedDerivatives? Bound(CachedDerivativeList list, string path, long start)
    {
        var derivatives = ImmutableArray.CreateBuilder<Derivative>();
        foreach (var piece in list.Pieces)
        {
            if (piece is null
                || piece.Bytes <= 0
                || !PathShape().IsMatch(piece.Path)
                || !ChecksumShape().IsMatch(piece.Sha256)) return null;
            derivatives.Add(new Derivative(piece.Kind, piece.Width, piece.Height, piece.Path, piece.Sha256, piece.Bytes, path, start));
            start += piece.Bytes;
        }

        return derivatives.Any(derivative => derivative.Kind == DerivativeKind.Print)
            ? new CachedDerivatives(list.Measures, derivatives.ToImmutable())
            : null;
    }

    [GeneratedRegex(
        "^(credited[.]jpg|(full|[0-9]+,[0-9]+,[0-9]+,[0-9]+)/(max|[0-9]+,[0-9]+)/0/default[.](jpg|webp))\\z",
        RegexOptions.CultureInvariant)]
    private static partial Regex PathShape();

    [GeneratedRegex("^[0-9a-f]{64}\\z", RegexOptions.CultureInvariant)]
    private static partial Regex ChecksumShape();
}

/// <summary>A derivative as a portfolio lists it.</summary>
internal sealed record CachedDerivative(DerivativeKind Kind, int Width, int Height, string Path, string Sha256, int Bytes);

/// <summary>What a portfolio lists.</summary>
internal sealed record CachedDerivativeList(PhotoMeasures Measures, CachedDerivative[] Pieces);

/// <summary>How the cache's texts are written.</summary>
[JsonSourceGenerationOptions(RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true)]
[JsonSerializable(typeof(CachedDerivativeList))]
[JsonSerializable(typeof(CachedOriginal))]
[JsonSerializable(typeof(PhotoMeasures))]
[JsonSerializable(typeof(string[]))]
[JsonSerializable(typeof(PrivateNote[]))]
internal sealed partial class CacheJson : JsonSerializerContext;

using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;

namespace Archive.Photos;

/// <summary>
/// Prints kept from run to run. Its laws:
/// <list type="number">
/// <item>An entry depends on nothing but its key: the original's SHA-256, the recipe, and the process that makes prints of them. Another of
/// these, another key.</item>
/// <item>Nothing in it changes once it stands. A print is named by its content; an entry is written after its prints, so what an entry
/// names was there.</item>
/// <item>Every file appears whole or not at all. Builds may run at once, and machines may share the folder: they write the same bytes to
/// the same names.</item>
/// <item>Whatever is missing, cut off or altered is a miss, never a fault: it is made again. An entry carries its checksum. A print bears a
/// fixed
/// time of change from when its bytes were known to be right; one that bears another time was touched or copied, so it is read and compared
/// with its name before it is used.</item>
/// <item>It may be deleted at any moment between runs, whole or in part; that costs time, nothing else.</item>
/// </list>
/// </summary>
internal sealed partial class PrintCache(Shelf shelf)
{
    private static readonly DateTime Known = new(2000, 1, 1, 0, 0, 0, DateTimeKind.Utc);

    /// <summary>The prints kept under a key.</summary>
    /// <returns>All of them, each whole; null if any is not.</returns>
    public ImmutableArray<Derivative>? Find(string key)
    {
        if (shelf.Text(EntryName(key)) is not { } text) return null;
        try
        {
            var kept = JsonSerializer.Deserialize(text.Span, CacheJson.Default.KeptPrintArray);
            if (kept is not { Length: > 0 } || !Array.TrueForAll(kept, IsWhole)) return null;
            return [.. kept.Select(print => new Derivative(print.Width, print.Height, print.Name, print.Bytes, PathOf(print.Name)))];
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>Keeps a print under its content's name.</summary>
    /// <exception cref="IOException">The disk won't take it.</exception>
    public Derivative Keep(Print print)
    {
        var name = NameOf(print.Jpeg);
        var kept = new KeptPrint(print.Width, print.Height, name, print.Jpeg.Length);
        if (!IsWhole(kept)) shelf.Put(Path.Combine("jpeg", name), print.Jpeg, Known);
        return new Derivative(print.Width, print.Height, name, print.Jpeg.Length, PathOf(name));
    }

    /// <summary>Writes the entry of prints that are all kept.</summary>
    /// <exception cref="IOException">The disk won't take it.</exception>
    public void Seal(string key, ImmutableArray<Derivative> prints) => shelf.PutText(EntryName(key), JsonSerializer.Serialize(
        [.. prints.Select(print => new KeptPrint(print.Width, print.Height, print.Name, print.Bytes))], CacheJson.Default.KeptPrintArray));

    private static string EntryName(string key) => Path.Combine("prints", key[..2], key + ".json");

    private static string NameOf(ReadOnlySpan<byte> content)
    {
        var digits = Convert.ToHexStringLower(SHA256.HashData(content))[..32];
        return $"{digits[..2]}/{digits}.jpg";
    }

    private string PathOf(string name) => shelf.PathOf(Path.Combine("jpeg", name));

    private bool IsWhole(KeptPrint? print)
    {
        try
        {
            if (print is null || !PrintName().IsMatch(print.Name)) return false;
            var file = new FileInfo(PathOf(print.Name));
            if (!file.Exists || file.Length != print.Bytes) return false;
            if (file.LastWriteTimeUtc == Known) return true;
            if (NameOf(File.ReadAllBytes(file.FullName)) != print.Name) return false;
            file.LastWriteTimeUtc = Known;
            return true;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    [GeneratedRegex("^[0-9a-f]{2}/[0-9a-f]{32}[.]jpg\\z", RegexOptions.CultureInvariant)]
    private static partial Regex PrintName();
}

/// <summary>A print as an entry writes it down.</summary>
internal sealed record KeptPrint(int Width, int Height, string Name, long Bytes);

/// <summary>How the cache's texts are written.</summary>
[JsonSourceGenerationOptions(RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true)]
[JsonSerializable(typeof(KeptPrint[]))]
[JsonSerializable(typeof(OriginalCard))]
internal sealed partial class CacheJson : JsonSerializerContext;

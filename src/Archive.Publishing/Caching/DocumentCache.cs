using System.Text.Json;
using System.Text.Json.Serialization;
using Archive.Documents.Inspection;
using Archive.Documents.Pdf;

namespace Archive.Publishing.Caching;

/// <summary>
/// What is known of the files of documents: their checksums while they are unchanged, and the text of each PDF by its checksum.
/// </summary>
internal sealed class DocumentCache(CacheFolder cache) : DocumentMemory
{
    private readonly InputStamps _stamps = InputStamps.Open(cache, TimeProvider.System, "documents.bin");

    public override string? Checksum(string fullPath) => _stamps.Checksum(fullPath, isPicture: false) is { Length: 64 } sum ? sum : null;

    public override PdfText? Find(string sha256)
    {
        if (cache.Read(NameOf(sha256)) is not { } kept) return null;
        try
        {
            return JsonSerializer.Deserialize(kept, DocumentJson.Default.PdfText);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    public override void Keep(string sha256, PdfText text)
    {
        // What time alone decided is tried again.
        if (text.Unread is null || !text.Pages.IsEmpty)
            cache.Replace(NameOf(sha256), stream => JsonSerializer.Serialize(stream, text, DocumentJson.Default.PdfText));
    }

    /// <summary>Keeps the checksums for the next run.</summary>
    internal void Keep() => _stamps.Keep();

    // Another way of reading, another name.
    private static string NameOf(string sha256) => Path.Combine("pdf-1", sha256[..2], sha256 + ".json");
}

/// <summary>How the texts of documents are written.</summary>
[JsonSourceGenerationOptions(RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true)]
[JsonSerializable(typeof(PdfText))]
internal sealed partial class DocumentJson : JsonSerializerContext;

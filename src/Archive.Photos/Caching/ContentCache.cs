using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

namespace Archive.Photos.Caching;

/// <summary>
/// Remembers what was found in originals, by their checksum and the way of finding it: the same bytes are looked at once.
/// </summary>
/// <typeparam name="T">What is found.</typeparam>
/// <param name="cache">Where cards are kept.</param>
/// <param name="way">The way of finding it; another way, another name.</param>
/// <param name="shape">How it is written.</param>
internal sealed class ContentCache<T>(FileCache cache, string way, JsonTypeInfo<T> shape)
    where T : class
{
    /// <summary>What was found.</summary>
    /// <param name="sha256">SHA-256 of the original, lower-case hexadecimal.</param>
    /// <returns>Null if that is not known.</returns>
    public T? Find(string sha256)
    {
        try
        {
            return cache.Text(NameOf(sha256)) is { } text ? JsonSerializer.Deserialize(text.Span, shape) : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>Remembers what was found.</summary>
    /// <param name="sha256">SHA-256 of the original.</param>
    /// <param name="found">What was found.</param>
    /// <exception cref="IOException">The disk won't take it.</exception>
    public void Keep(string sha256, T found) => cache.PutText(NameOf(sha256), JsonSerializer.Serialize(found, shape));

    private string NameOf(string sha256) => Path.Combine(way, sha256[..2], sha256 + ".json");
}

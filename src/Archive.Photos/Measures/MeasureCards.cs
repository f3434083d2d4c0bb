using System.Text.Json;

namespace Archive.Photos;

/// <summary>Remembers what was measured of an original, by its checksum and the way of measuring: the same bytes are measured once.</summary>
internal sealed class MeasureCards(Shelf shelf)
{
    // Another way of measuring, another number.
    private const string Way = "measures-1";

    /// <summary>What was measured.</summary>
    /// <param name="sha256">SHA-256 of the original, lower-case hexadecimal.</param>
    /// <returns>Null if that is not known.</returns>
    public PhotoMeasures? Find(string sha256)
    {
        try
        {
            return shelf.Text(NameOf(sha256)) is { } text ? JsonSerializer.Deserialize(text.Span, CacheJson.Default.PhotoMeasures) : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>Remembers what was measured.</summary>
    /// <param name="sha256">SHA-256 of the original.</param>
    /// <param name="measures">What was measured.</param>
    /// <exception cref="IOException">The disk won't take it.</exception>
    public void Keep(string sha256, PhotoMeasures measures) => shelf.PutText(NameOf(sha256), JsonSerializer.Serialize(measures, CacheJson.Default.PhotoMeasures));

    private static string NameOf(string sha256) => Path.Combine(Way, sha256[..2], sha256 + ".json");
}

using System.Text.Json.Serialization;
using Archive.Photos.Images;

namespace Archive.Photos.Measures;

/// <summary>
/// A picture as 32 x 32 shades of grey, whatever its shape: enough to know it again after it was re-encoded, resized, turned or cut a
/// little at the edges, where a <see cref="ImageFingerprint"/> does not.
/// </summary>
/// <param name="Base64">The shades, row by row, one byte each, in Base64.</param>
public sealed record Miniature(string Base64)
{
    /// <summary>Shades a side.</summary>
    internal const int Side = 32;

    // A side, in each shade: sums settle whatever the size of the picture, and the cost stays that of 262,144 pixels.
    private const int Samples = 16;

    private byte[]? _shades;

    /// <summary>The shades, row by row; empty where what was kept is no miniature.</summary>
    [JsonIgnore]
    internal ReadOnlySpan<byte> Shades => _shades ??= Decode(Base64);

    /// <summary>Whether another miniature is the same.</summary>
    public bool Equals(Miniature? other) => other is not null && Base64 == other.Base64;

    public override int GetHashCode() => Base64.GetHashCode(StringComparison.Ordinal);

    /// <summary>The miniature of a picture.</summary>
    /// <param name="pixels">The picture, upright.</param>
    internal static Miniature Create(PixelBuffer pixels)
    {
        const int across = Side * Samples;
        var columns = new int[across];
        for (var x = 0; x < across; x++) columns[x] = (int)((long)x * pixels.Width / across) * PixelBuffer.Bands;
        var sums = new int[Side * Side];
        for (var y = 0; y < across; y++)
        {
            var row = pixels.Row((int)((long)y * pixels.Height / across));
            var line = sums.AsSpan(y / Samples * Side, Side);
            for (var x = 0; x < across; x++)
            {
                var at = columns[x];
                line[x / Samples] += (2 * row[at]) + (5 * row[at + 1]) + row[at + 2];
            }
        }

        return new Miniature(Convert.ToBase64String([.. sums.Select(sum => (byte)(sum / (8 * Samples * Samples)))]));
    }

    private static byte[] Decode(string text)
    {
        var shades = new byte[Side * Side];
        return Convert.TryFromBase64String(text, shades, out var length) && length == shades.Length ? shades : [];
    }
}

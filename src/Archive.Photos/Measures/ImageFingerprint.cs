using System.Numerics;
using Archive.Photos.Images;

namespace Archive.Photos.Measures;

/// <summary>What a picture looks like in the large: for 8 x 8 places whether it grows clearly lighter to the right, and for as many whether
/// downward. Two photos of one subject from one place differ in few of the 128 answers, whatever their size, light and compression
/// ("difference hash", common practice, no source).</summary>
/// <param name="Across">The answers to the right, the top left place in the lowest bit.</param>
/// <param name="Down">The answers downward.</param>
public sealed record ImageFingerprint(ulong Across, ulong Down)
{
    private const int Places = 8;
    private const int Samples = 24; // a side, in each place: sums settle, the cost stays that of 46,656 pixels

    // Two steps of 255: on a plain wall the answer is "no" on both sides, and not what the grain says.
    private const int Margin = 2 * 8 * Samples * Samples;

    /// <summary>In how many of the 128 answers two pictures differ.</summary>
    /// <param name="other">The other picture.</param>
    public int DistanceTo(ImageFingerprint other) =>
        BitOperations.PopCount(Across ^ other.Across) + BitOperations.PopCount(Down ^ other.Down);

    /// <summary>What a picture looks like.</summary>
    /// <param name="pixels">The picture, upright.</param>
    internal static ImageFingerprint Compute(PixelBuffer pixels)
    {
        const int side = Places + 1;
        var sums = new int[side, side];
        for (var y = 0; y < side * Samples; y++)
        {
            var row = pixels.Row((int)((long)y * pixels.Height / (side * Samples)));
            for (var x = 0; x < side * Samples; x++)
            {
                var at = (int)((long)x * pixels.Width / (side * Samples)) * PixelBuffer.Bands;
                sums[y / Samples, x / Samples] += (2 * row[at]) + (5 * row[at + 1]) + row[at + 2];
            }
        }

        ulong across = 0, down = 0;
        for (var i = 0; i < Places * Places; i++)
        {
            var (y, x) = (i / Places, i % Places);
            if (sums[y, x + 1] > sums[y, x] + Margin) across |= 1UL << i;
            if (sums[y + 1, x] > sums[y, x] + Margin) down |= 1UL << i;
        }

        return new ImageFingerprint(across, down);
    }
}

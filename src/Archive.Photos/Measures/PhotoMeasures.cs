using Archive.Photos.Images;

namespace Archive.Photos.Measures;

/// <summary>What can be said of a photo without looking at it: is it sharp, is it well lit, which others look like it.</summary>
/// <param name="Sharpness">Variance of the Laplacian of lightness (0 to 255) at half size, in the sharpest eighth of 64 fields over the
/// picture. It has a meaning only beside other photos of the same camera.</param>
/// <param name="Lightness">Mean lightness, 0 to 1.</param>
/// <param name="Dark">Share of it that is black, 0 to 1: nothing can be read there.</param>
/// <param name="Burnt">Share of it that is white, 0 to 1.</param>
/// <param name="Likeness">What it looks like, in the large.</param>
/// <param name="Miniature">What it looks like, so that copies of it are known.</param>
public sealed record PhotoMeasures(
    double Sharpness, double Lightness, double Dark, double Burnt, ImageFingerprint Likeness, Miniature Miniature)
{
    private const int FieldsAcross = 8;
    private const int LargestField = 64; // at half size: fields of 128 px, so that the cost does not grow with the picture
    private const int Sharpest = FieldsAcross * FieldsAcross / 8;
    private const int Black = 8;
    private const int White = 247;

    /// <summary>Measures a picture.</summary>
    /// <param name="pixels">The picture, upright, before anything is hidden in it.</param>
    internal static PhotoMeasures Compute(PixelBuffer pixels)
    {
        var (across, down) = (pixels.Width / 2 / FieldsAcross, pixels.Height / 2 / FieldsAcross);
        var (width, height) = (Math.Min(LargestField, across), Math.Min(LargestField, down));
        var variances = new List<double>();
        var light = new LightTally();
        var field = new int[width * height];
        for (var i = 0; i < FieldsAcross * FieldsAcross && field.Length > 0; i++)
        {
            // In the middle of its part of the picture.
            var left = (i % FieldsAcross * across) + ((across - width) / 2);
            var top = (i / FieldsAcross * down) + ((down - height) / 2);
            Read(pixels, left, top, width, field);
            light.Add(field);
            variances.Add(LaplacianVariance(field, width, height));
        }

        var sharpness = variances.OrderDescending().Take(Sharpest).DefaultIfEmpty(0).Average();
        return new PhotoMeasures(
            Math.Round(sharpness, 2),
            light.Mean,
            light.Share(light.Dark),
            light.Share(light.Burnt),
            ImageFingerprint.Compute(pixels),
            Miniature.Create(pixels));
    }

    // Lightness at half size: four pixels' (2 red + 5 green + 1 blue), near enough to Rec. 601 for edges, in whole numbers the same on
    // every machine.
    private static void Read(PixelBuffer pixels, int left, int top, int width, Span<int> field)
    {
        for (var y = 0; y < field.Length / width; y++)
        {
            var upper = pixels.Row(2 * (top + y))[(2 * left * PixelBuffer.Bands)..];
            var lower = pixels.Row((2 * (top + y)) + 1)[(2 * left * PixelBuffer.Bands)..];
            for (var x = 0; x < width; x++)
            {
                var at = 2 * x * PixelBuffer.Bands;
                var red = upper[at] + upper[at + 3] + lower[at] + lower[at + 3];
                var green = upper[at + 1] + upper[at + 4] + lower[at + 1] + lower[at + 4];
                var blue = upper[at + 2] + upper[at + 5] + lower[at + 2] + lower[at + 5];
                field[(y * width) + x] = ((2 * red) + (5 * green) + blue) / 32;
            }
        }
    }

    /// <summary>Variance of the Laplacian with four neighbours (0 1 0, 1 -4 1, 0 1 0), the edge left out.</summary>
    /// <param name="field">Lightness, row by row.</param>
    /// <param name="width">Width of a row.</param>
    /// <param name="height">Rows.</param>
    internal static double LaplacianVariance(ReadOnlySpan<int> field, int width, int height)
    {
        if (width < 3 || height < 3) return 0;
        long sum = 0, squares = 0;
        for (var y = 1; y < height - 1; y++)
        {
            for (var x = 1; x < width - 1; x++)
            {
                var at = (y * width) + x;
                var bend = field[at - 1] + field[at + 1] + field[at - width] + field[at + width] - (4 * field[at]);
                sum += bend;
                squares += (long)bend * bend;
            }
        }

        var count = (double)(width - 2) * (height - 2);
        return (squares / count) - (sum / count * (sum / count));
    }

    private sealed class LightTally
    {
        private long _count;
        private long _sum;

        public long Dark { get; private set; }

        public long Burnt { get; private set; }

        public double Mean => _count == 0 ? 0 : Math.Round(_sum / 255.0 / _count, 4);

        public double Share(long part) => _count == 0 ? 0 : Math.Round((double)part / _count, 4);

        public void Add(ReadOnlySpan<int> field)
        {
            foreach (var light in field)
            {
                _sum += light;
                if (light <= Black) Dark++;
                if (light >= White) Burnt++;
            }

            _count += field.Length;
        }
    }
}

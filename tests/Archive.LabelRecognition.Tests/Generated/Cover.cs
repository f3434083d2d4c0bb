using Archive.LabelRecognition.Pictures;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>
/// A clear cover over a label: its bubbles refract, print is seen a second time beside itself, and the weave of a cord runs across. Wear
/// that nothing is fitted on.
/// </summary>
internal static class Cover
{
    /// <summary>Puts it on a picture.</summary>
    /// <param name="image">The picture.</param>
    /// <param name="height">Of the line, pixels.</param>
    /// <param name="random">What it is drawn by.</param>
    internal static RgbImage On(RgbImage image, double height, Random random)
    {
        var (width, tall) = (image.Width, image.Height);
        var bubbles = Enumerable.Range(0, 3 + random.Next(6)).Select(_ => (
            X: random.NextDouble() * width, Y: random.NextDouble() * tall, Size: height * (0.12 + (0.3 * random.NextDouble())),
            Bend: (random.NextDouble() - 0.5) * 1.1)).ToList();
        var (againX, againY, again) = (
            height * (0.12 + (0.15 * random.NextDouble())), height * 0.3 * (random.NextDouble() - 0.5), 0.15 + (0.2 * random.NextDouble()));
        var (cordX, cordSlope, cordWidth, pitch) = (
            random.NextDouble() * width, random.NextDouble() - 0.5, height * (0.07 + (0.06 * random.NextDouble())), height * 0.12);
        var thread = 90 + (random.NextDouble() * 120);
        var pixels = new byte[image.Pixels.Length];
        for (var y = 0; y < tall; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var (fromX, fromY, rim) = ((double)x, (double)y, 0.0);
                foreach (var bubble in bubbles)
                {
                    var (dx, dy) = (x - bubble.X, y - bubble.Y);
                    var from = Math.Sqrt((dx * dx) + (dy * dy)) / bubble.Size;
                    if (from >= 1) continue;
                    (fromX, fromY) = (fromX + (bubble.Bend * dx * (1 - from)), fromY + (bubble.Bend * dy * (1 - from)));
                    rim += 60 * Math.Max(0, (from * 8) - 7) * (dy < 0 ? 1 : -0.6);
                }

                var across = Math.Abs(x - cordX - (cordSlope * y)) / cordWidth;
                var twist = thread * (0.75 + (0.25 * Math.Sin(((y + (x * 0.6)) * 2 * Math.PI) / pitch))) * (1 - (0.3 * across * across));
                for (var band = 0; band < RgbImage.Bands; band++)
                {
                    var value = ((1 - again) * At(fromX, fromY, band)) + (again * At(fromX + againX, fromY + againY, band)) + rim;
                    pixels[(((y * width) + x) * RgbImage.Bands) + band] = (byte)Math.Clamp(across < 1 ? twist : value, 0, 255);
                }
            }
        }

        return new RgbImage(width, tall, pixels);

        double At(double x, double y, int band)
        {
            (x, y) = (Math.Clamp(x, 0, width - 1), Math.Clamp(y, 0, tall - 1));
            var (left, top) = ((int)x, (int)y);
            var (right, bottom, partX, partY) = (Math.Min(left + 1, width - 1), Math.Min(top + 1, tall - 1), x - left, y - top);
            return (((Pixel(left, top) * (1 - partX)) + (Pixel(right, top) * partX)) * (1 - partY))
                + (((Pixel(left, bottom) * (1 - partX)) + (Pixel(right, bottom) * partX)) * partY);

            double Pixel(int column, int row) => image.Pixels[(((row * width) + column) * RgbImage.Bands) + band];
        }
    }
}

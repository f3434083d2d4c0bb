using Archive.LabelRecognition.Pictures;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>A shaken camera, smudges and a lamp that is reflected: wear that nothing is fitted on.</summary>
internal static class Soil
{
    // Places along the way that the camera moved.
    private const int Steps = 9;

    /// <summary>Puts it on a picture.</summary>
    /// <param name="image">The picture.</param>
    /// <param name="height">Of the line, pixels.</param>
    /// <param name="random">What it is drawn by.</param>
    internal static RgbImage On(RgbImage image, double height, Random random)
    {
        var (width, tall) = (image.Width, image.Height);
        var (sin, cos) = Math.SinCos(random.NextDouble() * Math.PI);
        var way = height * (0.08 + (0.12 * random.NextDouble()));
        var smudges = Enumerable.Range(0, 1 + random.Next(3)).Select(_ => (
            X: random.NextDouble() * width, Y: random.NextDouble() * tall, Size: height * (0.25 + (0.4 * random.NextDouble())),
            Light: random.Next(90), Much: 0.3 + (0.35 * random.NextDouble()))).ToList();
        var (glareX, glareSlope, glareWidth, glareMuch) = (
            random.NextDouble() * width, random.NextDouble() - 0.5,
            height * (0.4 + random.NextDouble()), 0.4 + (0.35 * random.NextDouble()));
        var pixels = new byte[image.Pixels.Length];
        for (var y = 0; y < tall; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var glare = glareMuch * Bell(x - glareX - (glareSlope * y), glareWidth);
                for (var band = 0; band < RgbImage.Bands; band++)
                {
                    double value = 0;
                    for (var step = 0; step < Steps; step++)
                    {
                        var by = way * ((step / (Steps - 1.0)) - 0.5);
                        var (column, row) = (
                            Math.Clamp((int)Math.Round(x + (by * cos)), 0, width - 1),
                            Math.Clamp((int)Math.Round(y + (by * sin)), 0, tall - 1));
                        value += image.Pixels[(((row * width) + column) * RgbImage.Bands) + band] / (double)Steps;
                    }

                    foreach (var smudge in smudges)
                    {
                        var much = smudge.Much * Bell(Math.Sqrt(Math.Pow(x - smudge.X, 2) + Math.Pow(y - smudge.Y, 2)), smudge.Size);
                        value += much * (smudge.Light - value);
                    }

                    pixels[(((y * width) + x) * RgbImage.Bands) + band] = (byte)Math.Clamp(value + (glare * (255 - value)), 0, 255);
                }
            }
        }

        return new RgbImage(width, tall, pixels);
    }

    private static double Bell(double from, double width) => Math.Exp(-Math.Pow(from / width, 2));
}

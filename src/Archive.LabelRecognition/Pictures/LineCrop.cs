namespace Archive.LabelRecognition.Pictures;

/// <summary>Cuts a line out of a picture: straightened, grey, noise smoothed, and from dark to light as far as it goes.</summary>
internal static class LineCrop
{
    // Where a line is made smaller, each pixel is the mean of so many each way at most.
    private const int MostSamples = 6;

    // Beyond these shares of the pixels all is dark, or light.
    private const double Dark = 0.02;
    private const double Light = 0.98;

    // A line with less contrast is not stretched further: it would be noise.
    private const float LeastContrast = 24;

    // Noise of this part of the contrast is smoothed by a Gaussian of one pixel of the photo; chosen on the generated set.
    private const double NoiseForOnePixel = 0.1;
    private const double MostSmoothing = 1.3;
    private const double LeastSmoothing = 0.3;

    /// <summary>Cuts it out.</summary>
    /// <param name="image">The picture.</param>
    /// <param name="box">The line.</param>
    /// <param name="height">Height of the result, pixels; its length follows.</param>
    /// <param name="longest">Longest result; a longer line is squeezed.</param>
    /// <param name="smoothing">0 leaves noise as it is, 1 smooths as much as it needs.</param>
    internal static GreyLine Cut(RgbImage image, LineBox box, int height, int longest, double smoothing)
    {
        var scale = box.Height / height;
        var width = Math.Clamp((int)Math.Round(box.Length / scale), 1, longest);
        var line = new GreyLine(width, height, Sampled(image, box, width, height));
        var (dark, light) = line.Range(Dark, Light);
        var contrast = Math.Max(light - dark, LeastContrast);
        var sigma = smoothing * Math.Min(MostSmoothing, NoiseEstimate.Sigma(image, box) / contrast / NoiseForOnePixel);
        if (sigma >= LeastSmoothing)
        {
            line = line.Blurred(sigma / scale);
            (dark, light) = line.Range(Dark, Light);
            contrast = Math.Max(light - dark, LeastContrast);
        }

        return line.Stretched((dark + light - contrast) / 2, contrast);
    }

    /// <summary>A part of a picture, upright: grey, row by row.</summary>
    internal static float[] Sampled(RgbImage image, LineBox box, int width, int height)
    {
        var (along, across) = (box.Length / width, box.Height / height);
        var samples = Math.Clamp((int)Math.Round(across), 1, MostSamples);
        var (sin, cos) = Math.SinCos(box.Angle);
        var values = new float[width * height];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var sum = 0f;
                for (var part = 0; part < samples * samples; part++)
                {
                    var u = ((x + (((part % samples) + 0.5) / samples)) * along) - (box.Length / 2);
                    var v = ((y + (((part / samples) + 0.5) / samples)) * across) - (box.Height / 2);
                    sum += image.SampleGrey(box.CentreX + (u * cos) - (v * sin), box.CentreY + (u * sin) + (v * cos));
                }

                values[(y * width) + x] = sum / (samples * samples);
            }
        }

        return values;
    }
}

namespace Archive.LabelRecognition.Pictures;

/// <summary>
/// How noisy a part of a picture is. Immerkær, Fast noise variance estimation (1996): a mask that is blind to edges and slopes, so what it
/// sees is noise.
/// </summary>
internal static class NoiseEstimate
{
    /// <summary>Standard deviation of the noise of grey, of 255.</summary>
    /// <param name="image">The picture.</param>
    /// <param name="box">The part, roughly: the upright rectangle around it.</param>
    internal static double Sigma(RgbImage image, LineBox box)
    {
        var (sin, cos) = Math.SinCos(box.Angle);
        var reachX = ((box.Length * Math.Abs(cos)) + (box.Height * Math.Abs(sin))) / 2;
        var reachY = ((box.Length * Math.Abs(sin)) + (box.Height * Math.Abs(cos))) / 2;
        var (left, right) = (Math.Max(1, (int)(box.CentreX - reachX)), Math.Min(image.Width - 2, (int)(box.CentreX + reachX)));
        var (top, bottom) = (Math.Max(1, (int)(box.CentreY - reachY)), Math.Min(image.Height - 2, (int)(box.CentreY + reachY)));
        if (right < left || bottom < top) return 0;
        double sum = 0;
        for (var y = top; y <= bottom; y++)
        {
            for (var x = left; x <= right; x++)
            {
                var corners = image.Grey(x - 1, y - 1) + image.Grey(x + 1, y - 1) + image.Grey(x - 1, y + 1) + image.Grey(x + 1, y + 1);
                var sides = image.Grey(x, y - 1) + image.Grey(x - 1, y) + image.Grey(x + 1, y) + image.Grey(x, y + 1);
                sum += Math.Abs(corners - (2 * sides) + (4 * image.Grey(x, y)));
            }
        }

        return Math.Sqrt(Math.PI / 2) * sum / (6.0 * (right - left + 1) * (bottom - top + 1));
    }
}

namespace Archive.LabelRecognition.Pictures;

/// <summary>A straightened line, grey: row by row, 0 is dark and 255 light. Immutable.</summary>
internal sealed record GreyLine(int Width, int Height, float[] Values)
{
    /// <summary>The values that a share of the pixels is darker than.</summary>
    internal (float Low, float High) Range(double low, double high)
    {
        var sorted = (float[])Values.Clone();
        Array.Sort(sorted);
        return (sorted[(int)((sorted.Length - 1) * low)], sorted[(int)((sorted.Length - 1) * high)]);
    }

    /// <summary>With a value at 0, and one that lies a range above it at 255; what is beyond is cut off.</summary>
    internal GreyLine Stretched(float from, float range) =>
        this with { Values = Array.ConvertAll(Values, value => Math.Clamp((value - from) * 255 / range, 0, 255)) };

    /// <summary>Blurred by a Gaussian.</summary>
    /// <param name="sigma">Pixels.</param>
    internal GreyLine Blurred(double sigma)
    {
        var reach = Math.Max(1, (int)Math.Ceiling(2.5 * sigma));
        var weights = new float[(2 * reach) + 1];
        for (var at = -reach; at <= reach; at++) weights[at + reach] = (float)Math.Exp(-at * at / (2 * sigma * sigma));
        var sum = weights.Sum();
        for (var at = 0; at < weights.Length; at++) weights[at] /= sum;
        var rows = new float[Values.Length];
        var both = new float[Values.Length];
        for (var y = 0; y < Height; y++)
        {
            for (var x = 0; x < Width; x++)
            {
                for (var at = -reach; at <= reach; at++)
                    rows[(y * Width) + x] += weights[at + reach] * Values[(y * Width) + Math.Clamp(x + at, 0, Width - 1)];
            }
        }

        for (var y = 0; y < Height; y++)
        {
            for (var at = -reach; at <= reach; at++)
            {
                var source = Math.Clamp(y + at, 0, Height - 1) * Width;
                for (var x = 0; x < Width; x++) both[(y * Width) + x] += weights[at + reach] * rows[source + x];
            }
        }

        return this with { Values = both };
    }
}

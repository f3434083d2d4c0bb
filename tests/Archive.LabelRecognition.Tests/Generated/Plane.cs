namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>One number a pixel.</summary>
internal sealed class Plane(int width, int height)
{
    private readonly float[] _values = new float[width * height];

    internal int Width => width;

    internal int Height => height;

    internal float this[int x, int y]
    {
        get => _values[(y * width) + x];
        set => _values[(y * width) + x] = value;
    }

    /// <summary>Between pixels; 0 beyond the edge.</summary>
    internal float Sample(double x, double y)
    {
        if (x < 0 || y < 0 || x >= width || y >= height) return 0;
        var (left, top) = ((int)Math.Max(0, x - 0.5), (int)Math.Max(0, y - 0.5));
        var (right, bottom) = (Math.Min(left + 1, width - 1), Math.Min(top + 1, height - 1));
        var (dx, dy) = ((float)Math.Clamp(x - 0.5 - left, 0, 1), (float)Math.Clamp(y - 0.5 - top, 0, 1));
        return (((this[left, top] * (1 - dx)) + (this[right, top] * dx)) * (1 - dy))
            + (((this[left, bottom] * (1 - dx)) + (this[right, bottom] * dx)) * dy);
    }

    /// <summary>Smooth noise from 0 to 1, with features of a size.</summary>
    internal static Plane Noise(int width, int height, double size, Random random)
    {
        var coarse = new Plane((int)(width / size) + 3, (int)(height / size) + 3);
        for (var at = 0; at < coarse._values.Length; at++) coarse._values[at] = random.NextSingle();
        var fine = new Plane(width, height);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++) fine[x, y] = coarse.Sample((x / size) + 1, (y / size) + 1);
        }

        return fine;
    }

    /// <summary>Blurred by a Gaussian.</summary>
    internal Plane Blurred(double sigma)
    {
        var reach = (int)Math.Ceiling(3 * sigma);
        var weights = Enumerable.Range(-reach, (2 * reach) + 1).Select(at => Math.Exp(-at * at / (2 * sigma * sigma))).ToArray();
        return Weighted(weights, 1, 0).Weighted(weights, 0, 1);
    }

    private Plane Weighted(double[] weights, int stepX, int stepY)
    {
        var (reach, sum) = (weights.Length / 2, weights.Sum());
        var result = new Plane(width, height);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                double value = 0;
                for (var at = -reach; at <= reach; at++)
                {
                    var (column, row) = (Math.Clamp(x + (at * stepX), 0, width - 1), Math.Clamp(y + (at * stepY), 0, height - 1));
                    value += weights[at + reach] * this[column, row];
                }

                result[x, y] = (float)(value / sum);
            }
        }

        return result;
    }
}

namespace Archive.DemoPictures;

/// <summary>Sixty years: patches of dirt, streaks that ran down, dust where a thing lies level.</summary>
internal static class Weathering
{
    /// <summary>How dirty and how dusty each stuff gets, as shares of its colour, and how much of it is bare metal.</summary>
    private static (float Dirt, float Dust, float Metal) Of(Material stuff) => stuff switch
    {
        Material.Paint => (0.24f, 0.34f, 0),
        Material.Steel => (0.25f, 0.3f, 0.72f),
        Material.Brass => (0.45f, 0.25f, 0.8f),
        Material.Plastic => (0.14f, 0.3f, 0),
        Material.Sheath => (0.14f, 0.13f, 0),
        Material.Print => (0.05f, 0, 0),
        Material.Glass => (0.05f, 0.08f, 0),
        Material.Tile => (0.30f, 0, 0),
        Material.Plaster => (0.09f, 0, 0),
        Material.Wood => (0.22f, 0.2f, 0),
        Material.Paper => (0.08f, 0, 0),
        _ => default,
    };

    /// <summary>Takes a clean colour to what it has become at a place.</summary>
    /// <param name="colour">Linear red, green, blue; replaced.</param>
    /// <param name="stuff">What it is on.</param>
    /// <param name="at">Where, in millimetres of the hall.</param>
    /// <param name="level">How far the surface looks up: 1 for a table.</param>
    /// <param name="wear">Of the frame that it is part of.</param>
    public static void Lay(Span<float> colour, Material stuff, in Point3 at, float level, Wear wear)
    {
        var (dirt, dust, metal) = Of(stuff);
        if (dirt == 0) return;
        if (stuff == Material.Paint) Age(colour, at, level, wear);
        var (x, y, z) = ((float)at.X + wear.Aside, (float)at.Y, (float)at.Z);
        var broad = (Noise(x / 410, y / 410, z / 410) * 0.55f)
            + (Noise(x / 130, y / 130, z / 130) * 0.3f)
            + (Noise(x / 47, y / 47, z / 47) * 0.15f);
        var fine = (Noise(x / 9, y / 9, z / 9) * 0.6f) + (Noise(x / 3.1f, y / 3.1f, z / 3.1f) * 0.4f);
        var streaks = level > 0.5f ? 0.5f : 0.2f + (0.6f * Noise(x / 38, y / 38, z / 800));
        var share = Math.Min(0.8f, Math.Clamp(((broad * streaks) + (0.22f * fine) - 0.24f) * 2.8f, 0, 1) * dirt * wear.Dirt);
        var lies = Math.Min(0.9f, Math.Clamp((level - 0.5f) * 1.6f, 0, 1) * dust * wear.Dust * (0.45f + fine));
        Span<float> soil = [0.050f, 0.043f, 0.035f];
        Span<float> grey = [0.30f, 0.28f, 0.245f];
        for (var c = 0; c < 3; c++)
        {
            var dirty = colour[c] + ((soil[c] - colour[c]) * share);
            colour[c] = (dirty + ((grey[c] - dirty) * lies)) * (1 - (metal * (1 - lies)));
        }
    }

    /// <summary>Paint yellows, water runs down it, feet scrape it and its edges chip.</summary>
    private static void Age(Span<float> colour, in Point3 at, float level, Wear wear)
    {
        if (ReferenceEquals(wear, Wear.Hall)) return;
        var (x, y, z) = ((float)at.X + wear.Aside, (float)at.Y, (float)at.Z);
        Span<float> yellow = [1.06f, 0.99f, 0.80f];
        Span<float> rust = [0.115f, 0.052f, 0.022f];
        Span<float> primer = [0.105f, 0.083f, 0.066f];
        Span<float> scraped = [0.05f, 0.05f, 0.052f];
        var faded = wear.Fade * (0.45f + (0.55f * Noise(x / 600, y / 600, z / 700)));
        for (var c = 0; c < 3; c++) colour[c] *= 1 + ((yellow[c] - 1) * faded);
        if (level > 0.5f) return;

        var below = Math.Clamp((wear.RunsFrom - z) / 160, 0, 1) * Math.Clamp((z - 40) / 400, 0.25f, 1);
        var run = Math.Clamp((Noise(x / 17, y / 17, z / 1500) - 0.66f) * 4.5f, 0, 1)
            * Math.Clamp(Noise(x / 5, y / 5, z / 240) * 1.5f, 0, 1);
        Toward(colour, rust, run * below * wear.Runs * 0.6f);

        var low = Math.Clamp((420 - z) / 340, 0, 1);
        var scrape = Math.Clamp((Noise(x / 85, y / 85, z / 3.2f) - 0.74f) * 9, 0, 1) * Noise(x / 210, y / 210, z / 60);
        Toward(colour, scraped, scrape * low * wear.Scuffs * 0.8f);

        var flaked = Noise(x / 3.4f, y / 3.4f, z / 3.4f) * (0.72f + (0.28f * Noise(x / 120, y / 120, z / 120)));
        Toward(colour, primer, Math.Clamp((flaked - 0.86f + (0.05f * wear.Chips)) * 22, 0, 1) * wear.Chips * 0.85f);

        static void Toward(Span<float> colour, ReadOnlySpan<float> other, float share)
        {
            for (var c = 0; c < 3; c++) colour[c] += (other[c] - colour[c]) * share;
        }
    }

    /// <summary>Value noise between 0 and 1: random at whole places, smooth between.</summary>
    private static float Noise(float x, float y, float z)
    {
        var (i, j, k) = ((int)MathF.Floor(x), (int)MathF.Floor(y), (int)MathF.Floor(z));
        var (u, v, w) = (Soft(x - i), Soft(y - j), Soft(z - k));
        return Mix(
            Mix(Mix(At(i, j, k), At(i + 1, j, k), u), Mix(At(i, j + 1, k), At(i + 1, j + 1, k), u), v),
            Mix(Mix(At(i, j, k + 1), At(i + 1, j, k + 1), u), Mix(At(i, j + 1, k + 1), At(i + 1, j + 1, k + 1), u), v), w);

        static float Soft(float t) => t * t * (3 - (2 * t));
        static float Mix(float a, float b, float t) => a + ((b - a) * t);
        static float At(int x, int y, int z)
        {
            var h = unchecked(((uint)x * 0x8da6b343u) ^ ((uint)y * 0xd8163841u) ^ ((uint)z * 0xcb1ab31fu));
            h = unchecked((h ^ (h >> 15)) * 0x2c1b3c6du);
            h = unchecked((h ^ (h >> 12)) * 0x297a2d39u);
            return (h ^ (h >> 15)) / (float)uint.MaxValue;
        }
    }
}

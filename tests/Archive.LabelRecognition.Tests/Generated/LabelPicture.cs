using Archive.LabelRecognition.Pictures;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>A drawn label: the picture, where its line is about, and what it says. The same seed draws the same.</summary>
internal sealed record LabelPicture(string Label, LabelFamily Family, Typeface Typeface, RgbImage Image, LineBox Box, int Seed)
{
    /// <summary>Draws one.</summary>
    /// <param name="sleeve">The same label on another sleeve, at the other end of the cable, worn and photographed by itself.</param>
    /// <param name="says">What it says; null for any label of the family.</param>
    internal static LabelPicture Draw(
        LabelFamily family, Typeface typeface, Wear wear, int seed, int sleeve = 0, string? says = null)
    {
        var random = new Random(seed);
        var label = says ?? family.Label(random);
        if (sleeve > 0) random = new Random(seed + (sleeve * 500_009));
        var ink = Worn(typeface.Draw(label, random), typeface.Printing, wear, random);
        var scale = Between(wear.Height, random) / ink.Height;
        var (length, height) = (ink.Width * scale, ink.Height * scale);
        var turn = Signed(wear.Turn, random) * Math.PI / 180;
        var (sin, cos) = Math.SinCos(turn);
        var margin = height * 0.8;
        var width = (int)((length * Math.Abs(cos)) + (height * Math.Abs(sin)) + (2 * margin));
        var tall = (int)((length * Math.Abs(sin)) + (height * Math.Abs(cos)) + (2 * margin));
        var bow = Signed(wear.Bow, random);
        var isDark = typeface.Printing == Printing.EmbossedTape || (typeface.Printing == Printing.ThermalTransfer && random.Next(4) == 0);
        var (paper, letters) = isDark ? (30 + random.Next(50), 170 + random.Next(60)) : (185 + random.Next(60), 25 + random.Next(65));
        var (shadeX, shadeY) = (Signed(0.3, random), Signed(0.3, random));
        var plane = new Plane(width, tall);
        for (var y = 0; y < tall; y++)
        {
            for (var x = 0; x < width; x++)
            {
                double covered = 0;
                for (var part = 0; part < 4; part++)
                {
                    var (dx, dy) = (x + 0.25 + (part % 2 * 0.5) - (width / 2.0), y + 0.25 + (part / 2 * 0.5) - (tall / 2.0));
                    var along = ((dx * cos) + (dy * sin)) / length;
                    // Bent as a ring around a sleeve is seen from above or below, and foreshortened towards its edges.
                    var across = ((dy * cos) - (dx * sin)) / height + (bow * ((4 * along * along) - 0.5));
                    covered += ink.Sample((along + 0.5) * ink.Width, (across + 0.5) * ink.Height) / 4;
                }

                var light = 1 + (shadeX * ((x / (double)width) - 0.5)) + (shadeY * ((y / (double)tall) - 0.5));
                plane[x, y] = (float)((paper + ((letters - paper) * covered)) * light);
            }
        }

        var seen = plane.Blurred(Between(wear.Blur, random));
        var off = wear.Misplaced;
        var box = new LineBox(
            (width / 2.0) + Signed(off * height / 20, random), (tall / 2.0) + Signed(off * height / 20, random),
            length + (height * (0.3 + Signed(off * 0.1, random))), height * (1.15 + Signed(off * 0.08, random)),
            turn + (Signed(off, random) * Math.PI / 180));
        var image = Noisy(seen, wear.Noise, random);
        if (wear.More is { } more) image = more(image, height, random);
        return new LabelPicture(label, family, typeface, image, box, seed);
    }

    private static Plane Worn(Plane ink, Printing printing, Wear wear, Random random)
    {
        var patches = Plane.Noise(ink.Width, ink.Height, ink.Height / 5.0, random);
        var grain = Plane.Noise(ink.Width, ink.Height, 3, random);
        for (var y = 0; y < ink.Height; y++)
        {
            // A print head with a dead point leaves a line out.
            var isDead = printing == Printing.ThermalTransfer && random.NextDouble() < wear.Lost / 4;
            for (var x = 0; x < ink.Width; x++)
            {
                var kept = Math.Clamp(((patches[x, y] * 0.7) + (grain[x, y] * 0.3) - wear.Lost - 0.1) * 5, 0.15, 1);
                if (printing == Printing.Typewriter) kept *= 0.6 + (0.4 * grain[x, y]);
                ink[x, y] = isDead ? ink[x, y] * 0.3f : (float)(ink[x, y] * kept);
            }
        }

        for (var scratch = random.Next(wear.Scratches + 1); scratch > 0; scratch--)
        {
            var (x0, slope, thick) = (random.Next(ink.Width), Signed(1.5, random), 2 + random.Next(3));
            for (var y = 0; y < ink.Height; y++)
            {
                for (var x = 0; x < thick; x++)
                {
                    var at = (int)(x0 + (slope * y)) + x;
                    if (at >= 0 && at < ink.Width) ink[at, y] = 0;
                }
            }
        }

        return ink;
    }

    private static RgbImage Noisy(Plane plane, double sigma, Random random)
    {
        var pixels = new byte[plane.Width * plane.Height * 3];
        var tint = new[] { 1 + Signed(0.08, random), 1, 1 + Signed(0.08, random) };
        for (var at = 0; at < pixels.Length; at++)
        {
            // Box and Muller.
            var noise = sigma * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            var value = (plane[at / 3 % plane.Width, at / 3 / plane.Width] * tint[at % 3]) + noise;
            pixels[at] = (byte)Math.Clamp(value, 0, 255);
        }

        return new RgbImage(plane.Width, plane.Height, pixels);
    }

    private static double Signed(double most, Random random) => ((random.NextDouble() * 2) - 1) * most;

    private static double Between((double Least, double Most) range, Random random) =>
        range.Least + (random.NextDouble() * (range.Most - range.Least));
}

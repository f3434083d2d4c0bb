using NetVips;

namespace Archive.DemoPictures;

/// <summary>Makes a picture of light and paint: what a lens, a sensor and a camera's own developing would have made of the scene.</summary>
internal static class CameraSimulation
{
    /// <summary>Mean logarithm of the light that a picture is exposed for, as a share of white.</summary>
    private const double Middle = 0.19;

    /// <summary>What the brighter surfaces may come to.</summary>
    private const double Bright = 0.6;

    /// <summary>How far colours are drawn in to grey, which the film's curve would else push apart.</summary>
    private const double Greyness = 0.2;

    /// <summary>How bright what glows is.</summary>
    private const float Brightness = 6;

    /// <summary>A picture of 8 bits a channel.</summary>
    public static Image Print(Scene scene, Shot shot, Layers light, FrameWear wear)
    {
        var smoothing = new Denoiser(light, scene.Camera);
        var diffuse = Sum(light, "DiffDir", "DiffInd");
        var gloss = Sum(light, "GlossDir", "GlossInd");
        for (var c = 0; c < 3; c++)
        {
            var colour = light[$"GlossCol.{"RGB"[c]}"];
            for (var i = 0; i < colour.Length; i++) gloss[c][i] *= colour[i];
        }

        smoothing.Smooth(diffuse, 5, 0.35f);
        smoothing.Smooth(gloss, 3, 0.8f);
        var seen = Rasterizer.Of(scene.Model, Lit(scene.Camera, smoothing, [.. diffuse, .. gloss], light.Width, wear));
        var exposure = Exposure(seen, shot);
        using var linear = Image.NewFromMemory(seen.Light, seen.Width, seen.Height, 3, Enums.BandFormat.Float);
        using var glare = Glare(linear);
        using var focused = Focused(glare, scene, shot, seen);
        return Image.NewFromMemory(
            Developed(focused.WriteToMemory<float>(), seen.Width, seen.Height, exposure, shot),
            seen.Width,
            seen.Height,
            3,
            Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Srgb);
    }

    private static float[][] Sum(Layers layers, string direct, string indirect) =>
        [.. "RGB".Select(c => layers[$"{direct}.{c}"].Zip(layers[$"{indirect}.{c}"], (a, b) => a + b).ToArray())];

    private static Shader Lit(Camera camera, Denoiser smoothing, float[][] light, int small, FrameWear wear)
    {
        var k = (double)small / camera.Frame.Width;
        return Shade;

        void Shade(double x, double y, in Denoiser.Surface place, Material stuff, Span<float> colour)
        {
            if (stuff == Material.Glow)
            {
                for (var c = 0; c < 3; c++) colour[c] *= Brightness;
                return;
            }

            Span<float> sums = stackalloc float[6];
            smoothing.Sample(light, x * k, y * k, place, sums);
            var at = camera.Eye + (((camera.Right * place.X) - (camera.Above * place.Y) + (camera.Ahead * place.Z)) * 1000);
            var level = (camera.Right.Z * place.Nx) - (camera.Above.Z * place.Ny) + (camera.Ahead.Z * place.Nz);
            Weathering.Lay(colour, stuff, at, (float)level, wear.At(at));

            // Ink does not shine as what it is printed on does.
            var shine = stuff == Material.Print ? 0.25f : 1;
            for (var c = 0; c < 3; c++) colour[c] = (colour[c] * sums[c]) + (sums[3 + c] * shine);
        }
    }

    /// <summary>
    /// What the camera's meter makes of it: the mean logarithm, the middle counting most, without what glows; but nothing much is to burn
    /// out.
    /// </summary>
    private static double Exposure(Rasterizer seen, Shot shot)
    {
        var (w, h, picture) = (seen.Width, seen.Height, seen.Light);
        var (sum, all, lights) = (0.0, 0.0, new List<float>());
        for (var y = 0; y < h; y += 3)
        {
            for (var x = 0; x < w; x += 3)
            {
                var i = ((y * w) + x) * 3;
                var light = (0.2126f * picture[i]) + (0.7152f * picture[i + 1]) + (0.0722f * picture[i + 2]);
                if (seen.Glow[i / 3] > 0) continue;
                var (dx, dy) = ((x / (double)w) - 0.5, (y / (double)h) - 0.5);
                var weight = 0.15 + Math.Exp(-9 * ((dx * dx) + (dy * dy)));
                if (weight > 0.3) lights.Add(light);
                (sum, all) = (sum + (weight * Math.Log(light + 0.003)), all + weight);
            }
        }

        lights.Sort();
        var usual = Math.Min(Middle / Math.Exp(sum / all), Bright / lights[(int)(lights.Count * 0.96)]);

        // No meter hits the same tone twice.
        return usual * SeededRandom.For("meter of " + shot.Id).Between(0.84, 1.14);
    }

    /// <summary>Some of the light of each place is scattered over its neighbourhood.</summary>
    private static Image Glare(Image linear)
    {
        var (w, h) = (linear.Width, linear.Height);
        using var wide = linear.Resize(1 / 8.0).Gaussblur(w / 900.0 * 3).Resize(8, kernel: Enums.Kernel.Linear);
        using var fitted = wide.Embed(0, 0, w, h, extend: Enums.Extend.Copy);
        using var sharp = linear.Gaussblur(0.55);
        return (sharp * 0.95) + (fitted * 0.05);
    }

    private static Image Focused(Image image, Scene scene, Shot shot, Rasterizer seen)
    {
        if (shot.Shaken) return image.Conv(Shake()).Cast(Enums.BandFormat.Float);
        if (scene.Focus is not { } focus) return image.Cast(Enums.BandFormat.Float);
        var softness = new float[seen.Width * seen.Height];
        for (var i = 0; i < softness.Length; i++)
        {
            var z = Math.Min(seen.Depths[i] * 1000, 60000);
            softness[i] = (float)Math.Clamp((Math.Abs(1 - (focus.Distance / z)) - focus.Depth) * 4, 0, 1);
        }

        using var share = Image.NewFromMemory(softness, seen.Width, seen.Height, 1, Enums.BandFormat.Float).Gaussblur(focus.Softest / 2);
        using var half = image.Gaussblur(focus.Softest / 3);
        using var full = image.Gaussblur(focus.Softest);
        using var near = (share * 2 < 1).Ifthenelse(share * 2, 1);
        using var far = (share > 0.5).Ifthenelse((share * 2) - 1, 0);
        using var first = image + ((half - image) * near);
        return (first + ((full - first) * far)).Cast(Enums.BandFormat.Float);
    }

    /// <summary>A hand that was not still.</summary>
    private static Image Shake()
    {
        using var line = Image.Black(23, 23) + 0;
        using var drawn = line.Mutate(image => image.DrawLine([1], 1, 4, 21, 18));
        return drawn.Gaussblur(2.2).Mutate(image => image.Set(GValue.GDoubleType, "scale", drawn.Avg() * 23 * 23));
    }

    /// <summary>Vignetting, the sensor's noise, and the curve from light to tone.</summary>
    private static byte[] Developed(float[] seen, int w, int h, double exposure, Shot shot)
    {
        var bytes = new byte[seen.Length];
        // The camera's white balance is never quite right.
        var chance = SeededRandom.For(shot.Id);
        double[] balance = [chance.Between(0.955, 1.055), 1, chance.Between(0.91, 1.06)];
        var noise = shot.Shaken ? 0.004 : 0.011;
        Parallel.For(0, h, y =>
        {
            var grain = SeededRandom.For($"{shot.Id} {y}");
            for (var x = 0; x < w; x++)
            {
                var (dx, dy) = ((x - (w / 2.0)) / w, (y - (h / 2.0)) / w);
                var falling = exposure / Math.Pow(1 + (0.55 * ((dx * dx) + (dy * dy))), 2);
                var mean = (float)(((0.2126 * seen[((y * w) + x) * 3])
                    + (0.7152 * seen[(((y * w) + x) * 3) + 1])
                    + (0.0722 * seen[(((y * w) + x) * 3) + 2])) * Greyness);
                var common = grain.Between(-1, 1) + grain.Between(-1, 1);
                for (var c = 0; c < 3; c++)
                {
                    var i = (((y * w) + x) * 3) + c;
                    var value = ((seen[i] * (1 - Greyness)) + mean) * falling * balance[c];
                    value += noise * Math.Sqrt(Math.Max(0, value) + 0.01) * (common + (0.5 * grain.Between(-1, 1)));
                    bytes[i] = (byte)Math.Clamp((255 * Tone(value)) + 0.5, 0, 255);
                }
            }
        });
        return bytes;
    }

    /// <summary>
    /// A film's curve (the rational fit of Narkowicz 2015 to the ACES reference), then the transfer function of IEC 61966-2-1.
    /// </summary>
    private static double Tone(double light)
    {
        var x = Math.Max(0, light) * 0.9;
        var film = Math.Min(1, x * ((2.51 * x) + 0.03) / ((x * ((2.43 * x) + 0.59)) + 0.14));
        return film <= 0.0031308 ? film * 12.92 : (1.055 * Math.Pow(film, 1 / 2.4)) - 0.055;
    }
}

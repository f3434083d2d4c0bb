using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Archive.LabelRecognition.Pictures;
using NetVips;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>
/// A line that the recogniser is trained with: as it sees it, and what it says. Neither typefaces nor patterns of what is fitted or judged
/// are among them, and neither are <see cref="Soil"/> and <see cref="Cover"/>. <c>wear.py</c> adds more kinds of wear
/// each time one is used.
/// </summary>
internal sealed record TrainingLine(string Text, GreyLine Line)
{
    private const string Packages = "../../Training/node_modules/@fontsource/";

    private static readonly Typeface[] Typefaces =
    [
        Face("Anonymous Pro Bold", "anonymous-pro", 700), Face("Archivo Narrow", "archivo-narrow", 400),
        Face("Barlow Semi Condensed Medium", "barlow-semi-condensed", 500), Face("Cousine Bold", "cousine", 700),
        Face("Cutive Mono", "cutive-mono", 400), Face("DejaVu Sans Mono", "dejavu-mono", 400), Face("DM Mono", "dm-mono", 400),
        Face("Fira Mono Bold", "fira-mono", 700), Face("IBM Plex Mono", "ibm-plex-mono", 400),
        Face("IBM Plex Mono Bold", "ibm-plex-mono", 700), Face("IM FELL English", "im-fell-english", 400),
        Face("Inconsolata Bold", "inconsolata", 700), Face("JetBrains Mono Medium", "jetbrains-mono", 500),
        Face("M PLUS Rounded 1c Bold", "m-plus-rounded-1c", 700), Face("Nunito Bold", "nunito", 700),
        Face("Source Code Pro Medium", "source-code-pro", 500), Face("Xanh Mono", "xanh-mono", 400),
    ];

    // Drawn on a grid.
    private static readonly Typeface[] Grids =
    [
        Face("Press Start 2P", "press-start-2p", 400), Face("DotGothic16", "dotgothic16", 400) with { Grid = 16 },
        Face("Pixelify Sans", "pixelify-sans", 400) with { Grid = 12 }, Face("Jersey 10", "jersey-10", 400) with { Grid = 16 },
    ];

    private static readonly Printing[] Printings = [.. Enum.GetValues<Printing>(), Printing.DotMatrix];

    private static readonly ZeroMark[] ZeroMarks = [ZeroMark.AsIs, .. Enum.GetValues<ZeroMark>()];

    private static readonly ImmutableArray<string> Words =
        [.. File.ReadAllText(Path.Combine(Repository.Root, "README.md")).Split()
            .Where(word => word.Length is > 0 and < 20 && word.All(char.IsAscii) && word.Any(char.IsLetter))];

    /// <summary>Draws a line; the same seed draws the same.</summary>
    internal static TrainingLine Draw(int seed)
    {
        var random = new Random(seed);
        var text = random.NextDouble() < 0.12
            ? string.Join(' ', Enumerable.Range(0, 1 + random.Next(3)).Select(_ => Of(Words, random)))
            : Label(random);
        var drawn = LabelPicture.Draw(LabelFamily.Sleeve, AnyTypeface(random), AnyWear(random), seed, says: text);
        var image = random.Next(3) == 0 ? Saved(Grained(drawn.Image, random), 25 + random.Next(65)) : drawn.Image;
        var box = random.Next(2) == 0
            ? drawn.Box
            : drawn.Box with
            {
                Length = drawn.Box.Length + (drawn.Box.Height * ((0.7 * random.NextDouble()) - 0.1)),
                Height = drawn.Box.Height * (0.9 + (0.3 * random.NextDouble())),
            };
        var line = LineCrop.Cut(image, box, 48, 1600, Of([0, 0, 0, 0.5, 1], random));
        return new TrainingLine(
            text, random.Next(4) == 0 ? line with { Values = Array.ConvertAll(line.Values, value => 255 - value) } : line);
    }

    /// <summary>Writes lines to two files: pixels, and for each line its width and its text.</summary>
    internal static void Write(string file, int count, int seed)
    {
        var lines = Enumerable.Range(seed, count).AsParallel().AsOrdered().WithDegreeOfParallelism(1).Select(Draw).ToList();
        using var pixels = File.Create(file + ".part");
        var says = new StringBuilder();
        foreach (var line in lines)
        {
            pixels.Write(Array.ConvertAll(line.Line.Values, value => (byte)Math.Round(value)));
            says.Append(CultureInfo.InvariantCulture, $"{line.Line.Width}\t{line.Text}\n");
        }

        File.WriteAllText(file + ".txt", says.ToString());
        pixels.Close();
        File.Move(file + ".part", file + ".bin", true);
    }

    // Groups of digits and letters, some with something between them, as labels of any machine may be.
    private static string Label(Random random)
    {
        var text = new StringBuilder();
        var most = 4 + random.Next(16);
        while (text.Length < most)
        {
            if (text.Length > 0 && random.Next(5) > 1) text.Append("---/. :_"[random.Next(8)]);
            var isLetters = random.Next(5) < 2;
            for (var left = 1 + random.Next(isLetters ? 2 : 4); left > 0; left--)
                text.Append((char)(isLetters ? 'A' + random.Next(26) : '0' + random.Next(10)));
        }

        return text.ToString();
    }

    private static Typeface AnyTypeface(Random random)
    {
        var (printing, zero) = (Of(Printings, random), Of(ZeroMarks, random));
        if (printing != Printing.DotMatrix) return Of(Typefaces, random) with { Printing = printing, Zero = zero };
        return random.Next(2) == 0
            ? Of(Grids, random) with { Zero = zero }
            : Of(Typefaces, random) with { Printing = printing, Grid = 10 + random.Next(7), Zero = zero };
    }

    // Each thing by itself: half of the lines about as bad as hard wear and worse, a quarter as medium, a quarter as mild and better.
    private static Wear AnyWear(Random random)
    {
        var hard = random.Next(4) switch
        {
            0 => 0.25 * random.NextDouble(),
            1 => 0.25 + (0.3 * random.NextDouble()),
            _ => 0.5 + (0.5 * random.NextDouble()),
        };
        var height = 17 + (random.NextDouble() * (30 - (14 * hard)));
        var blur = 0.3 + (hard * Part() * 2);
        return new Wear(
            "any", (height, height), 2 + (6 * hard), 0.14 * random.NextDouble(), (blur, blur), 3 + (27 * hard * Part()),
            0.2 * hard * random.NextDouble(), (int)(4 * hard), 0.5 + (1.3 * hard));

        double Part() => 0.4 + (0.6 * random.NextDouble());
    }

    // Noise of several pixels.
    private static RgbImage Grained(RgbImage image, Random random)
    {
        var (grain, much) = (Plane.Noise(image.Width, image.Height, 1.5 + (2 * random.NextDouble()), random), 60 * random.NextDouble());
        var pixels = (byte[])image.Pixels.Clone();
        for (var at = 0; at < pixels.Length; at++)
        {
            var value = pixels[at] + (much * (grain[at / 3 % image.Width, at / 3 / image.Width] - 0.5));
            pixels[at] = (byte)Math.Clamp(value, 0, 255);
        }

        return new RgbImage(image.Width, image.Height, pixels);
    }

    private static RgbImage Saved(RgbImage image, int quality)
    {
        using var pixels = Image.NewFromMemory(image.Pixels, image.Width, image.Height, 3, Enums.BandFormat.Uchar);
        using var saved = Image.NewFromBuffer(pixels.JpegsaveBuffer(q: quality));
        return new RgbImage(image.Width, image.Height, saved.WriteToMemory<byte>());
    }

    private static Typeface Face(string name, string package, int weight) => new(
        Printing.DotMatrix, name, $"{Packages}{package}/files/{package}-latin-{weight}-normal.woff");

    private static T Of<T>(IReadOnlyList<T> list, Random random) => list[random.Next(list.Count)];
}

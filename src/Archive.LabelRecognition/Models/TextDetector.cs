using System.Collections.Immutable;
using Archive.LabelRecognition.Pictures;

namespace Archive.LabelRecognition.Models;

/// <summary>A line of text that was found.</summary>
/// <param name="Box">Where it is. It may run the other way: a detector does not know what is up.</param>
/// <param name="Score">How sure the detector is, from 0 to 1: of the least sure part.</param>
/// <param name="Parts">The words that it was joined from, or itself. Words side by side may be labels of their own.</param>
public sealed record DetectedLine(LineBox Box, double Score, ImmutableArray<LineBox> Parts);

/// <summary>Finds lines of text in photos, at any angle. May be used by many threads at once.</summary>
/// <remarks>
/// Liao and others, Real-time scene text detection with differentiable binarization (2020): the model gives for each pixel the probability
/// that it is in the core of a line, and the core is grown by a share of its size.
/// </remarks>
public sealed class TextDetector : IDisposable
{
    // A larger photo is made smaller first, for time and memory: lines 20 px high in 12 megapixels are 8 px high then.
    private const double MostPixels = 2_000_000;

    // The model halves a picture five times.
    private const int Multiple = 32;

    // Where a photo was made less small, a second look shows little more.
    private const double LeastShrink = 1.5;

    // Lines that are looked at again, in pixels of the photo, and how far around them, in their heights.
    private const double LowLine = 72;
    private const double LongestLow = 1600;
    private const double Beyond = 2;

    // Shorter lines, in their heights, may be fragments that lie across; how many pixels around them are looked at.
    private const double Short = 3;
    private const int Around = 320;

    // A line that was found to be so much longer may be longer still.
    private const double Longer = 1.2;
    private const int MostLooks = 3;

    // As the paper and the model's own settings have them.
    private const float LeastProbability = 0.3f;
    private const double LeastScore = 0.6;
    private const double Growth = 1.5;

    // Cores that are thinner, in pixels of the map, are no lines.
    private const double ThinnestCore = 3;

    private static readonly (float Mean, float Deviation)[] Channels = [(0.485f, 0.229f), (0.456f, 0.224f), (0.406f, 0.225f)];

    private readonly TextModel _model;

    private TextDetector(TextModel model) => _model = model;

    /// <summary>Loads the model.</summary>
    /// <param name="folder">Where the files of the models are.</param>
    /// <param name="problem">Why there is none: lower case, no full stop.</param>
    public static TextDetector? Load(string folder, out string? problem)
    {
        if (ModelFile.Detection.Read(folder, out problem) is not { } content) return null;
        return TextModel.Load(content, out problem) is { } model ? new TextDetector(model) : null;
    }

    /// <summary>Finds lines.</summary>
    /// <returns>From top to bottom; null where the library fails.</returns>
    public ImmutableArray<DetectedLine>? Detect(RgbImage image)
    {
        var shrink = ShrinkOf(image);
        var (width, height) = (Rounded(image.Width / shrink), Rounded(image.Height / shrink));
        return _model.Run(width, height, planes => Fill(planes, image, width, height), MapOf(width)) is { } map
            ? Lines(map, width, image.Width / (double)width, image.Height / (double)height)
            : null;
    }

    /// <summary>
    /// Looks at a low line again, with all its pixels: where a photo was made smaller, worn ends of a line are lost, and a line seems
    /// higher than it is. A line is looked at upright; of a short one it is not known which way it runs.
    /// </summary>
    /// <param name="image">The picture.</param>
    /// <param name="box">Where it was found.</param>
    /// <returns>Null where there is nothing to gain, or no line is seen.</returns>
    public DetectedLine? Refine(RgbImage image, LineBox box)
    {
        if (ShrinkOf(image) < LeastShrink) return null;
        DetectedLine? found = null;
        for (var look = 0; look < MostLooks; look++)
        {
            if (LookAgain(image, found?.Box ?? box) is not { } line) break;
            var isLonger = line.Box.Length > Longer * (found?.Box ?? box).Length;
            found = line;
            if (!isLonger) break;
        }

        return found;
    }

    private DetectedLine? LookAgain(RgbImage image, LineBox box)
    {
        if (box.Height > LowLine || box.Length > LongestLow) return null;
        var isShort = box.Length < Short * box.Height;
        var (width, height) = isShort
            ? (Around, Around)
            : (RoundedUp(box.Length + (Beyond * box.Height)), RoundedUp(Beyond * box.Height));
        var part = box with { Length = width, Height = height, Angle = isShort ? 0 : box.Angle };
        var grey = LineCrop.Sampled(image, part, width, height);
        if (_model.Run(width, height, Fill, MapOf(width)) is not { } map) return null;
        return Lines(map, width, 1, 1)
            .Select(line => line with { Box = line.Box.Within(part), Parts = [.. line.Parts.Select(word => word.Within(part))] })
            .FirstOrDefault(line => line.Box.Contains(box.CentreX, box.CentreY));

        void Fill(Span<float> planes)
        {
            for (var at = 0; at < planes.Length; at++)
            {
                var (mean, deviation) = Channels[at / grey.Length];
                planes[at] = ((grey[at % grey.Length] / 255) - mean) / deviation;
            }
        }
    }

    public void Dispose() => _model.Dispose();

    private static ImmutableArray<DetectedLine> Lines(float[] map, int width, double scaleX, double scaleY)
    {
        var words = (from region in TextRegion.Find(map, width, LeastProbability)
                     where region.Mean >= LeastScore
                     let core = SmallestRectangle.Around(region.Outline)
                     where core.Height >= ThinnestCore
                     let corners = Grown(core).Corners().Select(corner => (corner.X * scaleX, corner.Y * scaleY))
                     select (Box: SmallestRectangle.Around([.. corners]), Score: region.Mean)).ToList();
        return [.. from line in LineJoining.Join([.. words.Select(word => word.Box)])
                   orderby line.Box.CentreY, line.Box.CentreX
                   select new DetectedLine(
                       line.Box, line.Parts.Min(part => words[part].Score), [.. line.Parts.Select(part => words[part].Box)])];
    }

    private static double ShrinkOf(RgbImage image) => Math.Max(1, Math.Sqrt(image.Width * (double)image.Height / MostPixels));

    private static int RoundedUp(double pixels) => (int)Math.Ceiling(pixels / Multiple) * Multiple;

    private static int Rounded(double pixels) => Math.Max(Multiple, (int)Math.Round(pixels / Multiple) * Multiple);

    private static LineBox Grown(LineBox core)
    {
        var by = core.Length * core.Height * Growth / (2 * (core.Length + core.Height));
        return core with { Length = core.Length + (2 * by), Height = core.Height + (2 * by) };
    }

    private static Func<ReadOnlySpan<float>, int, float[]?> MapOf(int width) =>
        (numbers, last) => last == width ? numbers.ToArray() : null;

    // Each pixel is the mean of those that it stands for, or lies between them; the model was trained on blue first.
    private static void Fill(Span<float> planes, RgbImage image, int width, int height)
    {
        for (var y = 0; y < height; y++)
        {
            var (top, bottom) = Range(y, height, image.Height);
            for (var x = 0; x < width; x++)
            {
                var (left, right) = Range(x, width, image.Width);
                for (var band = 0; band < RgbImage.Bands; band++)
                {
                    var mean = image.Mean(left, top, right, bottom, RgbImage.Bands - 1 - band) / 255;
                    planes[(((band * height) + y) * width) + x] = (mean - Channels[band].Mean) / Channels[band].Deviation;
                }
            }
        }

        static (int First, int End) Range(int at, int count, int source)
        {
            var first = (int)((long)at * source / count);
            return (first, Math.Max(first + 1, (int)((long)(at + 1) * source / count)));
        }
    }
}

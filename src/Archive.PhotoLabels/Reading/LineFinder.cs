using System.Collections.Immutable;
using Archive.LabelRecognition.Models;
using Archive.LabelRecognition.Pictures;
using Archive.LabelRecognition.Readings;
using Archive.Records.Model;

namespace Archive.PhotoLabels.Reading;

/// <summary>Finds lines of print in a picture and reads them under the schemes.</summary>
internal sealed class LineFinder(TextDetector detector, LabelReader reader)
{
    /// <summary>Lines that are read in one photo: a page of print has more, and holds no labels.</summary>
    internal const int MostLines = 300;

    // Lines that are lower, in pixels, are no print that anyone could read.
    private const double LowestLine = 8;

    private const int MostReadings = 5;

    private const double Sure = 0.9;

    // JSON has no infinity.
    private const double WorstFit = -1000;

    // Around a marked part, in parts of its size: boxes drawn by hand cut into print.
    private const double Margin = 0.15;

    /// <summary>Reads a picture.</summary>
    /// <param name="image">The picture.</param>
    /// <param name="parts">Parts to look into; empty for the whole.</param>
    /// <returns>Null where the library of the model fails.</returns>
    internal PhotoLines? Read(RgbImage image, ImmutableArray<ImageBox> parts)
    {
        var found = new List<(RgbImage Picture, double Left, double Top, DetectedLine Line)>();
        foreach (var (picture, left, top) in Cut(image, parts))
        {
            if (detector.Detect(picture) is not { } lines) return null;
            found.AddRange(lines.Where(line => line.Box.Height >= LowestLine).Select(line => (picture, left, top, line)));
        }

        var kept = found.OrderByDescending(one => one.Line.Score).Take(MostLines).ToList();
        var read = new List<(LineBox Box, RecognizedLine Read)>?[kept.Count];
        // More threads than processors would only take more memory.
        var atOnce = new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount };
        Parallel.For(0, kept.Count, atOnce, at => read[at] = Read(kept[at].Picture, kept[at].Line)?.ConvertAll(line => (
            line.Box with { CentreX = line.Box.CentreX + kept[at].Left, CentreY = line.Box.CentreY + kept[at].Top }, line.Read)));
        if (Array.Exists(read, lines => lines is null)) return null;
        return new PhotoLines(
            image.Width,
            image.Height,
            [.. OnceEach(read.SelectMany(lines => lines!)).Select(line => Placed(line.Box, line.Read, image))
                .OrderBy(line => line.Y)
                .ThenBy(line => line.X)],
            found.Count - kept.Count);
    }

    // Fragments of a line, and marked parts that overlap, lead to the same line.
    private static List<(LineBox Box, RecognizedLine Read)> OnceEach(IEnumerable<(LineBox Box, RecognizedLine Read)> lines)
    {
        var kept = new List<(LineBox Box, RecognizedLine Read)>();
        foreach (var line in lines.OrderByDescending(line => line.Read.Fit))
        {
            if (!kept.Exists(other => other.Box.Contains(line.Box.CentreX, line.Box.CentreY))) kept.Add(line);
        }

        return kept;
    }

    // A line of several words may be one label, or labels side by side: whichever the schemes explain better.
    private List<(LineBox Box, RecognizedLine Read)>? Read(RgbImage picture, DetectedLine line)
    {
        if (reader.Read(picture, line.Box, MostReadings) is not { } whole) return null;
        // A low line that is not read surely may have been found in part only: it is looked for again, with all its pixels.
        if (whole.Best is not [{ Probability: >= Sure }, ..]
            && detector.Refine(picture, line.Box) is { } refined)
        {
            if (reader.Read(picture, refined.Box, MostReadings) is not { } again) return null;
            if (again.Fit > whole.Fit) (line, whole) = (refined, again);
        }

        if (line.Parts.Length < 2) return [(line.Box, whole)];
        var parts = new List<(LineBox Box, RecognizedLine Read)>();
        foreach (var part in line.Parts.Where(part => part.Height >= LowestLine))
        {
            if (reader.Read(picture, part, MostReadings) is not { } read) return null;
            parts.Add((part, read));
        }

        var better = parts.Where(part => part.Read.Fit > whole.Fit).ToList();
        return better.Count > 0 ? better : [(line.Box, whole)];
    }

    private static PhotoLine Placed(LineBox box, RecognizedLine read, RgbImage image) => new(
            box.CentreX / image.Width,
            box.CentreY / image.Height,
            box.Length / image.Width,
            box.Height / image.Width,
            read.View.IsTurned ? box.Turned().Angle : box.Angle,
            Math.Max(read.Fit, WorstFit),
            read.Unconstrained,
            [.. read.Best.Select(reading => new LineReading(reading.Scheme, reading.Label, reading.Probability))]);

    private static IEnumerable<(RgbImage Picture, double Left, double Top)> Cut(RgbImage image, ImmutableArray<ImageBox> parts)
    {
        if (parts.IsEmpty)
        {
            yield return (image, 0, 0);
            yield break;
        }

        foreach (var part in parts)
        {
            var (across, down) = (Margin * part.Width * image.Width, Margin * part.Height * image.Height);
            var left = (int)Math.Clamp((part.Left * image.Width) - across, 0, image.Width - 1);
            var top = (int)Math.Clamp((part.Top * image.Height) - down, 0, image.Height - 1);
            var right = (int)Math.Clamp(((part.Left + part.Width) * image.Width) + across, left + 1, image.Width);
            var bottom = (int)Math.Clamp(((part.Top + part.Height) * image.Height) + down, top + 1, image.Height);
            yield return (image.Part(left, top, right - left, bottom - top), left, top);
        }
    }
}

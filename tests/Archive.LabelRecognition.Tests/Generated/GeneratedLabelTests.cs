using System.Diagnostics;
using System.Globalization;
using Archive.LabelRecognition.Models;
using Archive.LabelRecognition.Pictures;
using Archive.LabelRecognition.Tests.Models;
using NetVips;
using Xunit;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>
/// A few labels in each run. <c>ASFOUND_LABELS=150</c> reads so many of each wear, fits the temperature first, and writes the tables to the
/// file that <c>ASFOUND_LABEL_REPORT</c> names, with pictures of what was misread beside it.
/// </summary>
public sealed class GeneratedLabelTests
{
    // As fitted by the full measurement.
    private const double Temperature = 1.01;

    private static readonly int Count =
        int.TryParse(Environment.GetEnvironmentVariable("ASFOUND_LABELS"), CultureInfo.InvariantCulture, out var count) ? count : 0;

    [Fact]
    public void Mildly_worn_labels_are_read_under_their_scheme()
    {
        using var recognizer = TextRecognizer.Load(ModelFolder.Path, out var problem);
        Assert.Null(problem);
        var measurement = new Measurement(recognizer!);
        var read = Measurement.Draw(Typeface.Judged, Wear.Mild, 16, 1).Where((_, at) => at % 5 == 0)
            .Select(drawn => measurement.Measure(drawn, Wear.Mild, Temperature)).ToList();
        Assert.All(read, one => Assert.Equal(one.Drawn.Label, one.ByForm.Best[0].Label));
        Assert.All(read, one => Assert.Equal(one.Drawn.Label, one.ByInventory.Best[0].Label));
    }

    [Fact]
    public void All_wears_are_measured_on_request()
    {
        if (Count == 0 || Environment.GetEnvironmentVariable("ASFOUND_LABEL_REPORT") is not { Length: > 0 } report) return;
        using var recognizer = TextRecognizer.Load(ModelFolder.Path, out _);
        var measurement = new Measurement(recognizer!);
        var temperature = measurement.Fit(Count / 3, 1_000_000);
        var all = new List<Measured>();
        var process = Process.GetCurrentProcess();
        var reading = TimeSpan.Zero;
        foreach (var wear in Wear.All)
        {
            foreach (var drawn in Measurement.Draw(Typeface.Judged, wear, Count, 1))
            {
                var before = process.TotalProcessorTime;
                all.Add(measurement.Measure(drawn, wear, temperature, isBothEnds: true));
                process.Refresh();
                reading += process.TotalProcessorTime - before;
                if (!all[^1].Form.IsRight) Save(all[^1], Path.GetDirectoryName(report)!, all.Count);
            }
        }

        process.Refresh();
        File.WriteAllText(report, string.Create(CultureInfo.InvariantCulture, $"""
            {Measurement.Report(all)}
            Temperature {temperature:0.00}. Processor time {reading.TotalMilliseconds / all.Count:0} ms a label, for both readings.
            Peak memory of the process {process.PeakWorkingSet64 >> 20} MiB.

            """));
    }

    /// <summary><c>ASFOUND_LABELS</c>, too: how many lines are found in photos of 12 megapixels, and what that costs.</summary>
    [Fact]
    public void Detection_is_measured_on_request()
    {
        if (Count == 0 || Environment.GetEnvironmentVariable("ASFOUND_LABEL_REPORT") is not { Length: > 0 } report) return;
        using var detector = TextDetector.Load(ModelFolder.Path, out _)!;
        var process = Process.GetCurrentProcess();
        _ = detector.Detect(Scene.Draw(500, 500, 500, Wear.Mild, 9).Image);
        var text = "| wear | labels | found | processor time, s a photo |\n| --- | --- | --- | --- |\n";
        foreach (var wear in Wear.All)
        {
            var scene = Scene.Draw(4000, 3000, 500, wear, 1);
            var image = scene.Image;
            process.Refresh();
            var before = process.TotalProcessorTime;
            var lines = detector.Detect(image)!.Value;
            process.Refresh();
            var time = (process.TotalProcessorTime - before).TotalSeconds;
            var found = $"{scene.Found(lines)} in {lines.Length} lines";
            text += string.Create(CultureInfo.InvariantCulture, $"| {wear.Name} | {scene.Pasted.Count} | {found} | {time:0.0} |\n");
        }

        File.WriteAllText(report + ".detection.md", $"{text}\nPeak memory of the process {process.PeakWorkingSet64 >> 20} MiB.\n");
    }

    private static void Save(Measured one, string folder, int number)
    {
        var drawn = one.Drawn.Image;
        using var image = Image.NewFromMemory(drawn.Pixels, drawn.Width, drawn.Height, 3, Enums.BandFormat.Uchar);
        image.WriteToFile(Path.Combine(folder, $"{one.Wear.Name}-{number}.png"));
        var cut = LineCrop.Cut(drawn, one.Drawn.Box, 48, 1600);
        var grey = Array.ConvertAll(cut.Values, value => (byte)value);
        using var line = Image.NewFromMemory(grey, cut.Width, cut.Height, 1, Enums.BandFormat.Uchar);
        line.WriteToFile(Path.Combine(folder, $"{one.Wear.Name}-{number}-line.png"));
        object?[] columns =
        [
            one.Wear.Name, number, one.Drawn.Typeface.Name, one.Drawn.Label, one.Unconstrained, one.ByForm.Best.FirstOrDefault(),
            one.ByForm.View,
        ];
        File.AppendAllText(Path.Combine(folder, "misread.txt"), string.Join('\t', columns) + '\n');
    }
}

using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using Archive.LabelRecognition.Assignment;
using Archive.LabelRecognition.Calibration;
using Archive.LabelRecognition.Models;
using Archive.LabelRecognition.Pictures;
using Archive.LabelRecognition.Readings;
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
    private static readonly int Count =
        int.TryParse(Environment.GetEnvironmentVariable("ASFOUND_LABELS"), CultureInfo.InvariantCulture, out var count) ? count : 0;

    [Fact]
    public void Mildly_worn_labels_are_read_under_their_scheme()
    {
        using var recognizer = TextRecognizer.Load(ModelFolder.Path, out var problem);
        Assert.Null(problem);
        var measurement = new Measurement(recognizer!);
        var read = Measurement.Draw(Typeface.Judged, Wear.Mild, 16, 1).Where((_, at) => at % 5 == 0)
            .Select(drawn => measurement.Measure(drawn, Wear.Mild, ReadingTemperatures.Fitted)).ToList();
        Assert.All(read, one => Assert.Equal(one.Drawn.Label, one.ByForm.Best[0].Label));
        Assert.All(read, one => Assert.Equal(one.Drawn.Label, one.ByInventory.Best[0].Label));
    }

    [Fact]
    public void All_wears_are_measured_on_request()
    {
        if (Count == 0 || Environment.GetEnvironmentVariable("ASFOUND_LABEL_REPORT") is not { Length: > 0 } report) return;
        using var recognizer = TextRecognizer.Load(ModelFolder.Path, out _);
        var measurement = new Measurement(recognizer!);
        var temperatures = measurement.Fit(Count / 3, 1_000_000);
        var all = new List<Measured>();
        var process = Process.GetCurrentProcess();
        var reading = TimeSpan.Zero;
        foreach (var wear in (IEnumerable<Wear>)[.. Wear.All, .. Wear.HeldBack])
        {
            var drawn = Measurement.Draw(Typeface.Judged, wear, Count, 1).ToList();
            process.Refresh();
            var before = process.TotalProcessorTime;
            var read = drawn.AsParallel().AsOrdered().Select(one => measurement.Measure(one, wear, temperatures)).ToList();
            process.Refresh();
            reading += process.TotalProcessorTime - before;
            all.AddRange(read.AsParallel().AsOrdered().Select(one => measurement.WithOtherEnd(one, temperatures)));
        }

        for (var at = 0; at < all.Count; at++)
        {
            if (!all[at].Form.IsRight) Save(all[at], Path.GetDirectoryName(report)!, at);
        }

        process.Refresh();
        File.WriteAllText(report, string.Create(CultureInfo.InvariantCulture, $"""
            {Measurement.Report(all)}
            Temperatures {temperatures.OneLook:0.00}, {temperatures.SeveralLooks:0.00}.
            Processor time {reading.TotalMilliseconds / all.Count:0} ms a label, for both readings.
            Peak memory of the process {process.PeakWorkingSet64 >> 20} MiB.

            """));
    }

    /// <summary>
    /// <c>ASFOUND_LABELS</c>, too: how many lines are found in photos of 12 megapixels, and what that costs. Readable is what is read
    /// rightly under its scheme when it is cut out by hand.
    /// </summary>
    [Fact]
    public void Detection_is_measured_on_request()
    {
        if (Count == 0 || Environment.GetEnvironmentVariable("ASFOUND_LABEL_REPORT") is not { Length: > 0 } report) return;
        using var detector = TextDetector.Load(ModelFolder.Path, out _)!;
        using var recognizer = TextRecognizer.Load(ModelFolder.Path, out _)!;
        var measurement = new Measurement(recognizer);
        var process = Process.GetCurrentProcess();
        var text = "| wear | labels | found at first | low lines looked at again | readable | of these again | of these at first |"
            + " time, s | again, s |\n| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
        foreach (var wear in Wear.All)
        {
            var scene = Scene.Draw(4000, 3000, 40, Typeface.Judged, wear, 1);
            var image = scene.Image;
            var (lines, time) = Timed(() => detector.Detect(image)!.Value);
            var (again, more) = Timed(() => lines.Select(line => detector.Refine(image, line.Box) ?? line).ToList());
            var readable = scene.Pasted.AsParallel()
                .Where(one => measurement.Measure(one.Label, wear, ReadingTemperatures.Fitted).Form.IsRight).ToList();
            int[] found =
                [Found(scene.Pasted, lines), Found(scene.Pasted, again), readable.Count, Found(readable, again), Found(readable, lines)];
            text += string.Create(
                CultureInfo.InvariantCulture,
                $"| {wear.Name} | {scene.Pasted.Count} | {string.Join(" | ", found)} | {time:0.0} | {more:0.0} |\n");
        }

        process.Refresh();
        File.WriteAllText(report + ".detection.md", $"{text}\nPeak memory of the process {process.PeakWorkingSet64 >> 20} MiB.\n");

        static int Found(IEnumerable<PastedLabel> labels, IReadOnlyCollection<DetectedLine> lines) =>
            labels.Count(label => Scene.FoundAs(label, lines) is not null);

        (T Result, double Seconds) Timed<T>(Func<T> work)
        {
            process.Refresh();
            var before = process.TotalProcessorTime;
            var result = work();
            process.Refresh();
            return (result, (process.TotalProcessorTime - before).TotalSeconds);
        }
    }

    /// <summary><c>ASFOUND_LABELS</c>, too: what it adds that labels of a shelf hang in order.</summary>
    [Fact]
    public void Rows_are_measured_on_request()
    {
        if (Count == 0 || Environment.GetEnvironmentVariable("ASFOUND_LABEL_REPORT") is not { Length: > 0 } report) return;
        using var recognizer = TextRecognizer.Load(ModelFolder.Path, out _)!;
        var family = ShelfRow.Family;
        var decoder = Measurement.Decoder(recognizer, family.Pattern, family, family.Inventory);
        var reader = new LabelReader(recognizer, [new ReadableScheme(family.Name, decoder)], ReadingTemperatures.Fitted);
        var text = "| wear | labels | one by one | matching alone | neighbours | neighbours and matching |\n"
            + "| --- | --- | --- | --- | --- | --- |\n";
        var (single, neighbours) = (new List<Claim>(), new List<Claim>());
        foreach (var wear in Wear.All)
        {
            var drawn = new List<LabelPicture>();
            var (alone, inRow) = (new List<ImmutableArray<EndReading>>(), new List<ImmutableArray<EndReading>>());
            for (var at = 0; drawn.Count < Count; at++)
            {
                var row = ShelfRow.Draw(Typeface.Judged[at % Typeface.Judged.Length], wear, 12, 17000 + at);
                var read = new RecognizedLine[row.Count];
                Parallel.For(0, row.Count, number => read[number] = reader.Read(row[number].Image, row[number].Box, 5)!);
                drawn.AddRange(row);
                alone.AddRange(read.Select(line =>
                    line.Best.Select(one => new EndReading(one.Label, one.Label, one.Probability)).ToImmutableArray()));
                inRow.AddRange(ShelfRow.Weighed(read));
            }

            single.AddRange(ClaimsOf(alone));
            neighbours.AddRange(ClaimsOf(inRow));
            var right = new[] { alone, Matched(alone), inRow, Matched(inRow) }.Select(ClaimsOf).Select(Measurement.Right);
            text += $"| {wear.Name} | {drawn.Count} | {string.Join(" | ", right)} |\n";

            IEnumerable<Claim> ClaimsOf(IEnumerable<ImmutableArray<EndReading>> readings) =>
                drawn.Zip(readings, (one, best) =>
                    best.IsEmpty ? new Claim(0, false) : new Claim(best[0].Probability, best[0].Label == one.Label));
        }

        File.WriteAllText(
            report + ".rows.md",
            $"{text}\n{Measurement.Reliability("one by one", single)}{Measurement.Reliability("neighbours", neighbours)}");

        static IEnumerable<ImmutableArray<EndReading>> Matched(IReadOnlyList<ImmutableArray<EndReading>> readings) =>
            JointReading.Choose([.. readings.Select((best, at) => new ReadEnd($"{at}", best))])
                .Zip(readings, (chosen, best) => chosen.Reading is { } reading ? [reading] : best);
    }

    /// <summary><c>ASFOUND_LABEL_ARCHIVE</c> names a new folder, for an archive with as many labels in its photos.</summary>
    [Fact]
    public void An_archive_is_drawn_on_request()
    {
        if (Environment.GetEnvironmentVariable("ASFOUND_LABEL_ARCHIVE") is { Length: > 0 } folder) GeneratedArchive.Write(folder, Count);
    }

    /// <summary>
    /// <c>ASFOUND_LABEL_TRAINING</c> names a file to begin at a number, such as <c>/tmp/lines/0</c>: lines to train the recogniser with.
    /// </summary>
    [Fact]
    public void Training_lines_are_drawn_on_request()
    {
        if (Environment.GetEnvironmentVariable("ASFOUND_LABEL_TRAINING") is not { Length: > 0 } file) return;
        TrainingLine.Write(file, Count, int.Parse(Path.GetFileName(file), CultureInfo.InvariantCulture) * 100_000);
    }

    private static void Save(Measured one, string folder, int number)
    {
        var drawn = one.Drawn.Image;
        using var image = Image.NewFromMemory(drawn.Pixels, drawn.Width, drawn.Height, 3, Enums.BandFormat.Uchar);
        image.WriteToFile(Path.Combine(folder, $"{one.Wear.Name}-{number}.png"));
        var cut = LineCrop.Cut(drawn, one.Drawn.Box, 48, 1600, 0);
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

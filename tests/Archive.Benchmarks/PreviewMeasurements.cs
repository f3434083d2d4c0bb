using System.Diagnostics;

namespace Archive.Benchmarks;

/// <summary>Runs a preview as its users do, edits a file, and waits until a browser has the new page.</summary>
internal static class PreviewMeasurements
{
    private const int Edits = 7, WarmingUp = 2;

    /// <summary>Measures how long an edit takes to be seen.</summary>
    /// <param name="tool">Full path of the tool's <c>asfound.dll</c>.</param>
    /// <param name="work">The folder of the archive.</param>
    /// <param name="edit">Edits the record: gives a frame a name with a number in it.</param>
    /// <param name="frame">The frame's id.</param>
    /// <returns>Medians, in seconds, of wall time and of the processor's; and the peak of memory in MB.</returns>
    internal static async Task<(double Wall, double Processor, long PeakMegabytes)> Measure(
        string tool, string work, Action<int> edit, string frame)
    {
        string[] arguments = ["preview", "--content", Path.Combine(work, "content"), "--port", "0"];
        var start = new ProcessStartInfo("dotnet", [tool, .. arguments])
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        };
        using var process = Process.Start(start)!;
        try
        {
            var said = process.StandardOutput.ReadToEndAsync();
            var at = (await process.StandardError.ReadLineAsync())!["Preview at ".Length..].Split(';')[0];
            await process.StandardError.ReadLineAsync();
            var complained = process.StandardError.ReadToEndAsync();
            using var browser = new HttpClient { BaseAddress = new Uri(at), Timeout = Timeout.InfiniteTimeSpan };
            using var events = new StreamReader(await browser.GetStreamAsync("/.preview/events"));
            var measured = new List<(double Wall, double Processor)>();
            for (var i = 0; i < Edits; i++)
            {
                process.Refresh();
                var (clock, worked) = (Stopwatch.StartNew(), process.TotalProcessorTime);
                edit(1000 + i);
                string page;
                do
                {
                    while (await events.ReadLineAsync() is { } line && line != "event: site")
                    {
                    }

                    page = await browser.GetStringAsync($"/frames/{frame}/");
                }
                while (!page.Contains($"Renamed {1000 + i}", StringComparison.Ordinal));
                process.Refresh();
                measured.Add((clock.Elapsed.TotalSeconds, (process.TotalProcessorTime - worked).TotalSeconds));

                // What is written within two seconds may be read again because disks keep time in steps; that is part of editing.
                await Task.Delay(200);
            }

            if (said.IsCompleted || complained.IsCompleted) throw new InvalidOperationException(await said + await complained);
            var after = measured.Skip(WarmingUp).ToList();
            return (Median(after.Select(each => each.Wall)), Median(after.Select(each => each.Processor)), process.PeakWorkingSet64 >> 20);
        }
        finally
        {
            process.Kill();
        }
    }

    private static double Median(IEnumerable<double> values) => values.Order().ToList() is var all ? all[all.Count / 2] : 0;
}

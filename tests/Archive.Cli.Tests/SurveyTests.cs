using NetVips;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary><c>asfound check --survey</c>: what is still to be done, place by place, and what photos are worth.</summary>
public sealed class SurveyTests : IDisposable
{
    private readonly Asfound _archive = new();

    [Fact]
    public async Task What_the_survey_owes_is_told_as_one_walks()
    {
        _archive.Write("content/archive.yaml", "title: Small station\nwanted_views: {frame: [front], tray: [above]}\n");
        _archive.Write("content/trays/t.yaml", "- {id: T-1, hall: hall, path: [[0, 0], [1000, 0]], height: 2500 mm, size: 300 x 100 mm}\n");
        _archive.Write("content/halls/h.yaml",
            "- id: hall\n  as_found: true\n  outline: [[0, 0], [9000, 0], [9000, 9000], [0, 9000]]\n  rows:\n"
            + "    - {id: row-1, at: [1000, 3000], runs: east, faces: south, frames: [R1-02, R1-01]}\n");
        _archive.Write("content/frames/r1.yaml",
            "- {id: R1-01, name: Receiver one, weight: 310 kg, size: 600 x 600 x 2000 mm}\n- {id: R1-02, name: Receiver two, size: 600 x 600 x 2000 mm}\n");
        for (var i = 0; i < 7; i++) Photograph($"p{i}.jpg", seed: i, blurred: i == 3, taken: i != 5);
        Photograph("p7.jpg", seed: 0, blurred: false, taken: true);
        _archive.Write(
            "content/photos/p.yaml",
            string.Concat(Enumerable.Range(0, 8).Select(i => $"- {{id: P-{i}, file: p{i}.jpg, view: front, shows: [R1-02]}}\n")));

        var run = await _archive.Run("check", "--survey");
        Assert.Equal((0, ""), (run.Code, run.Error.Split('\n')[2]));
        Assert.Equal(
            """
            R1-02  Receiver two, in row-1
              [ ] its weight
              [ ] photo P-3 should be taken again: blurred: sharpness #, while half of the photos from this camera have # or more
              [ ] photo P-5 has no date, in the record or from the camera
              [ ] photo P-7 looks the same as P-0: keep the better one, or say what differs
              [ ] a photo of the end of C-1 here

            R1-01  Receiver one, in row-1
              [ ] a photo of its front
              [ ] a photo of the end of C-1 here
              [ ] cable C-1: its length, a label or tag

            T-1  tray
              [ ] a photo from above


            """.ReplaceLineEndings("\n"),
            System.Text.RegularExpressions.Regex.Replace(run.Out, "(sharpness|have) [0-9]+", "$1 #"));
        Assert.Equal("2 frames, 1 cable, 8 photos: no errors, no warnings.\nStill to record: 9 items at 3 places.\n", run.Error);

        // The page says the same.
        await _archive.Run("publish", "--themes", Path.Combine(Asfound.Repository, "themes"));
        var page = await File.ReadAllTextAsync(_archive["site/lacks/index.html"], TestContext.Current.CancellationToken);
        Assert.All(new[] { "Photos to take again", "Photos that look the same", "Photos without a date" }, heading =>
            Assert.Contains(heading, page, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_survey_is_written_as_text_only()
    {
        var run = await _archive.Run("check", "--survey", "--format", "json");
        Assert.Equal(
            (2, "asfound: --survey is always text for people\n  help: leave out --format, or leave out --survey\n"), (run.Code, run.Error));
    }

    /// <summary>
    /// Whatever lies where a photo should is reported at the line that names it; the survey tells also what only decoding shows.
    /// </summary>
    [Fact]
    public async Task Hostile_files_are_told_at_their_lines()
    {
        Photograph("whole.jpg", seed: 1, blurred: false, taken: true);
        var whole = await File.ReadAllBytesAsync(_archive["content/photos/whole.jpg"], TestContext.Current.CancellationToken);
        (string Name, byte[] Bytes)[] files =
        [
            ("text.jpg", "<script>alert(1)</script>"u8.ToArray()),
            ("empty.jpg", []),
            ("cut.jpg", whole[..(whole.Length / 2)]),
            ("film.jpg", "GIF89a..........."u8.ToArray())
        ];
        foreach (var (name, bytes) in files)
            await File.WriteAllBytesAsync(_archive["content/photos/" + name], bytes, TestContext.Current.CancellationToken);
        _archive.Write("content/photos/p.yaml", string.Concat(files.Select((file, i) => $"- {{id: P-{i}, file: {file.Name}}}\n")));

        var quick = await _archive.Run("check");
        Assert.Equal([1, 2, 3, 4], Lines(quick.Out));
        var survey = await _archive.Run("check", "--survey");
        Assert.Equal([1, 2, 3, 4], Lines(survey.Out));
        Assert.Equal(1, survey.Code);
    }

    private static IEnumerable<int> Lines(string told) =>
        System.Text.RegularExpressions.Regex
            .Matches(told, "photos/p[.]yaml:([0-9]+):19: error.*AF0702")
            .Select(match => int.Parse(match.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture));

    public void Dispose() => _archive.Dispose();

    private void Photograph(string name, int seed, bool blurred, bool taken)
    {
        var random = new Random(seed);
        var shades = Enumerable.Range(0, 6 * 4).Select(_ => random.Next(40, 220)).ToArray();
        var pixels = new byte[600 * 400 * 3];
        for (var i = 0; i < 600 * 400; i++)
            Array.Fill(pixels, (byte)(shades[(i / 600 / 100 * 6) + (i % 600 / 100)] + (i % 600 % 15 < 2 ? -30 : 0)), 3 * i, 3);
        using var raw = Image.NewFromMemory(pixels, 600, 400, 3, Enums.BandFormat.Uchar);
        using var drawn = raw.Copy(interpretation: Enums.Interpretation.Srgb);
        using var soft = blurred ? drawn.Gaussblur(5).Cast(Enums.BandFormat.Uchar) : drawn.Copy();
        using var noted = soft.Mutate(picture =>
        {
            picture.Set(GValue.GStrType, "exif-ifd0-Make", "Kodiak");
            picture.Set(GValue.GStrType, "exif-ifd0-Model", "K-100");
            if (taken) picture.Set(GValue.GStrType, "exif-ifd2-DateTimeOriginal", "2026:05:12 10:42:07");
        });
        Directory.CreateDirectory(_archive["content/photos"]);
        noted.Jpegsave(_archive["content/photos/" + name], q: 90);
    }
}

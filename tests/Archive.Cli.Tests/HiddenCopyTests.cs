using NetVips;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>A copy of a picture under another name must not show what the first record hides.</summary>
public sealed class HiddenCopyTests : IDisposable
{
    private const string Hidden = "redact: [{box: [0.25, 0.25, 0.5, 0.5], why: names}]";
    private readonly Asfound _archive = new();

    public HiddenCopyTests()
    {
        Directory.CreateDirectory(_archive["content/photos"]);
        using var image = Wall(1);
        image.WriteToFile(_archive["content/photos/a.png"]);
        File.Copy(_archive["content/photos/a.png"], _archive["content/photos/copy.png"]);
    }

    [Theory]
    [InlineData("- id: P-1\n  file: a.png\n  " + Hidden + "\n- id: P-2\n  file: copy.png\n", "`P-2` shows what `P-1` hides")]
    [InlineData(
        "- id: P-1\n  file: a.png\n  " + Hidden + "\n- id: P-2\n  file: copy.png\n  redact: [{box: [0, 0, 0.1, 0.1]}]\n",
        "`P-2` shows some of what `P-1` hides")]
    [InlineData(
        "- id: P-1\n  withdrawn: shows names\n  file: a.png\n  " + Hidden + "\n- id: P-2\n  file: copy.png\n  publish_original: true\n",
        "`P-2` shows what `P-1` hides")]
    public async Task The_same_bytes_under_another_name_are_an_error_at_both_records(string records, string says)
    {
        _archive.Write("content/photos/p.yaml", records);
        var line = records[..records.IndexOf("copy.png", StringComparison.Ordinal)].Count(letter => letter == '\n') + 1;
        foreach (var run in new[] { await _archive.Run("check"), await Publish() })
        {
            Assert.Equal(1, run.Code);
            var told = run.Out + run.Error;
            Assert.Contains("AF0709", told, StringComparison.Ordinal);
            Assert.Contains(says + ": `photos/copy.png` and `photos/a.png` are identical pictures", told, StringComparison.Ordinal);
            Assert.Contains($"photos/p.yaml:{line}:9", told, StringComparison.Ordinal);
            Assert.Contains("hidden by `P-1` here", told, StringComparison.Ordinal);
        }

        Assert.False(Directory.Exists(_archive["site"]));
    }

    /// <summary>Every picture of the site, tiles too, is black where the middle is hidden; nothing has the original's bytes.</summary>
    [Fact]
    public async Task With_errors_nothing_of_the_copy_shows_what_is_hidden()
    {
        // Wide enough for tiles.
        using (var wall = Wall(1))
        using (var wide = wall.Resize(2.1, vscale: 1)) wide.WriteToFile(_archive["content/photos/a.png"]);
        File.Copy(_archive["content/photos/a.png"], _archive["content/photos/copy.png"], overwrite: true);
        _archive.Write(
            "content/photos/p.yaml", "- {id: P-1, file: a.png, " + Hidden + "}\n- {id: P-2, file: copy.png, publish_original: true}\n");
        await Publish("--with-errors");

        var original = await File.ReadAllBytesAsync(_archive["content/photos/a.png"], TestContext.Current.CancellationToken);
        Assert.All(Directory.EnumerateFiles(_archive["site"], "*", SearchOption.AllDirectories), file =>
            Assert.False(File.ReadAllBytes(file).AsSpan().SequenceEqual(original), file));
        var pictures = Directory.GetFiles(_archive["site/images"], "default.*", SearchOption.AllDirectories);
        Assert.Contains(pictures, file => file.Contains("0,0,1024,900", StringComparison.Ordinal));
        Assert.All(pictures, file =>
        {
            using var image = Image.NewFromFile(file);

            // A tile is black where the hidden part of the whole, 2520 x 900, lies in it.
            var region = Path.GetRelativePath(_archive["site/images"], file).Split('/')[2];
            double[] part = region == "full" ? [0, 0, 2520, 900] : [.. region.Split(',').Select(double.Parse)];
            var (x, y) = ((Math.Max(part[0], 1260) - part[0] + 210) / part[2], (450 - part[1]) / part[3]);
            if (x is > 0 and < 1 && part[0] < 1890)
                Assert.True(image.Getpoint((int)(x * image.Width), (int)(y * image.Height)).All(band => band < 30), file);
        });
    }

    /// <summary>A box that cannot be read may be the one that hides: neither the photo nor a copy of it is shown.</summary>
    [Fact]
    public async Task A_copy_of_a_photo_whose_lines_hold_an_error_is_not_shown()
    {
        _archive.Write(
            "content/photos/p.yaml", "- {id: P-1, file: a.png, redact: [{box: [0.5, 0.5, 0.9, 0.1]}]}\n- {id: P-2, file: copy.png}\n");
        await Publish("--with-errors");
        Assert.False(Directory.Exists(_archive["site/images"]));
    }

    [Fact]
    public async Task The_same_parts_hidden_in_both_are_no_error()
    {
        _archive.Write("content/photos/p.yaml", "- {id: P-1, file: a.png, " + Hidden + "}\n- {id: P-2, file: copy.png, " + Hidden + "}\n");
        Assert.Equal((0, ""), ((await _archive.Run("check")).Code, (await Publish()).Out));
    }

    [Theory, InlineData(""), InlineData(", withdrawn: shows names")]
    public async Task The_same_picture_resized_and_cut_is_a_warning_at_both_records(string withdrawn)
    {
        using (var image = Wall(1))
        using (var cut = image.Crop(20, 30, 1140, 840))
        using (var small = cut.Resize(0.4))
        {
            small.WriteToFile(_archive["content/photos/small.jpg"]);
        }

        using (var other = Wall(2)) other.WriteToFile(_archive["content/photos/other.jpg"]);
        _archive.Write(
            "content/photos/p.yaml",
            "- {id: P-1, file: a.png, " + Hidden + withdrawn + "}\n- id: P-3\n  file: small.jpg\n- {id: P-4, file: other.jpg}\n");
        foreach (var run in new[] { await Publish(), await Publish(), await _archive.Run("check", "--survey") })
        {
            Assert.Equal(0, run.Code);
            var told = run.Out + run.Error;
            Assert.Single(System.Text.RegularExpressions.Regex.Matches(told, "AF0710"));
            Assert.Contains("photos/p.yaml:3:9: warning", told, StringComparison.Ordinal);
            Assert.Contains("`P-3` looks like `P-1`, which has hidden parts, but hides nothing itself", told, StringComparison.Ordinal);
            Assert.Contains("hidden by `P-1` here", told, StringComparison.Ordinal);
        }

        // A check alone looks at no pixels.
        Assert.DoesNotContain("AF0710", (await _archive.Run("check")).Out, StringComparison.Ordinal);
    }

    public void Dispose() => _archive.Dispose();

    private Task<Run> Publish(params string[] more) =>
        _archive.Run("publish", ["--themes", Path.Combine(Asfound.Repository, "themes"), .. more]);

    private static Image Wall(int seed)
    {
        var random = new Random(seed);
        var image = Image.Black(1200, 900, bands: 3)
            .Linear([1.0, 1, 1], [200.0, 200, 200])
            .Cast(Enums.BandFormat.Uchar)
            .Copy(interpretation: Enums.Interpretation.Srgb);
        for (var i = 0; i < 60; i++)
        {
            var (left, top, shade) = (random.Next(1100), random.Next(800), (double)random.Next(60, 240));
            image = image.Mutate(picture =>
                picture.DrawRect([shade, shade, shade], left, top, 40 + (i * 3 % 200), 40 + (i * 7 % 150), fill: true));
        }

        return image;
    }
}

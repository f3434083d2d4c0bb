using System.Text.Json.Nodes;
using NetVips;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>A published picture as a stranger's viewer sees it: whatever its <c>info.json</c> promises (IIIF Image API 3.0, level 0) is a
/// file of that size, and what the record hides is black in every one of them.</summary>
public sealed class ZoomTilesTests : IDisposable
{
    private readonly Asfound _archive = new();

    [Fact]
    public async Task Every_address_that_is_promised_is_there_and_shows_nothing_that_is_hidden()
    {
        const int width = 2700, height = 1900;
        _archive.Write("content/archive.yaml", "title: Small station\nbase: https://archive.example/small/\n");
        _archive.Write(
            "content/photos/p.yaml", "- {id: P-1, file: p.jpg, shows: R1-01, redact: [{box: [0.3, 0.2, 0.4, 0.3], why: names}]}\n");
        Photograph(width, height);
        var run = await _archive.Run("publish", "--themes", Path.Combine(AppContext.BaseDirectory, "../../../../../themes"));
        Assert.True(run.Code == 0, run.Out + run.Error);

        var info = JsonNode.Parse(await File.ReadAllTextAsync(
            Directory.GetFiles(_archive["site/images"], "info.json", SearchOption.AllDirectories).Single(),
            TestContext.Current.CancellationToken))!;
        var folder = _archive["site/" + ((string)info["id"]!)["https://archive.example/small/".Length..]];
        Assert.Equal((width, height), ((int)info["width"]!, (int)info["height"]!));
        var asked = Promised(info, width, height).ToList();
        Assert.True(asked.Count > 10);
        foreach (var (path, w, h) in asked)
        {
            using var picture = Image.NewFromFile(Path.Combine(folder, path));
            Assert.Equal((path, w, h), (path, picture.Width, picture.Height));
        }

        Assert.All(Directory.EnumerateFiles(_archive["site/images"], "*.*", SearchOption.AllDirectories)
            .Where(path => !path.EndsWith(".json", StringComparison.Ordinal)), path =>
        {
            // The hidden part is red, all else green.
            using var picture = Image.NewFromFile(path);
            using var excess = picture.ExtractBand(0) - picture.ExtractBand(1);
            Assert.True(excess.Max() < 40, $"{path} shows what is hidden");
        });

        var manifest = JsonNode.Parse(
            await File.ReadAllTextAsync(_archive["site/data/iiif/R1-01/manifest.json"], TestContext.Current.CancellationToken))!;
        Assert.Equal((string?)info["id"], (string?)manifest["items"]![0]!["items"]![0]!["items"]![0]!["body"]!["service"]![0]!["id"]);
    }

    public void Dispose() => _archive.Dispose();

    // By the text of the API, not by our code.
    private static IEnumerable<(string Path, int Width, int Height)> Promised(JsonNode info, int width, int height)
    {
        yield return ("full/max/0/default.jpg", (int?)info["maxWidth"] ?? width, (int?)info["maxHeight"] ?? height);
        foreach (var size in info["sizes"]!.AsArray())
            yield return ($"full/{size!["width"]},{size["height"]}/0/default.jpg", (int)size["width"]!, (int)size["height"]!);
        var side = (int)info["tiles"]![0]!["width"]!;
        foreach (var scale in info["tiles"]![0]!["scaleFactors"]!.AsArray().Select(factor => (int)factor!))
        {
            for (var y = 0; y < height; y += side * scale)
            {
                for (var x = 0; x < width; x += side * scale)
                {
                    var (w, h) = (Math.Min(side * scale, width - x), Math.Min(side * scale, height - y));
                    var (across, down) = ((int)Math.Ceiling((double)w / scale), (int)Math.Ceiling((double)h / scale));
                    yield return (
                        $"{((w, h) == (width, height) ? "full" : $"{x},{y},{w},{h}")}/{across},{down}/0/default.jpg", across, down);
                }
            }
        }
    }

    private void Photograph(int width, int height)
    {
        Directory.CreateDirectory(_archive["content/photos"]);
        using var green = Image.Black(width, height, bands: 3)
            .Linear([1, 1, 1], [20, 190, 60])
            .Cast(Enums.BandFormat.Uchar)
            .Copy(interpretation: Enums.Interpretation.Srgb);
        using var marked = green.Mutate(picture =>
            picture.DrawRect([230, 10, 10], (int)(0.3 * width), (int)(0.2 * height), (int)(0.4 * width), (int)(0.3 * height), fill: true));
        marked.Jpegsave(_archive["content/photos/p.jpg"], q: 92);
    }
}

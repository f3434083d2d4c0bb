using Xunit;

namespace Archive.Cli.Tests;

/// <summary>Originals that are published: as the camera wrote them, with a warning of what they tell; or stripped of it.</summary>
public sealed class SharedOriginalTests : IDisposable
{
    private static readonly string Noted = Path.Combine(Asfound.Repository, "tests/Archive.Photos.Tests/samples/notes/noted.jpg");
    private readonly Asfound _archive = new();

    public SharedOriginalTests()
    {
        Directory.CreateDirectory(_archive["content/photos"]);
        File.Copy(Noted, _archive["content/photos/a.jpg"]);
    }

    [Fact]
    public async Task What_an_original_tells_is_warned_of()
    {
        Record("true");
        foreach (var run in new[] { await _archive.Run("check"), await Publish(), await Publish() })
        {
            Assert.Equal(0, run.Code);
            var told = run.Out + run.Error;
            Assert.Contains("photos/p.yaml:3:21: warning", told, StringComparison.Ordinal);
            Assert.Contains(
                "AF0711]: the original `photos/a.jpg` is published exactly as it came from the camera, with the position where it was taken, serial numbers, the name of an owner or author, a thumbnail, comments and editing software metadata\n",
                told.Replace("AF0711: ", "AF0711]: ", StringComparison.Ordinal), StringComparison.Ordinal);
        }

        Assert.True(IsPublished(await File.ReadAllBytesAsync(Noted, TestContext.Current.CancellationToken)));
        Assert.Contains("Original file from the camera", Page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_stripped_copy_is_published_without_a_word()
    {
        Record("stripped");
        foreach (var run in new[] { await _archive.Run("check"), await Publish() })
            Assert.DoesNotContain("AF07", run.Out + run.Error, StringComparison.Ordinal);
        Assert.Contains("Original picture, without camera metadata", Page, StringComparison.Ordinal);
        Assert.All(Directory.EnumerateFiles(_archive["site"], "*", SearchOption.AllDirectories), file =>
            Assert.True(File.ReadAllBytes(file).AsSpan().IndexOf("SERIAL-0815"u8) < 0, file));
        var link = System.Text.RegularExpressions.Regex.Match(Page, "href=\"../../(images/[0-9a-f/]+[.]jpg)\"").Groups[1].Value;
        using var copy = NetVips.Image.NewFromFile(_archive[Path.Combine("site", link)]);
        using var original = NetVips.Image.NewFromFile(Noted);
        Assert.Equal(original.WriteToMemory<byte>(), copy.WriteToMemory<byte>());

        // Unchanged, it is not made again.
        Assert.Contains("Nothing changed", (await Publish()).Error, StringComparison.Ordinal);
    }

    [Theory, InlineData("with_notes", true), InlineData("false", false)]
    public async Task Nothing_is_said_where_the_record_knows_it(string says, bool isThere)
    {
        Record(says);
        var run = await Publish();
        Assert.DoesNotContain("AF07", run.Out + run.Error, StringComparison.Ordinal);
        Assert.Equal(isThere, IsPublished(await File.ReadAllBytesAsync(Noted, TestContext.Current.CancellationToken)));
    }

    [Fact]
    public async Task A_file_that_cannot_be_stripped_is_an_error_at_its_record()
    {
        // An animation whose first frame was moved: a part of the picture.
        using (var frames = NetVips.Image.Black(40, 60, bands: 3))
        using (var film = frames.Mutate(picture => picture.Set(NetVips.GValue.GIntType, "page-height", 20)))
        using (var noise = film.Mutate(picture => picture.DrawRect([200.0, 100, 50], 5, 5, 10, 50, fill: true)))
        {
            var webp = noise.WriteToBuffer(".webp[lossless]");
            var at = webp.AsSpan().IndexOf("VP8X"u8);
            webp[at + 12] += 2; // a canvas two pixels wider than its frames
            await File.WriteAllBytesAsync(_archive["content/photos/a.jpg"], webp, TestContext.Current.CancellationToken);
        }

        Record("stripped");
        foreach (var run in new[] { await _archive.Run("check"), await Publish() })
        {
            Assert.Equal(1, run.Code);
            Assert.Contains("photos/p.yaml:3:21: error", run.Out + run.Error, StringComparison.Ordinal);
            Assert.Contains(
                "photo `photos/a.jpg` cannot be copied without its metadata: its first frame is only part of the picture",
                run.Out + run.Error,
                StringComparison.Ordinal);
        }
    }

    [Theory, InlineData("striped", "AF0208"), InlineData("\"true\"", "AF0203"), InlineData("[true]", "AF0203")]
    public async Task Another_word_is_an_error(string says, string code)
    {
        Record(says);
        var run = await _archive.Run("check");
        Assert.Equal(1, run.Code);
        Assert.Contains(code, run.Out + run.Error, StringComparison.Ordinal);
    }

    public void Dispose() => _archive.Dispose();

    private string Page => File.ReadAllText(_archive["site/photos/P-1/index.html"]);

    private bool IsPublished(byte[] bytes) =>
        Directory.EnumerateFiles(_archive["site"], "*", SearchOption.AllDirectories)
            .Any(file => File.ReadAllBytes(file).AsSpan().SequenceEqual(bytes));

    private void Record(string says) => _archive.Write("content/photos/p.yaml", $"- id: P-1\n  file: a.jpg\n  publish_original: {says}\n");

    private Task<Run> Publish() => _archive.Run("publish", "--themes", Path.Combine(Asfound.Repository, "themes"));
}

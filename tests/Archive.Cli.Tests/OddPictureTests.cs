using NetVips;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>Pictures of shapes and kinds that an encoder refuses or a reader overlooks, published from the command line.</summary>
public sealed class OddPictureTests : IDisposable
{
    private readonly Asfound _archive = new();

    [Theory, InlineData(300, 16_384), InlineData(1300, 17_000), InlineData(17_000, 40), InlineData(1, 65_500), InlineData(65_500, 1)]
    public async Task A_long_picture_is_published(int width, int height)
    {
        Directory.CreateDirectory(_archive["content/photos"]);
        using (var image = Image.Black(width, height, bands: 3)) image.WriteToFile(_archive["content/photos/long.png"]);
        _archive.Write("content/photos/p.yaml", "- {id: P-1, file: long.png, shows: [R1-01]}\n");
        var run = await Publish();

        Assert.Equal((0, ""), (run.Code, run.Out));
        var page = await File.ReadAllTextAsync(_archive["site/photos/P-1/index.html"], TestContext.Current.CancellationToken);
        Assert.Contains("<img src=\"../../images/", page, StringComparison.Ordinal);
        Assert.Equal(height < 16_384, page.Contains("image/webp", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Of_several_pictures_in_a_file_the_first_is_shown_and_that_is_said()
    {
        Directory.CreateDirectory(_archive["content/photos"]);
        using (var page = Image.Black(60, 120, bands: 3))
        using (var film = page.Mutate(picture => picture.Set(GValue.GIntType, "page-height", 40)))
        {
            film.WriteToFile(_archive["content/photos/lists.tif"]);
        }

        _archive.Write("content/photos/p.yaml", "- id: P-1\n  file: lists.tif\n  shows: [R1-01]\n");
        foreach (var run in new[] { await _archive.Run("check"), await Publish() })
        {
            Assert.Equal(0, run.Code);
            Assert.Contains("photos/p.yaml:2:9: note", run.Out + run.Error, StringComparison.Ordinal);
            Assert.Contains("AF0713", run.Out + run.Error, StringComparison.Ordinal);
            Assert.Contains(
                "photo `photos/lists.tif` holds 3 pictures, and only the first is shown", run.Out + run.Error, StringComparison.Ordinal);
        }
    }

    public void Dispose() => _archive.Dispose();

    private Task<Run> Publish() => _archive.Run("publish", "--themes", Path.Combine(Asfound.Repository, "themes"));
}

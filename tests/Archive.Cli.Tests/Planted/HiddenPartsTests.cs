using Xunit;

namespace Archive.Cli.Tests.Planted;

/// <summary>What was to be hidden stays hidden, even where a site is published with errors.</summary>
public sealed class HiddenPartsTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("asfound-hidden-").FullName;

    [Theory]
    [InlineData("redact: [{box: [0.7, 0.1, 0.2, 0.05]", "redact: [{box: [0.7, 0.1, 0.2, 0.05]", true)]
    [InlineData("redact: [{box: [0.7, 0.1, 0.2, 0.05]", "redact: [{box: [0.9, 0.1, 0.2, 0.05]", false)]
    [InlineData("redact: [{box:", "redact: [{bxo:", false)]
    [InlineData("redact: [{box:", "redcat: [{box:", false)]
    public async Task A_photo_whose_own_lines_hold_an_error_gets_no_prints(string old, string planted, bool isShown)
    {
        Copy(text => text.Replace(old, planted, StringComparison.Ordinal));
        var site = await Publish();

        Assert.True(File.Exists(Path.Combine(site, "photos/P-001/index.html")));
        Assert.Equal(isShown, Directory.Exists(Path.Combine(site, "images")));
    }

    [Theory]
    [InlineData("publish_original: true", "", true)]
    [InlineData("publish_original: false", "", false)]
    [InlineData("publish_original: true", "redact: [{box: [0.7, 0.1, 0.2, 0.05], why: names}]", false)]
    public async Task An_original_is_published_only_where_the_record_says_so_and_nothing_is_hidden(string says, string hides, bool isThere)
    {
        Copy(text =>
            text[..text.IndexOf("  redact:", StringComparison.Ordinal)] + $"  {says}\n" + (hides.Length > 0 ? $"  {hides}\n" : ""));
        var original = await File.ReadAllBytesAsync(
            Path.Combine(_folder, "content/photos/rack-a/a01-rear.png"), TestContext.Current.CancellationToken);
        var site = await Publish();
        var published = Directory.EnumerateFiles(Path.Combine(site, "images"), "*", SearchOption.AllDirectories).Select(File.ReadAllBytes);
        Assert.Equal(isThere, published.Any(bytes => bytes.AsSpan().SequenceEqual(original)));
    }

    [Fact]
    public async Task What_one_record_of_a_picture_hides_no_other_shows()
    {
        Copy(text => text[..text.IndexOf("  redact:", StringComparison.Ordinal)]
            + "- id: P-002\n  file: a01-rear.png\n  redact: [{box: [0.2, 0.2, 0.2, 0.2], why: names}]\n");
        var site = await Publish();

        // Both records come to the same hidden parts, so they share the same pictures.
        var shown =
            new[] { "P-001", "P-002" }.Select(id => Pictures(File.ReadAllText(Path.Combine(site, "photos", id, "index.html")))).ToList();
        Assert.NotEmpty(shown[0]);
        Assert.Equal(shown[0].Length, shown[1].Length);
        var boxes = Directory.EnumerateFiles(Path.Combine(site, "images"), "*.jpg", SearchOption.AllDirectories).Select(File.ReadAllBytes);
        Assert.All(boxes, bytes => Assert.True(IsBlackAt(bytes, 0.3, 0.3), "a hidden part is shown"));
    }

    private static string[] Pictures(string page) =>
        [.. page.Split("images/").Skip(1).Select(part => part.Split('"', ' ')[0]).Distinct().Order(StringComparer.Ordinal)];

    private static bool IsBlackAt(byte[] jpeg, double x, double y)
    {
        using var image = NetVips.Image.NewFromBuffer(jpeg);
        return image.Getpoint((int)(x * image.Width), (int)(y * image.Height)).All(band => band < 24);
    }

    private void Copy(Func<string, string> change)
    {
        var from = Path.Combine(AppContext.BaseDirectory, "Planted", "base");
        foreach (var file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
        {
            var to = Path.Combine(_folder, "content", Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(file, to);
        }

        var sidecar = Path.Combine(_folder, "content/photos/rack-a/photos.yaml");
        var before = File.ReadAllText(sidecar);
        File.WriteAllText(sidecar, change(before));
    }

    private async Task<string> Publish()
    {
        var site = Path.Combine(_folder, "site");
        await Asfound.Typed(
            "publish",
            "--with-errors",
            "--content",
            Path.Combine(_folder, "content"),
            "--site",
            site,
            "--cache",
            Path.Combine(_folder, "cache"));
        return site;
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}

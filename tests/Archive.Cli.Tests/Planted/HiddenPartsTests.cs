using Xunit;

namespace Archive.Cli.Tests;

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
        var content = Path.Combine(_folder, "content");
        foreach (var file in Directory.EnumerateFiles(Path.Combine(AppContext.BaseDirectory, "Planted", "base"), "*", SearchOption.AllDirectories))
        {
            var to = Path.Combine(content, Path.GetRelativePath(Path.Combine(AppContext.BaseDirectory, "Planted", "base"), file));
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(file, to);
        }

        var sidecar = Path.Combine(content, "photos/rack-a/photos.yaml");
        var text = File.ReadAllText(sidecar);
        Assert.Contains(old, text, StringComparison.Ordinal);
        File.WriteAllText(sidecar, text.Replace(old, planted, StringComparison.Ordinal));

        var site = Path.Combine(_folder, "site");
        await Asfound.Typed("publish", "--with-errors", "--content", content, "--site", site, "--cache", Path.Combine(_folder, "cache"));

        Assert.True(File.Exists(Path.Combine(site, "photos/P-001/index.html")));
        Assert.Equal(isShown, Directory.Exists(Path.Combine(site, "images")));
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}

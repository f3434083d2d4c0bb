using System.Collections.Immutable;
using Archive.Publishing.Building;
using Archive.Publishing.Caching;
using Archive.Publishing.Requests;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>The demo, asked for file by file, as the preview does.</summary>
public sealed class PreviewedDemoTests(DemoSite demo)
{
    [Fact]
    public void Every_address_has_the_bytes_that_were_published()
    {
        var content = Path.Combine(DemoSite.Repository, "content");
        var cache = CacheFolder.Open(Path.Combine(DemoSite.Repository, ".asfound"), content);
        ImmutableArray<string> themes = [Path.Combine(DemoSite.Repository, "themes")];
        var session = new SiteSession(new BuildOptions(content, "content/", cache, themes));
        Assert.IsType<BuildStatus.Ready>(session.Update(TestContext.Current.CancellationToken)!.Status);
        var paths = Directory.EnumerateFiles(demo.Site, "*", SearchOption.AllDirectories)
            .Select(file => Path.GetRelativePath(demo.Site, file).Replace('\\', '/'))
            .ToList();
        Assert.True(paths.Count > 2000);

        // The list of checksums stands for the bytes of all files that it lists: they are made by their parts, and found by their paths.
        Assert.Equal(File.ReadAllBytes(Path.Combine(demo.Site, "site.sha256")), session.Site!.Read("site.sha256")!.Value.Bytes.ToArray());
        Assert.All(paths, path => Assert.True(session.Site.Has(path), path));
        var different = paths.Where(path => !path.StartsWith("images/", StringComparison.Ordinal))
            .Where((_, i) => i % 7 == 0)
            .AsParallel()
            .Where(path => !session.Site.Read(path)!.Value.Bytes.Span.SequenceEqual(File.ReadAllBytes(Path.Combine(demo.Site, path))));
        Assert.Empty(different);
    }
}

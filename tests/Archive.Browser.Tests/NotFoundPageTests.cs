using System.Collections.Concurrent;
using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>
/// The page that a host serves for an address without one, however deep: it finds its style and its links, with scripts and without.
/// </summary>
public sealed class NotFoundPageTests(DemoSite demo, Chromium chromium)
{
    [Theory]
    [InlineData("frames/NO-SUCH/", true)]
    [InlineData("frames/NO-SUCH/", false)]
    [InlineData("a/b/c/d.html", false)]
    [InlineData("404.html", true)]
    public async Task Is_whole_at_any_depth(string address, bool scripts)
    {
        await using var context =
            await chromium.NewContext(new() { JavaScriptEnabled = scripts, ViewportSize = new() { Width = 360, Height = 800 } });
        await WebHostTests.From(context, demo);
        var page = await context.NewPageAsync();
        var asked = new ConcurrentQueue<string>();
        page.Response += (_, response) => asked.Enqueue($"{response.Status} {response.Url}");
        await page.GotoAsync(WebHostTests.Base + address);
        await Assertions.Expect(page.Locator("h1")).ToBeVisibleAsync();
        Assert.Equal("Page not found", await page.Locator("h1").TextContentAsync());
        Assert.Contains(asked, line => line == $"200 {WebHostTests.Base}assets/ledger.css");
        var frames = page.Locator("header nav a", new() { HasText = "Frames" });
        Assert.Equal($"{WebHostTests.Base}frames/index.html", await frames.EvaluateAsync<string>("a => a.href"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Menu" }).ClickAsync();
        await frames.ClickAsync();
        Assert.Contains("Frames", await page.Locator("h1").TextContentAsync() ?? "", StringComparison.Ordinal);
    }

    [Fact]
    public async Task Is_whole_in_the_folder_and_accessible()
    {
        await using var context = await chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 800 } });
        var page = await context.NewPageAsync();
        var loaded = new ConcurrentQueue<string>();
        page.RequestFinished += (_, request) => loaded.Enqueue(request.Url);
        await page.GotoAsync(demo.Url("404.html"));
        Assert.Contains(demo.Url("assets/ledger.css"), loaded);
        Assert.Empty(await Axe.Violations(page));
        await page.Locator("main a").Last.ClickAsync();
        Assert.Equal(demo.Url("index.html"), page.Url);
    }
}

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
        await page.RunAndWaitForResponseAsync(
            () => page.GotoAsync(WebHostTests.Base + address),
            answer => answer.Url == $"{WebHostTests.Base}assets/ledger.css" && answer.Status == 200);
        await Assertions.Expect(page.Locator("h1")).ToBeVisibleAsync();
        Assert.Equal("Page not found", await page.Locator("h1").TextContentAsync());
        var frames = page.Locator("header nav a", new() { HasText = "Frames" });
        Assert.Equal($"{WebHostTests.Base}frames/index.html", await frames.EvaluateAsync<string>("a => a.href"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Menu" }).ClickAsync();
        await frames.ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Frames");
    }

    [Fact]
    public async Task Is_whole_in_the_folder_and_accessible()
    {
        await using var context = await chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 800 } });
        var page = await context.NewPageAsync();
        await page.RunAndWaitForRequestFinishedAsync(
            () => page.GotoAsync(demo.Url("404.html")), new() { Predicate = request => request.Url == demo.Url("assets/ledger.css") });
        await Painting.HasHappened(page);
        Assert.Empty(await Axe.Violations(page));
        await page.Locator("main a").Last.ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync(demo.Url("index.html"));
    }
}

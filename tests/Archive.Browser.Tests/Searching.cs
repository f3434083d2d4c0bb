using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>The search as a visitor uses it, from a folder: a part of a label, an id without its leading zeros, a word of prose.</summary>
public sealed class Searching(DemoSite demo, Chromium chromium)
{
    [Theory]
    [InlineData("R2-02", "frames/R2-02/index.html")]
    [InlineData("r2-2", "frames/R2-02/index.html")]
    [InlineData("C-0401", "cables/C-0401/index.html")]
    [InlineData("0202-01J03", "cables/C-0401/index.html")]
    [InlineData("battery", "frames/PW-04/index.html")]
    public async Task Finds_by_id_label_place_and_prose(string words, string page)
    {
        await using var context = await chromium.Browser.NewContextAsync(new() { ViewportSize = new() { Width = 360, Height = 740 } });
        var tab = await context.NewPageAsync();
        await tab.GotoAsync(demo.Url("search/index.html") + "?q=" + Uri.EscapeDataString(words));
        await tab.Locator("#search-results li").First.WaitForAsync(new() { Timeout = 10_000 });
        var links = await tab.Locator("#search-results a").EvaluateAllAsync<string[]>("links => links.slice(0, 10).map(a => a.getAttribute('href'))");
        Assert.Contains(links, link => link.Contains(page, StringComparison.Ordinal));

        await tab.Locator("#search-results a").First.ClickAsync();
        Assert.True(await tab.Locator("h1").IsVisibleAsync());
    }

    [Fact]
    public async Task Says_so_when_nothing_is_found()
    {
        await using var context = await chromium.Browser.NewContextAsync();
        var tab = await context.NewPageAsync();
        await tab.GotoAsync(demo.Url("search/index.html"));
        await tab.Locator("#search-words").FillAsync("zzzzqqq");
        await Assertions.Expect(tab.Locator("#search-status")).ToContainTextAsync("Nothing");
    }

    [Fact]
    public async Task With_scripts_off_the_page_leads_to_the_indexes()
    {
        await using var context = await chromium.Browser.NewContextAsync(new() { JavaScriptEnabled = false });
        var tab = await context.NewPageAsync();
        await tab.GotoAsync(demo.Url("search/index.html"));
        Assert.True(await tab.Locator("main a").CountAsync() > 1);
    }
}

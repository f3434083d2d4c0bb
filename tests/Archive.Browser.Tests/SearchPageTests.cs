using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>The search as a visitor uses it, from a folder and from a web host.</summary>
public sealed class SearchPageTests(DemoSite demo, Chromium chromium) : IDisposable
{
    private readonly StaticHost _host = new(demo.Site);

    public void Dispose() => _host.Dispose();

    private static readonly (string Words, string Page)[] Looked =
    [
        ("R2-02", "frames/R2-02/index.html"),
        ("r2-2", "frames/R2-02/index.html"),
        ("R2-02/S7", "frames/R2-02/index.html#at-S7"),
        ("R202S7", "frames/R2-02/index.html#at-S7"),
        ("C-0401", "cables/C-0401/index.html"),
        ("C-O4O1", "cables/C-0401/index.html"),
        ("c0401", "cables/C-0401/index.html"),
        ("0202-01J03", "cables/C-0401/index.html"),
        ("020201J03", "cables/C-0401/index.html"),
        ("0202-O1JO3", "cables/C-0401/index.html"),
        ("R3-01/S1/J1", "cables/C-0401/index.html#end-2"),
        ("battery", "frames/PW-04/index.html"),
        ("batery", "frames/PW-04/index.html"),
        ("\"battery stand\"", "frames/PW-04/index.html"),
        ("short", "plans/reach/index.html"),
        ("offline", "offline/index.html"),
        ("anntena", "frames/R1-01/index.html"),
        ("R2-05 shelf 7 jack 14", "cables/C-1454/index.html#end-1"),
    ];

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Finds_what_is_looked_for(bool fromFolder)
    {
        await using var context = await chromium.NewContext(
            new() { ViewportSize = fromFolder ? new() { Width = 360, Height = 740 } : new() { Width = 1280, Height = 720 } });
        var tab = await context.NewPageAsync();
        var lost = new List<string>();
        foreach (var (words, page) in Looked)
        {
            await Ask(tab, fromFolder ? demo.Url("search/index.html") : _host.Base + "search/index.html", words);
            var links = await Links(tab);
            if (!links.Any(link => link.EndsWith(page, StringComparison.Ordinal)))
                lost.Add($"{words} does not find {page}, but {string.Join(' ', links)}");
        }

        Assert.Empty(lost);
    }

    [Fact]
    public async Task Photos_have_their_pictures_pages_exist_and_searches_are_kept_until_they_are_forgotten()
    {
        await using var context = await chromium.NewContext();
        var tab = await Asked(context, demo.Url("search/index.html"), "P-1602");
        var picture = tab.Locator("#search-results img").First;
        await Assertions.Expect(picture).ToBeVisibleAsync();
        Assert.True(await picture.EvaluateAsync<bool>("image => image.decode().then(() => image.naturalWidth > 0)"));
        await tab.Locator("#search-words").PressAsync("Enter");

        await tab.GotoAsync(demo.Url("search/index.html") + "?kind=page&q=page");
        await Assertions.Expect(tab.Locator("#search-results > li")).ToHaveCountAsync(10);
        await tab.Locator("#search-more").ClickAsync();
        await Assertions.Expect(tab.Locator("#search-results > li")).ToHaveCountAsync(30);
        var links = await tab.Locator("#search-results > li > a").EvaluateAllAsync<string[]>(
            "links => links.map(link => link.getAttribute('href'))");
        Assert.All(links, link => Assert.True(File.Exists(Path.Combine(demo.Site, "search", link)), link));

        await tab.Locator("#search-words").FillAsync("");
        await tab.Locator("#search-recent button").First.ClickAsync();
        await Assertions.Expect(tab.Locator("#search-words")).ToHaveValueAsync("P-1602");
        await tab.Locator("#search-words").FillAsync("");
        await tab.GetByText("Forget these").ClickAsync();
        await Assertions.Expect(tab.Locator("#search-recent")).ToBeHiddenAsync();
    }

    [Fact]
    public async Task A_cable_end_is_where_the_result_leads()
    {
        await using var context = await chromium.NewContext();
        var tab = await Asked(context, demo.Url("search/index.html"), "R3-01/S1/J1");
        await tab.Locator("#search-results a[href$='#end-2']").First.ClickAsync();
        await tab.Arrives("#end-2");
        await Assertions.Expect(tab.Locator("#end-2")).ToContainTextAsync("R3-01");
        await Assertions.Expect(tab.Locator("#end-2")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task By_keyboard_alone()
    {
        await using var context = await chromium.NewContext();
        var tab = await context.NewPageAsync();
        await tab.GotoAsync(demo.Url("search/index.html"));
        await Painting.HasHappened(tab);
        await tab.Keyboard.PressAsync("/");
        var field = tab.Locator("#search-words");
        await Assertions.Expect(field).ToBeFocusedAsync();
        await tab.Keyboard.TypeAsync("battery");
        await Assertions.Expect(tab.Locator("#search-results a").First).ToContainTextAsync("PW-04");
        await Assertions.Expect(tab.Locator("#search-results mark").First).ToHaveTextAsync("Battery");
        var first = tab.Locator("#search-results a").First;
        await tab.Keyboard.PressAsync("ArrowDown");
        await Assertions.Expect(first).ToBeFocusedAsync();
        await tab.Keyboard.PressAsync("ArrowUp");
        await Assertions.Expect(field).ToBeFocusedAsync();
        await tab.Keyboard.PressAsync("ArrowDown");
        await Assertions.Expect(first).ToBeFocusedAsync();
        await tab.Keyboard.PressAsync("Escape");
        await Assertions.Expect(field).ToBeFocusedAsync();
        await tab.Keyboard.PressAsync("ArrowDown");
        await Assertions.Expect(first).ToBeFocusedAsync();
        await tab.Keyboard.PressAsync("Enter");
        await Assertions.Expect(tab.Locator("h1")).ToContainTextAsync("PW-04");
    }

    [Fact]
    public async Task What_is_found_is_spoken_marked_and_kept_in_the_address()
    {
        await using var context = await chromium.NewContext();
        var tab = await context.NewPageAsync();
        await tab.GotoAsync(_host.Base + "search/index.html");
        await tab.Locator("#search-words").FillAsync("antenna");
        await tab.Locator("#search-results mark").First.WaitForAsync();
        Assert.Equal("status", await tab.Locator("#search-status").GetAttributeAsync("role"));
        await Assertions.Expect(tab.Locator("#search-status")).ToContainTextAsync("records");
        await tab.Arrives("?q=antenna");
        await Assertions.Expect(tab.Locator("#search-results mark").First).ToContainTextAsync("antenna", new() { IgnoreCase = true });
    }

    [Fact]
    public async Task Narrows_down_by_kind_and_group()
    {
        await using var context = await chromium.NewContext();
        var tab = await Asked(context, _host.Base + "search/index.html", "receiver");
        await tab.Locator("#search-kinds button[data-of=frame]").ClickAsync();
        await Assertions.Expect(tab.Locator("#search-kinds button[data-of=frame]")).ToHaveAttributeAsync("aria-pressed", "true");
        Assert.All(await Links(tab), link => Assert.Contains("frames/", link, StringComparison.Ordinal));
        await tab.Locator("#search-narrow summary").ClickAsync();
        await tab.Locator("#search-groups button", new() { HasText = "receivers" }).First.ClickAsync();
        await Assertions.Expect(tab.Locator("#search-groups button[aria-pressed=true]")).ToHaveCountAsync(1);
        await tab.Arrives("by-module=receivers");
        await tab.ReloadAsync();
        await tab.Locator("#search-results li").First.WaitForAsync();
        Assert.All(await Links(tab), link => Assert.Contains("frames/R", link, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Lines_do_not_move_once_they_stand()
    {
        await using var context = await chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 740 } });
        var tab = await context.NewPageAsync();
        await tab.AddInitScriptAsync(Painting.WithFonts);
        await tab.AddInitScriptAsync("""
            window.moved = 0; window.stood = Infinity;
            new PerformanceObserver(list => list.getEntries().forEach(e => { if (e.startTime > window.stood) window.moved += e.value; })).observe({ type: 'layout-shift', buffered: true });
            document.addEventListener('DOMContentLoaded', () => new MutationObserver(() => { window.stood = Math.min(window.stood, performance.now()); }).observe(document.getElementById('search-results'), { childList: true }));
            """);
        await tab.GotoAsync(_host.Base + "search/index.html?q=antenna");
        await AllIsSaid(tab);
        await Painting.HasHappened(tab);

        // 0.1 is what Web Vitals call good.
        Assert.InRange(await tab.EvaluateAsync<double>("window.moved"), 0, 0.1);
    }

    [Theory]
    [InlineData(ColorScheme.Light)]
    [InlineData(ColorScheme.Dark)]
    public async Task Results_are_accessible(ColorScheme scheme)
    {
        await using var context = await chromium.NewContext(new() { ColorScheme = scheme });
        var tab = await Asked(context, demo.Url("search/index.html"), "receiver O202-01J03");
        await tab.Locator("#search-narrow summary").ClickAsync();
        await tab.Locator("#search-groups button").First.WaitForAsync();
        Assert.Empty(await Axe.Violations(tab, "tag", "wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"));
    }

    [Fact]
    public async Task Says_so_when_nothing_is_found()
    {
        await using var context = await chromium.NewContext();
        var tab = await context.NewPageAsync();
        await tab.GotoAsync(demo.Url("search/index.html"));
        await tab.Locator("#search-words").FillAsync("zzzzqqq");
        await Assertions.Expect(tab.Locator("#search-status")).ToHaveTextAsync("No results.");
    }

    [Fact]
    public async Task With_scripts_off_the_page_leads_to_the_indexes()
    {
        await using var context = await chromium.NewContext(new() { JavaScriptEnabled = false });
        var tab = await context.NewPageAsync();
        await tab.GotoAsync(demo.Url("search/index.html"));
        Assert.True(await tab.Locator("main a").CountAsync() > 1);
    }

    private static async Task<IPage> Asked(IBrowserContext context, string page, string words)
    {
        var tab = await context.NewPageAsync();
        await Ask(tab, page, words);
        return tab;
    }

    private static async Task Ask(IPage tab, string page, string words)
    {
        await tab.GotoAsync(page + "?q=" + Uri.EscapeDataString(words));
        await AllIsSaid(tab);
    }

    // What is known of a record comes after its id: its name, its line, and the place in it that its link leads to.
    private static async Task AllIsSaid(IPage tab) => await tab.WaitForFunctionAsync("""
        () => {
          const results = [...document.querySelectorAll('#search-results > li')];
          return results.length > 0 && results.every(result => result.querySelector('.name').textContent + result.querySelector('.line').textContent);
        }
        """);

    private static Task<string[]> Links(IPage tab) =>
        tab.Locator("#search-results a").EvaluateAllAsync<string[]>("links => links.slice(0, 10).map(a => a.getAttribute('href'))");
}

using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>Each page type as people read it: phone and desktop, light and dark, scripts on and off, from a folder.</summary>
public sealed class ReadingPages(DemoSite demo, Chromium chromium)
{
    public static TheoryData<string> Types => PageTypes.Types;

    // What passes is not told node by node: of a page of 500 cables that alone would be megabytes.
    private static readonly AxeRunOptions All = new() { ResultTypes = [ResultType.Violations] };

    // What axe judges by colour: all other rules see the same in light and in dark.
    private static readonly AxeRunOptions OfColour = new() { ResultTypes = [ResultType.Violations], RunOnly = new() { Type = "rule", Values = ["color-contrast", "link-in-text-block"] } };

    /// <summary>Between the phone and the desk: tables stand as tables there, with the least room.</summary>
    [Fact]
    public async Task Nothing_scrolls_sideways_on_a_tablet()
    {
        await using var context = await chromium.Browser.NewContextAsync();
        var page = await context.NewPageAsync();
        var wide = new List<string>();
        foreach (var type in PageTypes.All)
        {
            await page.GotoAsync(demo.Url(PageTypes.Of(demo, type)));
            await Painted(page);
            foreach (var width in new[] { 768, 960, 1024, 1120 })
            {
                await page.SetViewportSizeAsync(width, 1000);
                var overflow = await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");
                if (overflow > 0) wide.Add($"{type} by {overflow} px at {width} px");
            }
        }

        Assert.Empty(wide);
    }

    [Theory]
    [MemberData(nameof(Types))]
    public async Task Has_no_accessibility_violation_and_asks_nothing_of_another_host(string type)
    {
        foreach (var (width, dark) in new[] { (360, false), (1440, true) })
        {
            await using var context = await chromium.Browser.NewContextAsync(new()
            {
                ViewportSize = new() { Width = width, Height = 800 },
                ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light,
                ReducedMotion = ReducedMotion.Reduce,
            });
            var page = await context.NewPageAsync();
            var complaints = Listen(page);
            await page.GotoAsync(demo.Url(PageTypes.Of(demo, type)));
            await Painted(page);

            // Before axe, which asks for the style sheets itself.
            Assert.Empty(complaints);
            var overflow = await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");
            Assert.True(overflow <= 0, $"{type} scrolls sideways by {overflow} px at {width} px");
            var violations = Told(await page.RunAxe(All), width, dark);

            // The same page by the other light.
            var before = await PaperOf(page);
            await page.EmulateMediaAsync(new() { ColorScheme = dark ? ColorScheme.Light : ColorScheme.Dark });
            await Painted(page);
            Assert.NotEqual(before, await PaperOf(page));
            violations.AddRange(Told(await page.RunAxe(OfColour), width, !dark));
            Assert.True(violations.Count == 0, string.Join('\n', violations));
        }
    }

    private static async Task<string> PaperOf(IPage page) => await page.EvaluateAsync<string>("getComputedStyle(document.body).backgroundColor");

    // What is not shown yet has no contrast to judge: a page shows itself when its fonts are there.
    private static async Task Painted(IPage page) => await page.EvaluateAsync("""
        async () => {
          await document.fonts.ready;
          const frame = () => new Promise(requestAnimationFrame);
          for (let i = 0; i < 120 && document.documentElement.style.visibility === 'hidden'; i++) await frame();
          await frame();
          await frame();
        }
        """);

    private static List<string> Told(AxeResult axe, int width, bool dark) =>
        [.. axe.Violations.Select(v => $"{width} px, {(dark ? "dark" : "light")}: {v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Take(3).Select(n => n.Html))}")];

    [Theory]
    [MemberData(nameof(Types))]
    public async Task Reads_with_scripts_off(string type)
    {
        await using var context = await chromium.Browser.NewContextAsync(new() { JavaScriptEnabled = false, ViewportSize = new() { Width = 360, Height = 800 } });
        var page = await context.NewPageAsync();
        var complaints = Listen(page);
        await page.GotoAsync(demo.Url(PageTypes.Of(demo, type)));

        Assert.Equal(1, await page.Locator("h1").CountAsync());
        Assert.True(await page.Locator("h1").IsVisibleAsync());
        Assert.True((await page.Locator("main").InnerTextAsync()).Length > 40, "the page says nothing without scripts");
        Assert.Empty(complaints);
    }

    [Theory]
    [MemberData(nameof(Types))]
    public async Task Prints_without_navigation_and_without_layout_shift(string type)
    {
        await using var context = await chromium.Browser.NewContextAsync(new() { ViewportSize = new() { Width = 412, Height = 800 } });
        var page = await context.NewPageAsync();
        await page.AddInitScriptAsync("""
            window.__shift = 0;
            window.__moved = [];
            const name = node => node ? node.nodeName + '.' + (node.className || '') + ' ' + (node.textContent || '').slice(0, 40) : '?';
            new PerformanceObserver(list => {
              for (const e of list.getEntries()) {
                if (e.hadRecentInput) continue;
                window.__shift += e.value;
                for (const s of e.sources) window.__moved.push(name(s.node) + ' ' + s.previousRect.y + ' -> ' + s.currentRect.y);
              }
            })
              .observe({ type: 'layout-shift', buffered: true });
            """);
        await page.GotoAsync(demo.Url(PageTypes.Of(demo, type)), new() { WaitUntil = WaitUntilState.Load });
        await page.WaitForTimeoutAsync(150);
        var shift = await page.EvaluateAsync<double>("window.__shift");
        var moved = await page.EvaluateAsync<string[]>("window.__moved");
        Assert.True(shift < 0.02, $"layout shifts by {shift:0.###}: {string.Join("; ", moved)}");

        await page.EmulateMediaAsync(new() { Media = Media.Print });
        foreach (var nav in await page.Locator("nav").AllAsync()) Assert.False(await nav.IsVisibleAsync(), "navigation is printed");
        Assert.True(await page.Locator("h1").IsVisibleAsync());
    }

    private static List<string> Listen(IPage page)
    {
        var complaints = new List<string>();
        page.Console += (_, message) =>
        {
            if (message.Type == "error") complaints.Add("console: " + message.Text);
        };
        page.PageError += (_, error) => complaints.Add("script: " + error);
        page.RequestFailed += (_, request) => complaints.Add("failed: " + request.Url);
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith("file:", StringComparison.Ordinal) && !request.Url.StartsWith("data:", StringComparison.Ordinal)) complaints.Add("asks: " + request.Url);
        };
        return complaints;
    }
}

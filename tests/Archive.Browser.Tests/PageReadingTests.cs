using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>Each page type as people read it: phone and desktop, light and dark, scripts on and off, from a folder.</summary>
public sealed class PageReadingTests(DemoSite demo, Chromium chromium)
{
    public static TheoryData<string> Types => PageTypes.Types;

    // What passes is not reported node by node: of a page of 500 cables that alone would be megabytes.
    private static readonly AxeRunOptions All = new() { ResultTypes = [ResultType.Violations] };

    // What depends on light and on width: all other rules see the same on a phone as on a desk.
    private static readonly AxeRunOptions OfLightAndWidth = new()
    {
        ResultTypes = [ResultType.Violations],
        RunOnly = new() { Type = "rule", Values = ["color-contrast", "link-in-text-block", "target-size", "scrollable-region-focusable"] },
    };

    // A phone, between phone and desk (tables stand as tables there, with the least room), and a desk.
    private static readonly int[] Widths = [360, 768, 960, 1024, 1120, 1440];

    /// <summary>
    /// One load of each type of page is printed, and looked at in every width and light: loading a page again for each takes longer than
    /// looking.
    /// </summary>
    [Theory]
    [MemberData(nameof(Types))]
    public async Task Is_whole_in_every_width_light_and_on_paper(string type)
    {
        await using var context = await chromium.NewContext(new()
        {
            ViewportSize = new() { Width = 412, Height = 800 },
            ColorScheme = ColorScheme.Light,
            ReducedMotion = ReducedMotion.Reduce,
        });
        var page = await context.NewPageAsync();
        var complaints = Listen(page);
        await page.AddInitScriptAsync(Shifts);
        await page.GotoAsync(demo.Url(PageTypes.Of(demo, type)));
        await Painting.HasHappened(page);
        var shift = await page.EvaluateAsync<double>("window.__shift");
        Assert.True(
            shift < 0.02, $"layout shifts by {shift:0.###}: {string.Join("; ", await page.EvaluateAsync<string[]>("window.__moved"))}");

        await page.EmulateMediaAsync(new() { Media = Media.Print });
        foreach (var nav in await page.Locator("nav").AllAsync()) Assert.False(await nav.IsVisibleAsync(), "navigation is printed");
        Assert.True(await page.Locator("h1").IsVisibleAsync());
        await page.EmulateMediaAsync(new() { Media = Media.Screen });

        var wide = new List<string>();
        foreach (var width in Widths)
        {
            await page.SetViewportSizeAsync(width, width == 360 ? 800 : 1000);
            var overflow = await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");
            if (overflow > 0) wide.Add($"{type} scrolls sideways by {overflow} px at {width} px");
        }

        Assert.Empty(wide);
        Assert.Empty(await page.EvaluateAsync<string[]>(Missing));

        // Before axe, which asks for the style sheets itself.
        await Painting.HasHappened(page);
        Assert.Empty(complaints);
        var violations = new List<string>();
        await page.EvaluateAsync(FewOfAKind);
        foreach (var (width, dark, rules) in new[] { (1440, true, All), (360, false, OfLightAndWidth) })
        {
            await page.SetViewportSizeAsync(width, 800);
            var other = await Light(page, !dark);
            Assert.NotEqual(other, await Light(page, dark));
            violations.AddRange(Told(await page.RunAxe(rules), width, dark));
        }

        Assert.True(violations.Count == 0, string.Join('\n', violations));
    }

    // Sums what moves once it has been seen, and names it. A slow machine has all the time it needs for its fonts: what a page does without
    // them is not judged here.
    private const string Shifts = """
        const timer = window.setTimeout;
        window.setTimeout = (what, wait, ...more) => timer(what, wait > 300 ? 1e8 : wait, ...more);
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
        """;

    // Style sheets that were not loaded, and pictures that came and cannot be shown.
    internal const string Missing = """
        () => [
          ...[...document.querySelectorAll('link[rel=stylesheet]')].filter(link => !link.sheet).map(link => 'no style ' + link.href),
          ...[...document.images].filter(image => image.complete && image.currentSrc && image.naturalWidth === 0).map(image => 'no picture ' + image.currentSrc),
        ]
        """;

    // Rows and list items that are built alike are alike to axe, and on the largest pages there are thousands: some of each kind stay.
    private const string FewOfAKind = """
        () => {
          for (const list of document.querySelectorAll('tbody, ul, ol')) {
            const seen = new Map();
            for (const item of [...list.children]) {
              const kind = item.tagName + [...new Set([...item.querySelectorAll('*')].map(part => part.tagName + '.' + part.getAttribute('class')))].join();
              seen.set(kind, (seen.get(kind) ?? 0) + 1);
              if (seen.get(kind) > 8) item.remove();
            }
          }
        }
        """;

    private static async Task<string> Light(IPage page, bool dark)
    {
        await page.EmulateMediaAsync(new() { ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light });
        await Painting.HasHappened(page);
        return await page.EvaluateAsync<string>("getComputedStyle(document.body).backgroundColor");
    }

    private static List<string> Told(AxeResult axe, int width, bool dark) =>
        [.. axe.Violations.Select(v =>
            $"{width} px, {(dark ? "dark" : "light")}: {v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Take(3).Select(n => n.Html))}")];

    [Fact]
    public async Task Reads_with_scripts_off()
    {
        await using var context =
            await chromium.NewContext(new() { JavaScriptEnabled = false, ViewportSize = new() { Width = 360, Height = 800 } });
        var page = await context.NewPageAsync();
        var complaints = Listen(page);
        foreach (var type in PageTypes.All)
        {
            await page.GotoAsync(demo.Url(PageTypes.Of(demo, type)));
            Assert.True(
                await page.Locator("h1").CountAsync() == 1 && await page.Locator("h1").IsVisibleAsync(),
                $"{type} shows no heading without scripts");
            Assert.True((await page.Locator("main").InnerTextAsync()).Length > 40, $"{type} says nothing without scripts");
            Assert.True(complaints.Count == 0, $"{type}: {string.Join('\n', complaints)}");
        }
    }

    private static List<string> Listen(IPage page)
    {
        var complaints = new List<string>();
        page.Console += (_, message) =>
        {
            if (message.Type == "error") complaints.Add("console: " + message.Text);
        };
        page.PageError += (_, error) => complaints.Add("script: " + error);
        page.RequestFailed += (_, request) =>
        {
            // A page that is resized gives up a picture for a larger one.
            if (request.Failure != "net::ERR_ABORTED") complaints.Add($"failed: {request.Url}: {request.Failure}");
        };
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith("file:", StringComparison.Ordinal) && !request.Url.StartsWith("data:", StringComparison.Ordinal))
                complaints.Add("asks: " + request.Url);
        };
        return complaints;
    }
}

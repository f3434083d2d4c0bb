using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>Each page type as people read it: phone and desktop, light and dark, scripts on and off, from a folder.</summary>
public sealed class PageReadingTests(DemoSite demo, Chromium chromium)
{
    public static TheoryData<string> Types => PageTypes.Types;

    // What depends on light and on width: all other rules see the same on a phone as on a desk.
    private static readonly string[] OfLightAndWidth =
        ["color-contrast", "link-in-text-block", "target-size", "scrollable-region-focusable"];

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
        await page.AddInitScriptAsync(Painting.WithFonts);
        await page.AddInitScriptAsync(Shifts);
        await page.GotoAsync(demo.Url(PageTypes.Of(demo, type)));
        await Painting.HasHappened(page);
        var shift = await page.EvaluateAsync<double>("window.__shift");
        Assert.True(
            shift < 0.02, $"layout shifts by {shift:0.###}: {string.Join("; ", await page.EvaluateAsync<string[]>("window.__moved"))}");

        Assert.Empty(await page.EvaluateAsync<string[]>(Missing));
        await page.EvaluateAsync(FewOfAKind);

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

        // Before axe, which asks for the style sheets itself.
        await Painting.HasHappened(page);
        Assert.Empty(complaints);
        var violations = new List<string>();
        foreach (var (width, dark, rules) in new[] { (1440, true, Array.Empty<string>()), (360, false, OfLightAndWidth) })
        {
            await page.SetViewportSizeAsync(width, 800);
            var other = await Light(page, !dark);
            Assert.NotEqual(other, await Light(page, dark));
            violations.AddRange(
                (await Axe.Violations(page, "rule", rules)).Select(violation => $"{width} px, {(dark ? "dark" : "light")}: {violation}"));
        }

        Assert.True(violations.Count == 0, string.Join('\n', violations));
    }

    // Sums what moves once it has been seen, and names it.
    private const string Shifts = """
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
    private const string Missing = """
        () => [
          ...[...document.querySelectorAll('link[rel=stylesheet]')].filter(link => !link.sheet).map(link => 'no style ' + link.href),
          ...[...document.images].filter(image => image.complete && image.currentSrc && image.naturalWidth === 0).map(image => 'no picture ' + image.currentSrc),
        ]
        """;

    // Rows, list items and sections that are built alike are alike to axe and to a width, and on the largest pages there are thousands:
    // some of each kind stay, and those with the longest text and the longest word of a cell, which are the first to need room.
    private const string FewOfAKind = """
        () => {
          for (const list of document.querySelectorAll('main, section, tbody, ul, ol')) {
            if (!list.isConnected) continue;
            const [seen, longest, kept] = [new Map(), new Map(), new Set()];
            const longer = (what, length, item) => {
              if (length > (longest.get(what)?.length ?? 0)) longest.set(what, { length, item });
            };
            for (const item of list.children) {
              const kind = item.tagName + [...new Set([...item.querySelectorAll('*')].map(part => part.tagName + '.' + part.getAttribute('class')))].join();
              seen.set(kind, (seen.get(kind) ?? 0) + 1);
              if (seen.get(kind) <= 8) kept.add(item);
              (item.tagName === 'TR' ? [...item.children] : [item]).forEach((cell, place) => {
                const text = cell.textContent.trim();
                longer('text ' + place, text.length, item);
                longer('word ' + place, Math.max(...text.split(/\s+/).map(word => word.length)), item);
              });
            }

            for (const { item } of longest.values()) kept.add(item);
            for (const item of [...list.children]) {
              if (!kept.has(item) && ['TR', 'LI', 'SECTION'].includes(item.tagName)) item.remove();
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

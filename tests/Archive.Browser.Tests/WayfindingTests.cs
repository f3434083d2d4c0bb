using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>The head that stays, its menu and search field, and the keys.</summary>
public sealed class WayfindingTests(DemoSite demo, Chromium chromium)
{
    [Theory]
    [InlineData(360)]
    [InlineData(1440)]
    public async Task The_head_stays_and_hides_nothing_that_is_jumped_to(int width)
    {
        await using var context = await chromium.NewContext(new() { ViewportSize = new() { Width = width, Height = 780 } });
        var page = await context.NewPageAsync();
        foreach (var (address, anchor) in new[]
        {
            ("frames/R2-05/index.html", "cables"), ("cables/C-1454/index.html", "end-2"), ("lacks/index.html", "ends"),
        })
        {
            await page.GotoAsync($"{demo.Url(address)}#{anchor}");
            await Painting.HasHappened(page);
            var field = await page.Locator(".find input").BoundingBoxAsync();
            Assert.InRange(field!.Y, 0, 12);
            Assert.True(field.Y + field.Height <= 60, $"the head is {field.Y + field.Height} px high");
            var bar = await page.Locator(".running").EvaluateAsync<double>("e => e.getBoundingClientRect().bottom");
            var target = await page.Locator(":target").EvaluateAsync<double>("e => e.getBoundingClientRect().top");
            Assert.True(target >= bar, $"{address}: {target} is under the head, which ends at {bar}");
        }

        await page.EmulateMediaAsync(new() { Media = Media.Print });
        Assert.Equal("static", await page.Locator(".running").EvaluateAsync<string>("e => getComputedStyle(e).position"));
        Assert.False(await page.Locator(".find").IsVisibleAsync());
        Assert.False(await page.Locator(".menu").IsVisibleAsync());
    }

    [Theory]
    [InlineData(360, true)]
    [InlineData(360, false)]
    [InlineData(1440, true)]
    [InlineData(1440, false)]
    public async Task Every_list_is_two_taps_away_from_everywhere(int width, bool hasScripts)
    {
        await using var context =
            await chromium.NewContext(new() { ViewportSize = new() { Width = width, Height = 780 }, JavaScriptEnabled = hasScripts });
        var page = await context.NewPageAsync();
        foreach (var (list, address) in new[]
        {
            ("Halls", "halls/"), ("Trays", "trays/"), ("Events", "events/"), ("Still to record", "lacks/"),
        })
        {
            await page.GotoAsync(demo.Url("cables/C-1454/index.html"));
            await page.Locator(width < 1000 ? ".menu" : ".running summary").ClickAsync();
            await page.Locator("#menu").GetByRole(AriaRole.Link, new() { Name = list, Exact = true }).ClickAsync();
            await page.Arrives($"/{address}index.html");
            await Assertions.Expect(page.Locator($"#menu a:text-is('{list}')")).ToHaveAttributeAsync("aria-current", "page");
        }
    }

    [Fact]
    public async Task A_slash_leads_to_the_search_a_question_mark_lists_the_keys_and_they_can_be_turned_off()
    {
        await using var context = await chromium.NewContext();
        var page = await context.NewPageAsync();
        await page.GotoAsync(demo.Url("frames/R2-05/index.html"));
        await Painting.HasHappened(page);
        await page.Keyboard.PressAsync("/");
        await Assertions.Expect(page.Locator(".find input")).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync("battery?");
        await page.Keyboard.PressAsync("Enter");
        await page.Arrives("search/index.html?q=battery");
        await Assertions.Expect(page.Locator("#search-results a").First).ToContainTextAsync("PW-04");

        await page.GotoAsync(demo.Url("cables/C-1454/index.html"));
        await PressedLeadsTo("]", "cables/C-1455/index.html");
        await PressedLeadsTo("[", "cables/C-1454/index.html");

        await Painting.HasHappened(page);
        await page.Keyboard.PressAsync("?");
        var keys = page.GetByRole(AriaRole.Dialog, new() { Name = "Keys" });
        await Assertions.Expect(keys).ToContainTextAsync("Search");
        await keys.GetByText("Turn these keys off").ClickAsync();
        await Assertions.Expect(keys).ToHaveCountAsync(0);
        await page.Keyboard.PressAsync("/");
        await page.Keyboard.PressAsync("?");
        await Assertions.Expect(keys).ToHaveCountAsync(0);
        Assert.Equal("BODY", await page.EvaluateAsync<string>("document.activeElement.tagName"));

        // The foot of each page leads back to them.
        await page.GetByRole(AriaRole.Button, new() { Name = "Keys", Exact = true }).ClickAsync();
        await keys.GetByText("Turn these keys on").ClickAsync();
        await page.Keyboard.PressAsync("?");
        await Assertions.Expect(keys).ToBeVisibleAsync();

        Task PressedLeadsTo(string key, string path) =>
            Hands.Until(() => page.Keyboard.PressAsync(key), patience => page.Arrives(path, patience));
    }

    // Pages of work that is done in the order in which it is listed are as long as that.
    private static readonly string[] InOrder = ["on-step-list", "on-reconnection-list", "on-decabling", "on-loads"];

    // Three screens of a phone. What is one list in one order, and lists of work, which begin with their first step, have their own ways.
    [Fact]
    public async Task A_page_of_sections_longer_than_three_screens_has_a_table_of_contents_and_none_is_longer_than_12000_pixels()
    {
        await using var context =
            await chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 780 }, JavaScriptEnabled = false });
        var page = await context.NewPageAsync();
        var (without, tooLong) = (new List<string>(), new List<string>());
        foreach (var type in PageTypes.All)
        {
            await page.GotoAsync(demo.Url(PageTypes.Of(demo, type)));

            // Letters of another font take other room; fonts come once something is set in them.
            await page.EvaluateAsync("() => { document.documentElement.scrollHeight; return document.fonts.ready.then(() => true); }");
            if (await page.EvaluateAsync<bool>("""
                () => document.documentElement.scrollHeight > 3 * 780 && document.querySelectorAll("main h2[id]").length > 1
                  && !document.querySelector("main nav[aria-label='On this page'], .steps")
                """)) without.Add(type);
            var height = await page.EvaluateAsync<int>("document.documentElement.scrollHeight");
            var template = await page.EvaluateAsync<string>("document.body.className");
            if (height > 12_000 && !InOrder.Contains(template)) tooLong.Add($"{type}: {height} px");
        }

        Assert.Empty(without);
        Assert.Empty(tooLong);
    }

    [Fact]
    public async Task What_is_folded_on_a_phone_is_open_on_a_desk_and_on_paper()
    {
        await using var context =
            await chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 780 }, JavaScriptEnabled = false });
        var page = await context.NewPageAsync();
        foreach (var (address, within) in new[] { ("plans/packing/index.html", "tbody tr"), ("plans/whereabouts/index.html", ".stop") })
            await Folds(page, address, within);
    }

    [Fact]
    public async Task A_browser_that_cannot_open_folds_by_style_opens_them_on_paper_and_on_a_desk()
    {
        await using var context = await chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 780 } });
        await context.AddInitScriptAsync("CSS.supports = () => false");
        var page = await context.NewPageAsync();
        await page.GotoAsync(demo.Url("plans/packing/index.html"));
        Assert.Equal(0, await page.Locator(".fold[open]").CountAsync());
        await page.EvaluateAsync("dispatchEvent(new Event('beforeprint'))");
        Assert.Equal(0, await page.Locator(".fold:not([open])").CountAsync());
        await page.ReloadAsync();
        await page.SetViewportSizeAsync(1024, 780);
        await Assertions.Expect(page.Locator(".fold:not([open])")).ToHaveCountAsync(0);
    }

    private async Task Folds(IPage page, string address, string within)
    {
        await page.SetViewportSizeAsync(360, 780);
        await page.GotoAsync(demo.Url(address));
        var (fold, thing) = (page.Locator(".fold summary").First, page.Locator(".fold " + within).First);
        await AreVisible(false, true);
        await fold.ClickAsync();
        await AreVisible(true, true);
        await fold.ClickAsync();
        await AreVisible(false, true);
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        await AreVisible(true, false);
        await page.EmulateMediaAsync(new() { Media = Media.Screen });
        await page.SetViewportSizeAsync(1024, 780);
        await AreVisible(true, false);

        async Task AreVisible(bool isThing, bool isFold)
        {
            await Assertions.Expect(thing).ToBeVisibleAsync(new() { Visible = isThing });
            await Assertions.Expect(fold).ToBeVisibleAsync(new() { Visible = isFold });
        }
    }
}

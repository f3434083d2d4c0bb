using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>
/// What a stranger with a phone is asked: where does the cable at R2-05, shelf 7, jack 14 go, and what does its other end look like? Only
/// what is seen is touched; nothing is typed.
/// </summary>
public sealed class NavigationDepthTests(DemoSite demo, Chromium chromium)
{
    private const int Most = 4;

    [Fact]
    public async Task From_the_plan_by_frame_and_cable_and_far_end_to_its_photo()
    {
        await using var phone = await Phone();
        var hand = new Hand(await phone.NewPageAsync());
        await hand.Page.GotoAsync(demo.Url("index.html"));
        await hand.Tap(".plan svg a[href*='frames/R2-05/']");
        await hand.Tap("tr:has(th .place:text-is('S7/J14')) a:has-text('C-1454')");
        await hand.Tap("#ends ~ * .place:text-is('R3-09/S2/J2')");
        Assert.Contains("/frames/R3-09/", hand.Page.Url, StringComparison.Ordinal);
        await hand.Tap(".prints a:has-text('P-1324')");
        Assert.Contains("/photos/P-1324/", hand.Page.Url, StringComparison.Ordinal);
        await Assertions.Expect(hand.Page.Locator(".picture img")).ToBeVisibleAsync();
        Assert.True(hand.Taps <= Most, $"{hand.Taps} taps");
    }

    /// <summary>
    /// The page of the cable answers both questions: the far end, and its picture, cut out. It takes three taps from the home page, two
    /// from a scanned label.
    /// </summary>
    [Theory]
    [InlineData("index.html", 3)]
    [InlineData("frames/R2-05/index.html", 2)]
    public async Task From_home_or_from_a_scanned_label_to_the_answer(string from, int taps)
    {
        await using var phone = await Phone();
        var hand = new Hand(await phone.NewPageAsync());
        await hand.Page.GotoAsync(demo.Url(from));
        if (from == "index.html") await hand.Tap(".rows a:text-is('R2-05')");
        await hand.Tap("nav a:text('S7')");
        await hand.Tap("tr:has(th .place:text-is('S7/J14')) a:has-text('C-1454')");
        Assert.Equal(taps, hand.Taps);

        var far = hand.Page.Locator(".ends li").Filter(new() { HasText = "R3-09/S2/J2" });
        await Assertions.Expect(far).ToBeVisibleAsync();
        var cut = far.Locator("svg.crop");
        await Assertions.Expect(cut).ToBeVisibleAsync();
        Assert.True(await cut.EvaluateAsync<bool>(
            "async svg => { const made = new Image(); made.src = svg.querySelector('image').href.baseVal; await made.decode(); return made.naturalWidth > 0; }"));

        // One more, and the photo is open at that end.
        await hand.Tap(".ends li:has-text('R3-09/S2/J2') .seen a >> nth=0");
        await Assertions.Expect(hand.Page.Locator("dialog.closer[open] canvas")).ToBeVisibleAsync();
        Assert.Contains("/photos/P-1324/", hand.Page.Url, StringComparison.Ordinal);
        Assert.True(hand.Taps <= Most, $"{hand.Taps} taps");
    }

    private Task<IBrowserContext> Phone() =>
        chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 780 }, HasTouch = true, IsMobile = true });

    // A hand that touches what it sees, and counts.
    private sealed class Hand(IPage page)
    {
        internal IPage Page => page;

        internal int Taps { get; private set; }

        internal async Task Tap(string what)
        {
            var seen = page.Locator(what).First;
            await seen.ScrollIntoViewIfNeededAsync();
            await Assertions.Expect(seen).ToBeVisibleAsync();
            var target = await seen.EvaluateAsync<string>("a => new URL(a.getAttribute('href'), document.baseURI).href.split('#')[0]");
            await Painting.HasHappened(page);
            Taps++;
            await Hands.Until(() => seen.TapAsync(), patience => page.Arrives(target, patience));
        }
    }
}

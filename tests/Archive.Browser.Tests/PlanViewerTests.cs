using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>A hall's plan as a phone and a desk work with it, from a folder.</summary>
public sealed class PlanViewerTests(DemoSite demo, Chromium chromium)
{
    private const string Hall = "halls/origin/index.html";

    /// <summary>
    /// Frames are 12 px wide on a phone. A finger on one brings it nearer, and it is then as large as a target is to be (WCAG 2.2, 2.5.5:
    /// 44 px); its cables are shown and counted; a second tap opens its page.
    /// </summary>
    [Fact]
    public async Task A_finger_on_a_frame_comes_near_and_shows_its_cables()
    {
        await using var context = await chromium.NewContext(new()
        {
            ViewportSize = new() { Width = 360, Height = 640 },
            HasTouch = true,
            IsMobile = true,
        });
        var (page, faults) = await Open(context, Hall);
        var frame = page.Locator(".plan svg a[href*='frames/R2-05/']");
        await frame.ScrollIntoViewIfNeededAsync();
        var far = (await frame.Locator("rect").BoundingBoxAsync())!;
        Assert.True(far.Width < 20, $"the frame is {far.Width} px wide before");
        await Hands.Until(
            () => page.Touchscreen.TapAsync(far.X + (far.Width / 2), far.Y + (far.Height / 2)),
            patience => page.Locator(".plan-says strong").WaitForAsync(new() { Timeout = patience }));
        var near = (await frame.Locator("rect").BoundingBoxAsync())!;
        Assert.InRange(Math.Min(near.Width, near.Height), 44, 100);
        Assert.Contains("R2-05", await page.Locator(".plan-says strong").InnerTextAsync(), StringComparison.Ordinal);
        Assert.True(await page.Locator(".plan .fan .way").CountAsync() > 1, "its cables fan out");
        var listed = await page.Locator(".plan-says dd button").CountAsync();
        Assert.StartsWith($": {listed} cables", await Says(page), StringComparison.Ordinal);
        Assert.Contains("#on=R2-05&at=", page.Url, StringComparison.Ordinal);

        await Hands.Until(
            () => page.Touchscreen.TapAsync(near.X + (near.Width / 2), near.Y + (near.Height / 2)),
            patience => page.Arrives("/frames/R2-05/index.html", patience));
        Assert.Empty(faults);
    }

    /// <summary>A mouse: pointing shows, the wheel zooms about the pointer with Ctrl, and what is looked at stays when the layer
    /// changes.</summary>
    [Fact]
    public async Task A_mouse_points_zooms_and_changes_the_layer()
    {
        await using var context = await chromium.NewContext(new() { ViewportSize = new() { Width = 1200, Height = 1000 } });
        var (page, faults) = await Open(context, Hall);
        var tray = page.Locator(".plan svg a[href*='trays/T-09/']");
        await tray.ScrollIntoViewIfNeededAsync();
        await tray.HoverAsync(new() { Force = true });
        await page.Locator(".plan-says strong").WaitForAsync();
        await Assertions.Expect(page.Locator(".plan-says strong")).ToContainTextAsync("tray T-09");

        await page.Locator(".plan-says dd button").First.ClickAsync();
        var cable = await page.Locator(".plan-says p a").First.InnerTextAsync();
        await Assertions.Expect(page.Locator(".plan .fan .way")).ToHaveCountAsync(1);
        await Assertions.Expect(page.Locator(".plan-says p")).ToContainTextAsync("T-09");

        // At the top the wheel moves nothing under the pointer.
        await page.EvaluateAsync("scrollTo({ top: 0, behavior: 'instant' })");
        var box = (await page.Locator(".plan svg").BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(box.X + 200, box.Y + 200);
        await page.Mouse.WheelAsync(0, -300);
        Assert.Equal("1", await Zoom(page));
        await page.Locator(".plan svg").HoverAsync(new() { Force = true });
        await page.Keyboard.DownAsync("Control");
        await page.Mouse.WheelAsync(0, -300);
        await page.Keyboard.UpAsync("Control");
        await page.WaitForFunctionAsync("() => /at=/.test(location.hash)");
        Assert.NotEqual("1", await Zoom(page));

        await page.Locator(".layers a", new() { HasTextString = "Weight" }).ClickAsync();
        await page.Arrives($"/halls/origin/weight/index.html#on={cable}&at=");
        await page.Locator(".plan .fan .way").First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await page.Locator(".plan-bar button", new() { HasTextString = "Fit" }).ClickAsync();
        Assert.Equal("1", await Zoom(page));
        Assert.Empty(faults);
    }

    [Fact]
    public void Scripts_of_plans_stay_small()
    {
        var sizes = new[] { "plan.js", "hands.js", "filter.js", "keys.js" }.Sum(name =>
            new FileInfo(Path.Combine(DemoSite.Repository, "themes/ledger/assets", name)).Length);
        Assert.InRange(sizes, 10_000, 60_000);
    }

    private static Task<string> Says(IPage page) =>
        page.EvaluateAsync<string>("document.querySelector('.plan-says strong').nextSibling.textContent");

    private static Task<string> Zoom(IPage page) => page.EvaluateAsync<string>("""
        (() => {
          const svg = document.querySelector('.plan svg');
          return (svg.width.baseVal.value / svg.viewBox.baseVal.width).toFixed(2).replace(/\.00$/, '');
        })()
        """);

    private async Task<(IPage Page, List<string> Faults)> Open(IBrowserContext context, string address)
    {
        var page = await context.NewPageAsync();
        var faults = new List<string>();
        page.PageError += (_, fault) => faults.Add(fault);
        await page.GotoAsync(demo.Url(address));
        await page.Locator(".plan-bar").WaitForAsync();
        await Painting.HasHappened(page);
        return (page, faults);
    }
}

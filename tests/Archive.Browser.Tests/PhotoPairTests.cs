using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>Two photos of one place, before and after, from a folder.</summary>
public sealed class PhotoPairTests(DemoSite demo, Chromium chromium)
{
    private const string Page = "photos/P-1223/index.html";

    [Fact]
    public async Task The_line_between_before_and_after_moves_by_keys_and_by_pointer()
    {
        await using var context = await chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 740 }, HasTouch = true });
        var tab = await context.NewPageAsync();
        await tab.GotoAsync(new Uri(Path.Combine(demo.Site, Page)).AbsoluteUri);
        var slider = tab.GetByRole(AriaRole.Slider);
        await Painting.HasHappened(tab);
        await slider.FocusAsync();
        await Assertions.Expect(slider).ToBeFocusedAsync();
        await IsShared(tab, 50);
        await tab.Keyboard.PressAsync("ArrowRight");
        await IsShared(tab, 51);
        await tab.Keyboard.PressAsync("Home");
        await IsShared(tab, 0);

        // A finger, or the mouse, anywhere on the picture.
        var stage = tab.Locator(".pair-pictures");
        var box = (await stage.BoundingBoxAsync())!;
        await stage.ClickAsync(new() { Position = new() { X = box.Width * 0.8f, Y = box.Height / 2 } });
        await IsShared(tab, 80);
        await stage.DispatchEventAsync("pointermove", new { clientX = 5 });
        await IsShared(tab, 80);
        await Assertions.Expect(slider).ToHaveAttributeAsync("aria-valuetext", "80 %");
    }

    [Fact]
    public async Task Without_scripts_and_in_print_they_are_beside_each_other()
    {
        await using var context = await chromium.NewContext(new() { JavaScriptEnabled = false });
        var tab = await context.NewPageAsync();
        await tab.GotoAsync(new Uri(Path.Combine(demo.Site, Page)).AbsoluteUri);
        await BesideEachOther(tab);

        await using var printing = await chromium.NewContext();
        var printed = await printing.NewPageAsync();
        await printed.GotoAsync(new Uri(Path.Combine(demo.Site, Page)).AbsoluteUri);
        await printed.Locator(".slides").WaitForAsync();
        await printed.EmulateMediaAsync(new() { Media = Media.Print });
        await BesideEachOther(printed);
    }

    private static async Task BesideEachOther(IPage tab)
    {
        // What a page has not shown yet has no place.
        var pictures = tab.Locator(".pair-pictures img");
        await Assertions.Expect(pictures.Last).ToBeVisibleAsync();
        var (one, other) = ((await pictures.First.BoundingBoxAsync())!, (await pictures.Last.BoundingBoxAsync())!);
        Assert.Equal(one.Y, other.Y);
        Assert.True(one.X + one.Width <= other.X && one.Width == other.Width, $"{one.X} {one.Width} {other.X} {other.Width}");
    }

    // How much of the earlier picture is in sight, in hundredths, as the browser has cut the later one.
    private static Task IsShared(IPage tab, int share) =>
        Assertions.Expect(tab.Locator(".pair-pictures a").Last).ToHaveCSSAsync("clip-path", new Regex($@" {share}%?\)$"));
}

using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>Documents as a reader uses them, from a folder: a recording and its transcript, the pages of a scan.</summary>
public sealed class RecordingTests(DemoSite demo, Chromium chromium)
{
    [Fact]
    public async Task A_time_of_the_transcript_plays_the_recording_from_there()
    {
        await using var context = await chromium.NewContext();
        var tab = await context.NewPageAsync();
        await tab.GotoAsync(demo.Url("documents/D-0006/index.html"));

        // Slowly, so that the line is still being said however late a busy machine looks.
        await tab.EvaluateAsync("document.querySelector('audio').playbackRate = 0.1");
        var line = tab.Locator(".transcript li").Nth(3);
        await line.Locator("a").ClickAsync();
        await tab.WaitForFunctionAsync("() => document.querySelector('audio').currentTime > 17.5");
        await Assertions.Expect(line).ToHaveAttributeAsync("aria-current", "true");
        Assert.EndsWith("documents/D-0006/index.html", tab.Url, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Each_page_of_a_scan_opens_in_the_zoom_viewer()
    {
        await using var context = await chromium.NewContext();
        var tab = await context.NewPageAsync();
        await tab.GotoAsync(demo.Url("documents/D-0001/index.html") + "#page-3-at=0.1,0.1,0.5,0.3");
        await tab.WaitForSelectorAsync("dialog.closer[open] canvas");
        await Assertions.Expect(tab.Locator("dialog.closer[open] canvas")).ToHaveAttributeAsync("aria-label", new Regex("^Page 3 of"));
        await tab.Keyboard.PressAsync("Escape");
        await tab.Locator("#page-1 .picture").ClickAsync();
        await Assertions.Expect(tab.Locator("dialog.closer[open] canvas")).ToHaveAttributeAsync("aria-label", new Regex("^Page 1 of"));
    }
}

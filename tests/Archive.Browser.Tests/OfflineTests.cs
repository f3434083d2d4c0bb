using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>A phone in a hall without network: the record is kept when asked for, read at once, and says how old it may be.</summary>
public sealed class OfflineTests(DemoSite demo, Chromium chromium)
{
    [Fact]
    public async Task Is_read_without_a_network_says_so_and_can_be_removed()
    {
        using var host = new StaticHost(demo.Site);
        await using var context = await chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 780 } });
        var page = await context.NewPageAsync();
        var faults = new List<string>();
        page.PageError += (_, fault) => faults.Add(fault);

        await page.GotoAsync(host.Base + "offline/");
        var keep = page.Locator("button[value=keep]");
        await Assertions.Expect(keep)
            .ToHaveTextAsync(new System.Text.RegularExpressions.Regex(@"^Save on this device \(\d+ files, [\d.]+\sMB\)$"));
        await keep.ClickAsync();
        var says = page.Locator(".keeping [role=status]");
        await Assertions.Expect(says).ToContainTextAsync("This is the newest version");

        // As a scanned label opens it: the address of a folder, and no network.
        await context.SetOfflineAsync(true);
        await page.GotoAsync(host.Base + "frames/R2-05/");
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("R2-05");
        await Assertions.Expect(page.Locator(".kept")).ToContainTextAsync("No network: the record may have changed since");
        await AllPicturesAreThere(page);
        await page.GotoAsync(host.Base + "cables/C-1454/");
        await AllPicturesAreThere(page);
        Assert.True(await page.EvaluateAsync<bool>(
            "(async () => { const cut = document.querySelector('svg.crop image'), made = new Image(); made.src = cut.href.baseVal; await made.decode(); return made.naturalWidth > 0; })()"));
        await page.GotoAsync(host.Base + "data/frames.json");
        Assert.Contains("not saved on this device", await page.ContentAsync(), StringComparison.Ordinal);

        await context.SetOfflineAsync(false);
        var asked = await page.RunAndWaitForResponseAsync(
            () => page.GotoAsync(host.Base + "cables/"), answer => answer.Url.EndsWith("/offline/now.json", StringComparison.Ordinal));
        Assert.Null(await asked.FinishedAsync());
        await Painting.HasHappened(page);
        Assert.Equal(0, await page.Locator(".kept").CountAsync());

        host.Instead["offline/now.json"] = """{"version":"0000000000000000","files":1,"bytes":1}""";
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator(".kept")).ToContainTextAsync("A newer version has been published");

        host.Instead.Clear();
        await page.GotoAsync(host.Base + "offline/");
        await page.Locator("button[value=drop]").ClickAsync();
        await Assertions.Expect(page.Locator("button[value=drop]")).ToBeHiddenAsync();
        await page.WaitForFunctionAsync("() => caches.keys().then(keys => keys.length === 0)");
        Assert.Empty(faults);
    }

    // Also those that are fetched only when they come into sight: of each the device has one print, whichever the page asks for.
    private static async Task AllPicturesAreThere(IPage page)
    {
        var missing = await page.EvaluateAsync<string[]>("""
            async () => {
              const missing = [];
              for (const image of document.images) {
                image.loading = "eager";
                await image.decode().catch(() => missing.push(image.currentSrc));
              }
              return missing;
            }
            """);
        Assert.Empty(missing);
        Assert.True(await page.EvaluateAsync<int>("document.images.length") > 0);
    }

    [Fact]
    public async Task From_a_folder_the_page_promises_nothing()
    {
        await using var context = await chromium.NewContext();
        var page = await context.NewPageAsync();
        await page.GotoAsync(demo.Url("offline/index.html"));
        await Assertions.Expect(page.GetByText("Copy the whole site folder")).ToBeVisibleAsync();
        Assert.False(await page.Locator(".keeping").IsVisibleAsync());
    }

    [Theory]
    [InlineData("dark", "rgb(16, 23, 28)")]
    [InlineData("light", "rgb(244, 246, 240)")]
    public async Task The_reader_chooses_the_paper_and_it_stays(string shade, string paper)
    {
        await using var context = await chromium.NewContext(new() { ColorScheme = shade == "dark" ? ColorScheme.Light : ColorScheme.Dark });
        var page = await context.NewPageAsync();
        await page.GotoAsync(demo.Url("index.html"));
        await page.Locator($".shades button[value={shade}]").ClickAsync();
        await page.GotoAsync(demo.Url("frames/index.html"));
        await Assertions.Expect(page.Locator("body")).ToHaveCSSAsync("background-color", paper);
        await Assertions.Expect(page.Locator($".shades button[value={shade}]")).ToHaveAttributeAsync("aria-pressed", "true");
        await page.Locator(".shades button[value='']").ClickAsync();
        await Assertions.Expect(page.Locator("body")).Not.ToHaveCSSAsync("background-color", paper);
    }
}

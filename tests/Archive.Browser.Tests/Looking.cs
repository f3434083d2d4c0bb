using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>Pictures for people to look at; compared with nothing. Run by name: they take minutes.</summary>
public sealed class Looking(DemoSite demo, Chromium chromium)
{
    private static readonly string Artefacts = Path.Combine(DemoSite.Repository, "artifacts");

    /// <summary>Every page type at three widths, light and dark, and on A4: <c>artifacts/pages/</c>.</summary>
    [Fact(Explicit = true)]
    public async Task Every_page_type()
    {
        var only = Environment.GetEnvironmentVariable("ASFOUND_LOOK");
        foreach (var type in PageTypes.All.Where(type => only is null || type.Contains(only, StringComparison.Ordinal)))
        {
            var name = type.Replace("/…", "-one", StringComparison.Ordinal).Replace(' ', '-');
            foreach (var (width, dark) in new[] { (360, false), (360, true), (768, false), (1440, false), (1440, true) })
            {
                await Take(PageTypes.Of(demo, type), Path.Combine("pages", $"{name}-{width}{(dark ? "-dark" : "")}.png"), width, width == 360 ? 780 : 1000, dark, fullPage: true);
            }

            await using var context = await chromium.Browser.NewContextAsync();
            var page = await context.NewPageAsync();
            await page.GotoAsync(demo.Url(PageTypes.Of(demo, type)));
            await page.PdfAsync(new() { Path = Path.Combine(Artefacts, "pages", $"{name}.pdf"), Format = "A4", PrintBackground = false });
        }
    }

    /// <summary>The pictures of README.md, as <c>artifacts/readme/</c>; with <c>ASFOUND_WRITE=1</c> those that it shows are taken anew.</summary>
    [Fact]
    public async Task Pictures_of_the_readme()
    {
        var folder = Environment.GetEnvironmentVariable("ASFOUND_WRITE") is "1" ? Path.Combine(DemoSite.Repository, "tests/Archive.Browser.Tests/pictures") : Path.Combine(Artefacts, "readme");
        await Take("index.html", Path.Combine(folder, "home.png"), 1200, 900);
        await Take("frames/R2-05/index.html", Path.Combine(folder, "frame.png"), 1200, 900);
        await Take("frames/R2-05/index.html", Path.Combine(folder, "phone.png"), 390, 780);
        foreach (var picture in new[] { "home", "frame", "phone" }) Assert.True(new FileInfo(Path.Combine(folder, picture + ".png")).Length > 20_000, $"{picture} shows next to nothing");
    }

    private async Task Take(string address, string to, int width, int height, bool dark = false, bool fullPage = false)
    {
        await using var context = await chromium.Browser.NewContextAsync(new()
        {
            ViewportSize = new() { Width = width, Height = height },
            ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light,
        });
        var page = await context.NewPageAsync();
        await page.GotoAsync(demo.Url(address));
        await page.ScreenshotAsync(new() { Path = Path.Combine(Artefacts, to), FullPage = fullPage });
    }
}

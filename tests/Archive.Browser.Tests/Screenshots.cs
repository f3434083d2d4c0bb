using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>Pictures for people to look at; compared with nothing. Run by name: they take minutes.</summary>
public sealed class Screenshots(DemoSite demo, Chromium chromium)
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
                await Take(
                    PageTypes.Of(demo, type),
                    Path.Combine("pages", $"{name}-{width}{(dark ? "-dark" : "")}.png"),
                    width,
                    width == 360 ? 780 : 1000,
                    dark,
                    fullPage: true);
            }

            await using var context = await chromium.NewContext();
            var page = await context.NewPageAsync();
            await page.GotoAsync(demo.Url(PageTypes.Of(demo, type)));
            await page.PdfAsync(new() { Path = Path.Combine(Artefacts, "pages", $"{name}.pdf"), Format = "A4", PrintBackground = false });
        }
    }

    /// <summary>
    /// The pictures of README.md, as <c>artifacts/readme/</c>; with <c>ASFOUND_WRITE=1</c> those that it shows are taken again.
    /// </summary>
    [Fact]
    public async Task Pictures_of_the_readme()
    {
        var folder = Environment.GetEnvironmentVariable("ASFOUND_WRITE") is "1"
            ? Path.Combine(DemoSite.Repository, "tests/Archive.Browser.Tests/pictures")
            : Path.Combine(Artefacts, "readme");
        await Take("index.html", Path.Combine(folder, "home.png"), 1200, 900, shows: "h1, .plan svg text");
        await Take("frames/R2-05/index.html#elevation", Path.Combine(folder, "frame.png"), 1200, 900, shows: ".drawing svg text");
        await Take("frames/R2-05/index.html", Path.Combine(folder, "phone.png"), 390, 780, shows: "h1, main p");
    }

    // Things whose box in the picture is of one colour, though the page has them in sight: they were not drawn. The picture itself is read,
    // not the page.
    private static async Task<string[]> NotShown(IPage page, byte[] png, string what) => await page.EvaluateAsync<string[]>("""
        async ([png, what]) => {
          const bytes = Uint8Array.from(atob(png), c => c.charCodeAt(0));
          const picture = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
          if (picture.width !== innerWidth || picture.height !== innerHeight) return ['the picture is ' + picture.width + ' x ' + picture.height];
          const canvas = document.createElement('canvas');
          [canvas.width, canvas.height] = [picture.width, picture.height];
          const pen = canvas.getContext('2d', { willReadFrequently: true });
          pen.drawImage(picture, 0, 0);
          const inSight = [...document.querySelectorAll(what)].map(thing => [thing, thing.getBoundingClientRect()])
            .filter(([thing, box]) => thing.textContent.trim() && box.width >= 2 && box.height >= 2 && box.left >= 0 && box.top >= 0 && box.right <= innerWidth && box.bottom <= innerHeight);
          const missing = what.split(', ').filter(part => !inSight.some(([thing]) => thing.matches(part))).map(part => 'no ' + part + ' is in sight');
          for (const [thing, box] of inSight) {
            const pixels = new Uint32Array(pen.getImageData(box.left, box.top, box.width, box.height).data.buffer);
            if (pixels.every(pixel => pixel === pixels[0])) missing.push('not drawn: ' + thing.textContent.trim());
          }
          return missing;
        }
        """, new object[] { Convert.ToBase64String(png), what });

    private async Task Take(
        string address, string to, int width, int height, bool dark = false, bool fullPage = false, string? shows = null)
    {
        await using var context = await chromium.NewContext(new()
        {
            ViewportSize = new() { Width = width, Height = height },
            ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light,
        });
        var page = await context.NewPageAsync();
        await page.GotoAsync(demo.Url(address));
        await Painting.HasHappened(page);
        var png = await page.ScreenshotAsync(new() { Path = Path.Combine(Artefacts, to), FullPage = fullPage });
        if (shows is not null) Assert.Empty(await NotShown(page, png, shows));
    }
}

using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>
/// The drawings as they are seen: letters of a readable size that lie on nothing else and on the sheet; text at 4.5 to 1 and lines at 3 to 1 against
/// their ground (WCAG 2.2, 1.4.3 and 1.4.11, level AA); a title, a description and a list that names the same.
/// </summary>
public sealed partial class DrawnThings(DemoSite demo, Chromium chromium)
{
    // Of pages that are alike, such as those of cables, one in so many is looked at; of frames, halls and trays, all.
    private const int OneIn = 25;

    private static readonly string Probe = File.ReadAllText(Path.Combine(DemoSite.Repository, "tests/Archive.Browser.Tests/drawings.js"));

    [Theory]
    [InlineData(360, false, 9)]
    [InlineData(360, true, 9)]
    [InlineData(1440, false, 8.5)]
    [InlineData(1440, true, 8.5)]
    public async Task Can_be_read(int width, bool dark, double least)
    {
        await using var context = await chromium.Browser.NewContextAsync(new()
        {
            ViewportSize = new() { Width = width, Height = 900 },
            ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light,
        });
        var page = await context.NewPageAsync();
        var faults = new List<string>();
        var texts = 0;
        foreach (var address in Pages())
        {
            await page.GotoAsync(demo.Url(address));
            var seen = await page.EvaluateAsync<JsonElement>(Probe, new object[] { least, Listing().IsMatch(address) });
            faults.AddRange(seen.GetProperty("faults").EnumerateArray().Select(fault => $"{address}: {fault.GetString()}"));
            texts += seen.GetProperty("texts").GetInt32();
        }

        Assert.True(faults.Count == 0, string.Join('\n', faults.Take(60)));
        Assert.True(texts > 2000, $"only {texts} texts were looked at");
    }

    private IEnumerable<string> Pages()
    {
        var drawn = demo.Pages.Where(page => Drawing().IsMatch(File.ReadAllText(Path.Combine(demo.Site, page)))).ToList();
        return [.. drawn.Where(page => Whole().IsMatch(page)), .. drawn.Where(page => !Whole().IsMatch(page)).Where((_, index) => index % OneIn == 0)];
    }

    [GeneratedRegex("class=\"drawing (?!code)")]
    private static partial Regex Drawing();

    [GeneratedRegex("^(index\\.html|frames/.+|halls/.+|trays/.+|plans/(wiring|floor|decabling|working-sets|reach)/index\\.html)$")]
    private static partial Regex Whole();

    [GeneratedRegex("^(frames|halls|trays)/")]
    private static partial Regex Listing();
}

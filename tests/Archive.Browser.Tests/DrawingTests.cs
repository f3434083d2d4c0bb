using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>
/// The drawings as they are seen: letters of a readable size that lie on nothing else and on the sheet; text at 4.5 to 1 and lines at 3 to
/// 1 against their ground (WCAG 2.2, 1.4.3 and 1.4.11, level AA); a title, a description and a list that names the same.
/// </summary>
public sealed partial class DrawingTests(DemoSite demo, Chromium chromium)
{
    // Of pages that are alike, such as those of cables, one in so many is looked at; of frames, halls and trays, all.
    private const int OneIn = 25;

    // So that two can be looked at side by side.
    private const int InParts = 2;

    private static readonly string Probe = File.ReadAllText(Path.Combine(DemoSite.Repository, "tests/Archive.Browser.Tests/drawings.js"));

    // The least height of a letter in px, by the width of the page.
    private static readonly (int Width, double Least)[] Widths = [(360, 9), (1440, 8.5)];

    public static TheoryData<int> Parts => [.. Enumerable.Range(0, InParts)];

    /// <summary>
    /// Each page is loaded once, and looked at in both widths: every other page on a light phone and a dark desk, the rest the other way
    /// round. What a drawing's colours are does not depend on its width, so that each is seen in both.
    /// </summary>
    [Theory]
    [MemberData(nameof(Parts))]
    public async Task Can_be_read(int part)
    {
        await using var context = await chromium.NewContext();
        var page = await context.NewPageAsync();
        var faults = new List<string>();
        var texts = Widths.ToDictionary(width => width.Width, _ => 0);
        foreach (var (address, index) in Pages().Select((address, index) => (address, index)).Where(page => page.index % InParts == part))
        {
            await page.GotoAsync(demo.Url(address));
            await Painting.HasHappened(page);
            foreach (var (width, least) in Widths)
            {
                await page.SetViewportSizeAsync(width, 900);
                var light = (index / InParts % 2 == 0) == (width == Widths[0].Width) ? ColorScheme.Light : ColorScheme.Dark;
                await page.EmulateMediaAsync(new() { ColorScheme = light });
                var seen = await page.EvaluateAsync<JsonElement>(Probe, new object[] { least, Listing().IsMatch(address) });
                faults.AddRange(seen.GetProperty("faults")
                    .EnumerateArray()
                    .Select(fault => $"{address}, {width} px, {light}: {fault.GetString()}"));
                texts[width] += seen.GetProperty("texts").GetInt32();
            }
        }

        Assert.True(faults.Count == 0, string.Join('\n', faults.Take(60)));
        Assert.All(texts.Values, count => Assert.True(count > 1000, $"only {count} texts were looked at"));
    }

    private IEnumerable<string> Pages()
    {
        var drawn = demo.Pages.Where(page => Drawing().IsMatch(File.ReadAllText(Path.Combine(demo.Site, page)))).ToList();
        return [
            .. drawn.Where(page => Whole().IsMatch(page)),
            .. drawn.Where(page => !Whole().IsMatch(page)).Where((_, index) => index % OneIn == 0)
        ];
    }

    [GeneratedRegex("class=\"drawing (?!code)")]
    private static partial Regex Drawing();

    [GeneratedRegex("^(index\\.html|frames/.+|halls/.+|trays/.+|plans/(wiring|floor|decabling|working-sets|reach)/index\\.html)$")]
    private static partial Regex Whole();

    [GeneratedRegex("^(frames|halls|trays)/")]
    private static partial Regex Listing();
}

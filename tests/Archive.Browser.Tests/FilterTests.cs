using System.Text.Json;
using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>The lists of cables, filtered and sorted: against the data file, which is computed apart from them.</summary>
public sealed class FilterTests(DemoSite demo, Chromium chromium)
{
    [Fact]
    public async Task What_is_chosen_is_what_the_record_says_and_the_address_keeps_it()
    {
        using var cables = JsonDocument.Parse(File.ReadAllText(Path.Combine(demo.Site, "data/cables.json")));
        var expected = cables.RootElement.EnumerateArray()
            .Where(cable => cable.TryGetProperty("verdict", out var verdict)
                && verdict.GetString() == "agrees"
                && cable.TryGetProperty("ends", out var ends)
                && ends.EnumerateArray().Any(end => end.TryGetProperty("at", out var at)
                    && at.GetString()!.StartsWith("R2-05/", StringComparison.Ordinal)))
            .Select(cable => cable.GetProperty("id").GetString()!)
            .Order(StringComparer.Ordinal)
            .ToList();
        Assert.NotEmpty(expected);

        await using var context = await chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 780 } });
        var page = await context.NewPageAsync();
        await page.GotoAsync(demo.Url("cables/index.html"));
        await page.GetByText("Filter and sort").ClickAsync();
        await page.Locator("select[name=frame]").SelectOptionAsync("R2-05");
        await page.Locator("select[name=label]").SelectOptionAsync("label matches what was seen");
        var rows = page.Locator(".filtered tbody th");
        await Assertions.Expect(rows).ToHaveCountAsync(expected.Count);
        Assert.Equal(expected, (await rows.AllTextContentsAsync()).Order(StringComparer.Ordinal));
        await Assertions.Expect(page.Locator(".filter [role=status]")).ToContainTextAsync($"{expected.Count} of 60");
        await Assertions.Expect(page.Locator("main > .entry:not(.filtered)").First).ToBeHiddenAsync();

        // Passed on, it is the same list; the arrow back leads to the whole one.
        var other = await context.NewPageAsync();
        await other.GotoAsync(page.Url);
        await Assertions.Expect(other.Locator(".filtered tbody th")).ToHaveCountAsync(expected.Count);
        await Assertions.Expect(other.Locator("select[name=frame]")).ToHaveValueAsync("R2-05");
        await other.GetByText("Show the whole list").ClickAsync();
        await Assertions.Expect(other.Locator(".filtered")).ToHaveCountAsync(0);
        await Assertions.Expect(other.Locator("main > .entry").First).ToBeVisibleAsync();
    }

    [Fact]
    public async Task It_sorts_and_shows_a_hundred_rows_at_a_time_however_many_there_are()
    {
        await using var context = await chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 780 } });
        var page = await context.NewPageAsync();
        var rows = string.Join(',', Enumerable.Range(0, 20_000).Select(n =>
            $"[\"C-{n}\",\"\",[\"R-{n % 50}/S1/J{n}\",\"R-{n % 7}/S2\"],0,0,0,{20_000 - n},\"{20_000 - n} m\",[]]"));
        var script = "asfoundCables({\"rows\":[" + rows + "],\"frames\":["
            + string.Join(',', Enumerable.Range(0, 50).Select(n => $"[\"R-{n}\",0]"))
            + "],\"modules\":[\"m\"],\"kinds\":[\"k\"],\"states\":[\"s\"],\"verdicts\":[\"v\"],\"halls\":[],\"reaches\":[]});";
        await page.RouteAsync(
            "**/indexes/cables.js", route => route.FulfillAsync(new() { ContentType = "text/javascript", Body = script }));
        await page.GotoAsync(demo.Url("cables/index.html") + "#frame=R-13&sort=shortest");
        var shown = page.Locator(".filtered tbody th");
        await Assertions.Expect(shown).ToHaveCountAsync(100);
        await Assertions.Expect(shown.First).ToHaveTextAsync("C-19963");
        await Assertions.Expect(page.Locator(".filter [role=status]")).ToHaveTextAsync("400 of 20,000 cables");
        await page.GetByText("Show more").ClickAsync();
        await Assertions.Expect(shown).ToHaveCountAsync(200);
    }

    [Fact]
    public async Task Without_scripts_the_lists_are_as_they_were()
    {
        await using var context = await chromium.NewContext(new() { JavaScriptEnabled = false });
        var page = await context.NewPageAsync();
        await page.GotoAsync(demo.Url("cables/index.html"));
        await Assertions.Expect(page.Locator("main > .entry").First).ToBeVisibleAsync();
        Assert.False(await page.Locator(".filter").IsVisibleAsync());
    }
}

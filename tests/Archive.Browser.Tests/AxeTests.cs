using Xunit;

namespace Archive.Browser.Tests;

/// <summary>That nothing is wrong on our pages says something only if what is wrong is found.</summary>
public sealed class AxeTests(Chromium chromium)
{
    [Fact]
    public async Task What_is_wrong_is_found()
    {
        await using var context = await chromium.NewContext();
        var page = await context.NewPageAsync();
        await page.SetContentAsync(
            "<!doctype html><html lang=en><title>x</title><main><h1>x</h1><img src=a.png><p style='color: #999; background: #fff'>grey</p></main>");
        Assert.Equal(["color-contrast", "image-alt"], Found(await Axe.Violations(page)));
        Assert.Equal(["color-contrast"], Found(await Axe.Violations(page, "rule", "color-contrast")));

        static string[] Found(string[] violations) =>
            [.. violations.Select(violation => violation.Split(':')[0]).Order(StringComparer.Ordinal)];
    }
}

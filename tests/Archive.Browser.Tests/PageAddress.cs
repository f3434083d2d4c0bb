using Microsoft.Playwright;

namespace Archive.Browser.Tests;

/// <summary>Where a page is.</summary>
internal static class PageAddress
{
    /// <summary>Waits until a page's address has a text in it, and the page has loaded.</summary>
    /// <param name="part">The text.</param>
    /// <param name="timeout">How long, in milliseconds; null for as long as any wait.</param>
    /// <remarks>
    /// The page is asked again and again: a wait for a navigation misses one that happens just as the wait begins, as on a busy machine.
    /// </remarks>
    internal static async Task Arrives(this IPage page, string part, float? timeout = null)
    {
        await page.WaitForFunctionAsync(
            "part => location.href.includes(part)", part, new() { PollingInterval = 100, Timeout = timeout });
        await page.WaitForLoadStateAsync();
    }
}

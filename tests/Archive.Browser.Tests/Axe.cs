using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace Archive.Browser.Tests;

/// <summary>
/// axe-core, run in the page itself: the package for Playwright opens another page for every run, which takes as long again.
/// </summary>
internal static class Axe
{
    private static readonly Lazy<string> Script = new(() => new BundledAxeScriptProvider().GetScript());

    /// <summary>What a page does wrong, each with its first three places.</summary>
    /// <param name="page">The page; it may have been asked before.</param>
    /// <param name="by">What is asked by: <c>rule</c> or <c>tag</c>.</param>
    /// <param name="only">The rules or tags; none for all rules.</param>
    internal static async Task<string[]> Violations(IPage page, string by = "rule", params string[] only)
    {
        if (!await page.EvaluateAsync<bool>("typeof axe !== 'undefined'")) await page.EvaluateAsync(Script.Value + "; undefined");

        // What passes is not reported node by node: of a page of 500 cables that alone would be megabytes.
        return await page.EvaluateAsync<string[]>(
            """
            async ([by, only]) => {
              const result = await axe.run(document, { resultTypes: ['violations'], ...(only.length > 0 ? { runOnly: { type: by, values: only } } : {}) });
              return result.violations.map(v => `${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map(node => node.html).join(' | ')}`);
            }
            """,
            new object[] { by, only });
    }
}

using Microsoft.Playwright;

namespace Archive.Browser.Tests;

/// <summary>What a browser does by and by, awaited by what can be seen of it.</summary>
internal static class Painting
{
    /// <summary>
    /// Until the page shows itself (it waits a moment for its fonts, and what is not shown has neither contrast nor boxes to judge, nor can
    /// it be focused), has its fonts, has been painted (before, the browser drops what hands do), and has drawn two more frames: observers
    /// have then seen what came before.
    /// </summary>
    internal static Task HasHappened(IPage page) => page.EvaluateAsync(
        """
        async patience => {
          await document.fonts.ready;
          const frame = () => new Promise(requestAnimationFrame), began = performance.now();
          const until = async (what, isSo) => {
            for (; !isSo(); await frame()) if (performance.now() - began > patience) throw new Error('the page ' + what);
          };
          await until('does not show itself', () => document.documentElement.style.visibility !== 'hidden');
          await until('is not painted', () => performance.getEntriesByName('first-contentful-paint').length > 0);
          await frame();
          await frame();
          await new Promise(told => setTimeout(told, 0));
        }
        """,
        Chromium.Patience);

    /// <summary>
    /// A script that gives a page all the time it needs for its fonts: what it does without them, as on a busy machine, moves its lines.
    /// Only fonts are waited for before there is a body.
    /// </summary>
    internal const string WithFonts = """
        const timer = window.setTimeout;
        window.setTimeout = (what, wait, ...more) => timer(what, document.body ? wait : 1e8, ...more);
        """;
}

using Microsoft.Playwright;

namespace Archive.Browser.Tests;

/// <summary>What a browser does by and by, awaited by what can be seen of it.</summary>
internal static class Painting
{
    /// <summary>
    /// Until the page shows itself (it waits a moment for its fonts, and what is not shown has neither contrast nor boxes to judge), has
    /// its fonts, and has drawn two more frames: observers have then seen what came before.
    /// </summary>
    internal static Task HasHappened(IPage page) => page.EvaluateAsync("""
        async () => {
          await document.fonts.ready;
          const frame = () => new Promise(requestAnimationFrame);
          while (document.documentElement.style.visibility === 'hidden') await frame();
          await frame();
          await frame();
          await new Promise(told => setTimeout(told, 0));
        }
        """);
}

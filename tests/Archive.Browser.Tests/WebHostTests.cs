using Microsoft.Playwright;

namespace Archive.Browser.Tests;

/// <summary>
/// The demo as a web host would serve it at its base, <c>404.html</c> for what is not there; no server runs, the browser's requests are
/// answered from the folder.
/// </summary>
internal static class WebHostTests
{
    /// <summary>Where the demo says it will be published.</summary>
    internal const string Base = "https://archive.example/marrow-point/";

    /// <summary>Answers a context's requests below <see cref="Base"/>; all others fail.</summary>
    internal static Task From(IBrowserContext context, DemoSite demo) => context.RouteAsync("**/*", route =>
    {
        var url = new Uri(route.Request.Url);
        if (!url.AbsoluteUri.StartsWith(Base, StringComparison.Ordinal)) return route.AbortAsync();
        var path = Path.Combine(demo.Site, Uri.UnescapeDataString(url.AbsolutePath["/marrow-point/".Length..]));
        if (Directory.Exists(path)) path = Path.Combine(path, "index.html");
        return File.Exists(path)
            ? route.FulfillAsync(new() { Path = path })
            : route.FulfillAsync(new() { Status = 404, Path = Path.Combine(demo.Site, "404.html") });
    });
}

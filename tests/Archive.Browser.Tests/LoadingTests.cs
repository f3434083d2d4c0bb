using System.Collections.Concurrent;
using System.Diagnostics;
using AngleSharp.Html.Parser;
using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>
/// What pages may load and run: all that is theirs, from a folder and from a web host, and nothing that somebody put into them.
/// </summary>
public sealed class LoadingTests : IDisposable
{
    private const string Outside = "https://outside.example/";
    private readonly DemoSite _demo;
    private readonly Chromium _chromium;
    private readonly StaticHost _host;

    public LoadingTests(DemoSite demo, Chromium chromium)
    {
        (_demo, _chromium) = (demo, chromium);
        _host = new StaticHost(demo.Site);
    }

    public void Dispose() => _host.Dispose();

    /// <summary>
    /// Each way of bringing something of your own into a page; each sets <c>window.ran</c>, paints the page or asks another host where
    /// nothing forbids it.
    /// </summary>
    public static TheoryData<string, string> Injections => new()
    {
        { "an inline script", "<script>window.ran = true</script>" },
        { "an event handler", "<img src=\"no-such.png\" alt=\"\" onerror=\"window.ran = true\">" },
        { "a script of another host", $"<script src=\"{Outside}x.js\"></script>" },
        { "a script as data", "<script src=\"data:text/javascript,window.ran=true\"></script>" },
        { "a module", "<script type=\"module\">window.ran = true</script>" },
        { "a picture of another host", $"<img src=\"{Outside}x.png\" alt=\"\">" },
        { "a style sheet of another host", $"<link rel=\"stylesheet\" href=\"{Outside}x.css\">" },
        { "an inline style sheet", "<style>body { outline: 7px solid red }</style>" },
        { "a style that loads", $"<p style=\"background: url({Outside}x.png)\">x</p>" },
        { "a frame", "<iframe srcdoc=\"<script>parent.ran = true</script>\"></iframe>" },
        { "a frame of another host", $"<iframe src=\"{Outside}x.html\"></iframe>" },
        { "a plug-in", $"<object data=\"{Outside}x.html\" type=\"text/html\"></object>" },
        { "an embedded thing", $"<embed src=\"{Outside}x.svg\">" },
        { "a drawing with a script", "<svg xmlns=\"http://www.w3.org/2000/svg\"><script>window.ran = true</script></svg>" },
        {
            "a drawing that loads",
            $"<svg xmlns=\"http://www.w3.org/2000/svg\"><image href=\"{Outside}x.png\" width=\"9\" height=\"9\"/></svg>"
        },
        { "a link that runs", "<a id=\"injected\" href=\"javascript:window.ran=true\">x</a>" },
        { "a base", $"<base href=\"{Outside}\"><img src=\"x.png\" alt=\"\">" },
        { "a form", $"<form action=\"{Outside}\" method=\"post\"><button id=\"injected\">x</button></form>" },
        { "sound", $"<audio src=\"{Outside}x.mp3\" autoplay></audio>" },
        {
            "a font of another host",
            $"<style>@font-face {{ font-family: x; src: url({Outside}x.woff2) }}</style><p style=\"font-family: x\">x</p>"
        },
    };

    /// <summary>
    /// From a folder, <see cref="PageReadingTests"/> loads one of each type and hears the same complaints; here are the others.
    /// </summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Every_kind_of_page_loads_all_that_is_its_own(bool fromFolder)
    {
        await using var context = await _chromium.NewContext();
        var page = await context.NewPageAsync();
        var complaints = await Listen(page);
        string[] pages =
        [
            .. fromFolder ? [] : PageTypes.All.Select(type => PageTypes.Of(_demo, type)),
            _demo.Pages.First(name => name.StartsWith("labels/row/", StringComparison.Ordinal)),
            "404.html"
        ];
        foreach (var name in pages)
        {
            await page.GotoAsync(At(name, fromFolder));
            await page.EvaluateAsync("() => document.fonts.ready");
            foreach (var lack in await page.EvaluateAsync<string[]>("""
                () => [
                  ...[...document.querySelectorAll('link[rel=stylesheet]')].filter(link => !link.sheet).map(link => 'no style ' + link.href),
                  ...[...document.images].filter(image => image.complete && image.currentSrc && image.naturalWidth === 0).map(image => 'no picture ' + image.currentSrc),
                ]
                """)) complaints.Enqueue(lack);
            if (name.StartsWith("labels/row/", StringComparison.Ordinal))
                await Assertions.Expect(page.Locator(".at-1").First).ToHaveCSSAsync("position", "absolute");
        }

        Assert.Empty(complaints);
    }

    /// <summary>
    /// All that scripts do: shards of the search, the viewer, the choice of paper, and, from a web host, the pages that a device keeps.
    /// </summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task All_that_scripts_do_is_done(bool fromFolder)
    {
        await using var context = await _chromium.NewContext(new() { ViewportSize = new() { Width = 1200, Height = 800 } });
        var page = await context.NewPageAsync();
        var complaints = await Listen(page);
        await page.GotoAsync(At("search/index.html", fromFolder) + "?q=antenna");
        await page.Locator("#search-results mark").First.WaitForAsync();
        await page.Locator("#search-narrow summary").ClickAsync();
        await page.Locator("#search-groups button").First.WaitForAsync();

        await page.GotoAsync(At("photos/P-1206/index.html", fromFolder));
        await page.Locator(".picture").ClickAsync(new() { Position = new() { X = 20, Y = 20 } });
        await page.Locator("dialog.closer[open] canvas").WaitForAsync();
        await page.Mouse.MoveAsync(300, 200);
        await page.Mouse.WheelAsync(0, -600);
        await page.WaitForFunctionAsync("() => location.hash.startsWith('#at=')");
        await page.Keyboard.PressAsync("Escape");

        await page.Locator(".shades button[value=dark]").ClickAsync();
        await Assertions.Expect(page.Locator("body")).ToHaveCSSAsync("background-color", "rgb(16, 23, 28)");

        if (!fromFolder)
        {
            await page.GotoAsync(At("offline/index.html", fromFolder));
            await page.Locator("button[value=keep]").ClickAsync();
            await Assertions.Expect(page.Locator(".keeping [role=status]")).ToContainTextAsync("This is the newest version");
            await page.GotoAsync(At("frames/R2-05/index.html", fromFolder));
            Assert.True(await page.EvaluateAsync<bool>("() => navigator.serviceWorker.ready.then(() => true)"));
        }

        Assert.Empty(complaints);
    }

    /// <summary>Without the policy each of them would come through: that is tried first.</summary>
    [Theory]
    [MemberData(nameof(Injections))]
    public async Task Nothing_that_was_put_into_a_page_is_loaded_or_run(string what, string markup)
    {
        var folder = Directory.CreateTempSubdirectory("asfound-injected-").FullName;
        try
        {
            var honest = await File.ReadAllTextAsync(Path.Combine(_demo.Site, "halls/index.html"), TestContext.Current.CancellationToken);
            var injected = honest.Replace("<h1", markup + "<h1", StringComparison.Ordinal);
            var policy = new HtmlParser().ParseDocument(honest).QuerySelector("meta[http-equiv='Content-Security-Policy']")!.OuterHtml;
            Assert.Contains(policy, injected, StringComparison.Ordinal);
            var bare = injected.Replace(policy, "", StringComparison.Ordinal);
            (string Name, string Text)[] pages = [("guarded", injected), ("bare", bare)];
            foreach (var (name, text) in pages)
            {
                Directory.CreateDirectory(Path.Combine(folder, name));
                await File.WriteAllTextAsync(Path.Combine(folder, name, "index.html"), text, TestContext.Current.CancellationToken);
                _host.Instead[$"{name}/index.html"] = text;
            }

            var places = new[] { new Uri(folder).AbsoluteUri + "/", _host.Base };
            foreach (var place in places)
            {
                Assert.True(await ComesThrough(place + "bare/index.html"), $"{what} is refused even without a policy, from {place}");
                Assert.False(await ComesThrough(place + "guarded/index.html"), $"{what} came through from {place}");
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void Every_page_has_the_policy_first_and_nothing_inline()
    {
        var faults = new List<string>();
        foreach (var name in _demo.Pages)
        {
            using var page = new HtmlParser().ParseDocument(File.ReadAllText(Path.Combine(_demo.Site, name)));
            var first = page.Head!.Children.FirstOrDefault(element => !element.HasAttribute("charset"));
            if (first?.GetAttribute("http-equiv") != "Content-Security-Policy") faults.Add($"{name} has no policy before all else");
            foreach (var element in page.All)
            {
                if (element.LocalName == "style" || element.HasAttribute("style"))
                    faults.Add($"{name}: inline style: {element.OuterHtml[..Math.Min(80, element.OuterHtml.Length)]}");
                if (element.Attributes.Any(attribute => attribute.Name.StartsWith("on", StringComparison.OrdinalIgnoreCase)))
                    faults.Add($"{name}: a handler on {element.LocalName}");
                if (element.LocalName == "script"
                    && !element.HasAttribute("src")
                    && element.GetAttribute("type") != "application/ld+json"
                    && name != "404.html") faults.Add($"{name}: an inline script");
                if (element.LocalName == "base" && name != "404.html") faults.Add($"{name}: a base");
            }
        }

        Assert.Empty(faults.Take(20));
    }

    [Fact]
    public void No_drawing_that_stands_by_itself_holds_a_script_or_a_style()
    {
        var drawings = Directory.GetFiles(_demo.Site, "*.svg", SearchOption.AllDirectories);
        Assert.True(drawings.Length > 10);
        Assert.All(drawings, file =>
        {
            var drawing = System.Xml.Linq.XDocument.Load(file);
            Assert.DoesNotContain(drawing.Descendants(), element => element.Name.LocalName is "script" or "style" or "foreignObject");
            Assert.DoesNotContain(drawing.Descendants().SelectMany(element => element.Attributes()), attribute =>
                attribute.Name.LocalName.StartsWith("on", StringComparison.Ordinal) || attribute.Name.LocalName == "style");
        });
    }

    /// <summary>The preview adds a script and a panel of its own, and sends the policy as a header too.</summary>
    [Fact]
    public async Task The_preview_shows_errors_and_reloads()
    {
        var folder = Directory.CreateTempSubdirectory("asfound-previewed-").FullName;
        Directory.CreateDirectory(Path.Combine(folder, "content/frames"));
        await File.WriteAllTextAsync(
            Path.Combine(folder, "content/archive.yaml"), "title: Small station\n", TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(
            Path.Combine(folder, "content/frames/r.yaml"), "- {id: R1-01, name: Receiver}\n", TestContext.Current.CancellationToken);
        var start = new ProcessStartInfo("dotnet")
        {
            WorkingDirectory = folder,
            RedirectStandardError = true,
            ArgumentList =
            {
                Path.Combine(AppContext.BaseDirectory, "asfound.dll"),
                "preview",
                "--themes",
                Path.Combine(DemoSite.Repository, "themes")
            },
        };
        using var process = Process.Start(start)!;
        var (address, built) = (
            new TaskCompletionSource<string>(TaskCreationOptions.RunContinuationsAsynchronously),
            new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously));
        process.ErrorDataReceived += (_, said) =>
        {
            // It takes the first port that is free, and says which; then it says how each build ended.
            if (said.Data is null) address.TrySetException(new InvalidOperationException("the preview ended"));
            else if (said.Data.StartsWith("Preview at ", StringComparison.Ordinal))
                address.TrySetResult(said.Data["Preview at ".Length..].Split(';')[0]);
            else built.TrySetResult();
        };
        process.BeginErrorReadLine();
        try
        {
            await using var context = await _chromium.NewContext();
            var page = await context.NewPageAsync();
            var host = await address.Task;
            await built.Task;
            var complaints = await Listen(page);
            var answer = await page.GotoAsync(host + "frames/R1-01/");
            Assert.Contains("frame-ancestors 'none'", answer!.Headers["content-security-policy"], StringComparison.Ordinal);
            Assert.Equal(("nosniff", "no-referrer"), (answer.Headers["x-content-type-options"], answer.Headers["referrer-policy"]));

            await Save("content/frames/bad.yaml", "- {id: R2-01, name: x, weight: 310}\n");
            var panel = page.Locator("pre.error").First;
            await panel.WaitForAsync();
            await Assertions.Expect(panel).ToContainTextAsync("AF0204");
            // The panel is there before the page's styles are.
            await Assertions.Expect(panel).ToHaveCSSAsync("border-left-width", "4px");

            // What is read stays where it is, however far down. A page that is still loading is not yet high enough.
            await page.SetViewportSizeAsync(390, 300);
            await page.WaitForLoadStateAsync();
            await page.WaitForFunctionAsync("() => { scrollTo(0, 333); return scrollY === 333; }");
            File.Delete(Path.Combine(folder, "content/frames/bad.yaml"));
            await Save("content/frames/r.yaml", "- {id: R1-01, name: Transmitter}\n");
            await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Transmitter");
            // Two files changed: it may load twice, and keeps its place until it has.
            await page.WaitForFunctionAsync("() => scrollY === 333 && sessionStorage.getItem('asfound-preview-place') === null");

            await page.GotoAsync(host + "404.html");
            await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Page not found");
            Assert.Empty(complaints);
        }
        finally
        {
            process.Kill(entireProcessTree: true);
            await process.WaitForExitAsync(CancellationToken.None);
            Directory.Delete(folder, recursive: true);
        }

        // In one step: on a busy machine the preview would see the file while it is still empty, and a page that is not there.
        async Task Save(string path, string text)
        {
            var draft = Path.Combine(folder, "draft");
            await File.WriteAllTextAsync(draft, text, TestContext.Current.CancellationToken);
            File.Move(draft, Path.Combine(folder, path), overwrite: true);
        }
    }

    private string At(string name, bool fromFolder) => fromFolder ? _demo.Url(name) : _host.Base + name;

    // Whether what a page holds is loaded or run; the browser says when a policy forbids it, so neither is waited for in vain.
    private async Task<bool> ComesThrough(string address)
    {
        await using var context = await _chromium.NewContext();
        var (comes, refused) = (NewSign(), NewSign());
        await context.RouteAsync(Outside + "**", route =>
        {
            comes.TrySetResult();
            return route.FulfillAsync(new() { Status = 204 });
        });
        var page = await context.NewPageAsync();
        await page.ExposeFunctionAsync("cameThrough", () => comes.TrySetResult());
        await page.AddInitScriptAsync("""
            (function look() {
              if (window.ran === true || (document.body && getComputedStyle(document.body).outlineWidth === '7px')) cameThrough();
              else setTimeout(look, 10);
            })();
            """);
        page.Console += (_, message) =>
        {
            if (message.Type == "error" && message.Text.Contains("Content Security Policy", StringComparison.Ordinal))
                refused.TrySetResult();
        };
        await page.GotoAsync(address, new() { WaitUntil = WaitUntilState.DOMContentLoaded });
        await page.EvaluateAsync("() => { const made = document.getElementById('injected'); if (made) made.click(); }");
        await Task.WhenAny(comes.Task, refused.Task)
            .WaitAsync(TimeSpan.FromMilliseconds(Chromium.Patience), TestContext.Current.CancellationToken);

        // What is refused one way might come another: the page is loaded whole, and looked at again.
        if (!comes.Task.IsCompleted)
        {
            await page.WaitForLoadStateAsync();
            await Painting.HasHappened(page);
        }

        return comes.Task.IsCompleted;

        static TaskCompletionSource NewSign() => new(TaskCreationOptions.RunContinuationsAsynchronously);
    }

    // What a page complains of, in the order in which it is reported; policies are heard by every page that this tab opens.
    private static async Task<ConcurrentQueue<string>> Listen(IPage page)
    {
        var complaints = new ConcurrentQueue<string>();
        await page.ExposeFunctionAsync("complain", (string text) => complaints.Enqueue(text));
        await page.AddInitScriptAsync(
            "document.addEventListener('securitypolicyviolation', event => complain('forbidden: ' + event.violatedDirective + ' ' + event.blockedURI + ' ' + location.href))");
        page.Console += (_, message) =>
        {
            // A browser asks a host for an icon where a page names none; the host is none of the site's.
            if (message.Type == "error" && !message.Location.Contains("/favicon.ico", StringComparison.Ordinal))
                complaints.Enqueue($"console: {message.Text} {message.Location} at {page.Url}");
        };
        page.PageError += (_, error) => complaints.Enqueue($"script: {error} at {page.Url}");
        return complaints;
    }
}

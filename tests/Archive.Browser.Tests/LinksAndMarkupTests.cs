using System.Diagnostics;
using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>The whole site at rest: every link and anchor resolves, nothing is loaded from elsewhere, the markup is valid.</summary>
public sealed class LinksAndMarkupTests(DemoSite demo)
{
    [Fact]
    public void Every_internal_link_and_anchor_resolves()
    {
        var parser = new HtmlParser();
        var anchors = new Dictionary<string, HashSet<string>>(StringComparer.Ordinal);
        var links = new List<(string Page, string Target, string Anchor)>();
        var faults = new List<string>();
        foreach (var page in demo.Pages)
        {
            using var document = parser.ParseDocument(File.ReadAllText(Path.Combine(demo.Site, page)));
            var ids = document.All.Select(e => e.GetAttribute("id")).OfType<string>().ToList();
            anchors[page] = [.. ids];
            faults.AddRange(ids.GroupBy(id => id, StringComparer.Ordinal)
                .Where(group => group.Count() > 1)
                .Select(group => $"{page}: id {group.Key} stands twice"));
            foreach (var (link, loads) in document.All.Where(element => element.LocalName != "base").SelectMany(LinksOf))
            {
                if (Outside(link))
                {
                    if (loads) faults.Add($"{page} loads {link}");
                    continue;
                }

                var (path, anchor) = Split(link);
                var target = path.Length == 0 ? page : Path.GetRelativePath(
                    demo.Site, Path.GetFullPath(Path.Combine(demo.Site, Path.GetDirectoryName(page)!, path))).Replace('\\', '/');
                links.Add((page, target, anchor));
            }
        }

        foreach (var (page, target, anchor) in links)
        {
            if (target.StartsWith("..", StringComparison.Ordinal) || !File.Exists(Path.Combine(demo.Site, target)))
                faults.Add($"{page}: no {target}");
            else if (anchor.Length > 0
                && !anchor.StartsWith("at=", StringComparison.Ordinal)
                && !anchor.StartsWith("on=", StringComparison.Ordinal)
                && anchors.TryGetValue(target, out var ids)
                && !ids.Contains(anchor)) faults.Add($"{page}: no #{anchor} in {target}");
        }

        Assert.Empty(faults.Distinct().Take(40));
        Assert.True(links.Count > 1000, $"only {links.Count} links were found");
    }

    // Sheets of labels and documents of all steps are there to be printed in one go: cut smaller, they would be printed one by one.
    [Fact]
    public void No_page_is_larger_than_150_kilobytes()
    {
        var pages = demo.Pages.Where(page => !page.StartsWith("labels/", StringComparison.Ordinal)
            && !page.EndsWith("/steps/index.html", StringComparison.Ordinal)).ToList();
        Assert.True(pages.Count > 1000);
        var large = pages.Select(page => (page, new FileInfo(Path.Combine(demo.Site, page)).Length)).Where(page => page.Length > 150_000);
        Assert.Empty(large);
    }

    // One page of a cable or unit in so many: they differ in their words, and the checker takes longer than anything else here.
    private const int OneIn = 10;

    [Fact]
    public void Every_kind_of_page_is_valid_html()
    {
        var checker = Path.Combine(DemoSite.Repository, "tests/Archive.Browser.Tests/node_modules/vnu-jar/build/dist/vnu.jar");
        Assert.True(File.Exists(checker), "the HTML checker is not installed: run .ci/tools");
        var start = new ProcessStartInfo("java")
        {
            RedirectStandardError = true,
            WorkingDirectory = demo.Site,

            // Compiled once and lightly: it runs for seconds only.
            ArgumentList =
            {
                "-Xss4m", "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-jar", checker, "--errors-only", "--skip-non-html",
                "--format", "gnu",
            },
        };
        var many = 0;
        foreach (var page in demo.Pages)
        {
            var isOneOfMany = page.StartsWith("cables/C-", StringComparison.Ordinal)
                || page.StartsWith("units/U-", StringComparison.Ordinal);
            if (!isOneOfMany || many++ % OneIn == 0) start.ArgumentList.Add(page);
        }

        using var process = Process.Start(start)!;
        var said = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0 && said.Length == 0, said.Length > 4000 ? said[..4000] : said);
    }

    // What a page names, and whether the browser fetches it by itself.
    private static IEnumerable<(string Link, bool Loads)> LinksOf(IElement element)
    {
        var loads = element.LocalName is not "a" and not "area"
            && !(element.LocalName == "link" && element.GetAttribute("rel") is "canonical" or "alternate" or "license");
        foreach (var name in new[] { "href", "src", "poster", "xlink:href" })
        {
            if (element.GetAttribute(name) is { Length: > 0 } value) yield return (value, loads);
        }

        foreach (var candidate in (element.GetAttribute("srcset")
            ?? "").Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            yield return (candidate.Split(' ')[0], true);
        }
    }

    private static bool Outside(string link) =>
        link.StartsWith("http:", StringComparison.OrdinalIgnoreCase) || link.StartsWith("https:", StringComparison.OrdinalIgnoreCase)
        || link.StartsWith("mailto:", StringComparison.OrdinalIgnoreCase)
        || link.StartsWith("data:image/", StringComparison.OrdinalIgnoreCase)
        || link.StartsWith("//", StringComparison.Ordinal);

    private static (string Path, string Anchor) Split(string link)
    {
        var hash = link.IndexOf('#', StringComparison.Ordinal);
        var path = Uri.UnescapeDataString((hash < 0 ? link : link[..hash]).Split('?')[0]);
        return (path, hash < 0 ? "" : Uri.UnescapeDataString(link[(hash + 1)..]));
    }
}

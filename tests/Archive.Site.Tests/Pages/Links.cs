using AngleSharp.Html.Parser;
using Archive.Site.Data;
using Archive.Site.Permanence;

namespace Archive.Site.Tests.Pages;

/// <summary>Follows every link of a site.</summary>
internal static class Links
{
    /// <summary>Links that lead nowhere, and anchors that stand twice on a page.</summary>
    public static List<string> Faults(Sketch sketch)
    {
        var parser = new HtmlParser();
        var pages = sketch.Pages().ToDictionary(page => page.Key, page => parser.ParseDocument(page.Value));
        var labels = sketch.Builders().ReadyLabels.Files().Select(label => label.Path).ToHashSet(StringComparer.Ordinal);
        var others = SitePages.All(sketch.Contents)
            .Select(file => file.Path)
            .Where(path => !path.EndsWith(".html", StringComparison.Ordinal))
            .Concat(DataFiles.Create(sketch.Contents.Basis, sketch.Contents.Plans).Select(file => file.Path))
            .Concat(PermanenceFiles.Create(sketch.Record, []).Select(file => file.Path))
            .Append("site.sha256")
            .ToHashSet(StringComparer.Ordinal);
        var faults = new List<string>();
        foreach (var (path, document) in pages)
        {
            faults.AddRange(document.All
                .Select(e => e.GetAttribute("id"))
                .OfType<string>()
                .GroupBy(id => id)
                .Where(group => group.Count() > 1)
                .Select(group => $"{path}: id {group.Key} twice"));
            foreach (var href in document
                .QuerySelectorAll(":not(base)[href], [src]")
                .Select(e => e.GetAttribute("href") ?? e.GetAttribute("src")!))
            {
                if (href.StartsWith("https://", StringComparison.Ordinal)) continue;
                var target = new Uri(new Uri("file:///" + path), href);
                var file = target.AbsolutePath[1..];
                if (file == PermanenceFiles.Feed
                    || others.Contains(file)
                    || file.StartsWith("assets/", StringComparison.Ordinal)
                    || file.StartsWith("images/", StringComparison.Ordinal)
                    || (labels.Contains(file) && target.Fragment is "" or "#code")) continue;
                if (!pages.TryGetValue(file, out var page)) faults.Add($"{path}: no {href}");
                else if (target.Fragment.Length > 1
                    && !target.Fragment.StartsWith("#at=", StringComparison.Ordinal)
                    && !target.Fragment.StartsWith("#on=", StringComparison.Ordinal)
                    && page.GetElementById(Uri.UnescapeDataString(target.Fragment[1..])) is null) faults.Add($"{path}: no anchor {href}");
            }
        }

        return faults;
    }
}

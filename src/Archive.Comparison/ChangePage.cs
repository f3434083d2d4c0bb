using System.Net;
using System.Text;
using Archive.Diagnostics.Rendering;
using Archive.Markup.Templates;
using Archive.Records.Model;

namespace Archive.Comparison;

/// <summary>"Changes to this record" as one page that needs nothing beside it: to be sent to a committee, printed, kept.</summary>
public static class ChangePage
{
    /// <param name="title">The archive's title.</param>
    /// <returns>HTML; every piece of the record in it is escaped.</returns>
    public static string Write(ArchiveComparison comparison, string title)
    {
        var style = "\n" + Style();
        var page = new StringBuilder("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
            .Append(ContentSecurityPolicy.MetaForStyle(style))
            .Append("\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
            .Append("<meta name=\"color-scheme\" content=\"light dark\">\n<title>Changes to this record · ").Append(Text(title))
            .Append("</title>\n<style>").Append(style).Append("</style>\n</head>\n<body>\n<main>\n")
            .Append("<p class=\"of\">")
            .Append(Text(title)).Append("</p>\n<h1>Changes to this record</h1>\n")
            .Append("<p>From <b>")
            .Append(Text(comparison.From)).Append("</b> to <b>").Append(Text(comparison.To)).Append("</b>: ")
            .Append(Text(comparison.Summary)).Append(".</p>\n");
        if (comparison.Changes.IsEmpty) page.Append("<p>No differences in the record.</p>\n");
        foreach (var group in comparison.Changes.GroupBy(change => change.Kind))
        {
            page.Append("<h2>").Append(group.Key is { } kind ? Capital(RecordFolders.All[(int)kind]) : "The archive").Append("</h2>\n");
            foreach (var change in group) Write(page, change);
        }

        return page.Append("</main>\n</body>\n</html>\n").ToString();
    }

    private static void Write(StringBuilder page, RecordChange change)
    {
        page.Append("<section>\n<h3><span class=\"id\">").Append(Text(change.Id)).Append("</span> ").Append(Text(ChangeReport.What(change)))
            .Append("</h3>\n");
        if (!change.Facts.IsEmpty)
        {
            page.Append(
                "<table>\n<thead><tr><th scope=\"col\">Fact</th><th scope=\"col\">Before</th><th scope=\"col\">Now</th><th scope=\"col\">Who and when</th></tr></thead>\n<tbody>\n");
            foreach (var fact in change.Facts)
            {
                var (before, after) = ChangeReport.Sides(fact);
                page.Append("<tr><th scope=\"row\">").Append(Text(fact.Name)).Append("</th><td>").Append(Side(before, "del"))
                    .Append("</td><td>").Append(Side(after, "ins"))
                        .Append("</td><td>")
                    .Append(fact.By is { } by ? Text(ChangeReport.By(by)) : "<i>not known</i>").Append("</td></tr>\n");
            }

            page.Append("</tbody>\n</table>\n");
        }

        page.Append("</section>\n");
    }

    private static string Side(string? said, string element) =>
        said is not null ? $"<{element}>{Text(said)}</{element}>" : "<i>nothing</i>";

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string Text(string text) => WebUtility.HtmlEncode(VisibleText.Text(text));

    private static string Style()
    {
        using var stream = typeof(ChangePage).Assembly.GetManifestResourceStream("changes.css")!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}

using System.Buffers;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Markup.Links;
using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.Work;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;
using SourceSpan = Archive.Diagnostics.SourceSpan;

namespace Archive.Markup.Prose;

/// <summary>Finds what prose holds that no page will show: HTML, and links that a page must not have.</summary>
public static class ProseChecks
{
    private static readonly SearchValues<char> Suspect = SearchValues.Create("<[:");
    private static readonly SearchValues<char> AfterName = SearchValues.Create(" \t\r\n/>");

    /// <summary>Checks all prose of a record.</summary>
    /// <returns>In no order.</returns>
    public static ImmutableArray<Diagnostic> Check(ArchiveModel record) =>
        DiagnosticList.Collect(ProseFields.Enumerate(record.Statement).SelectMany(Check)
            .Concat(SideBySide
                .Select(record.ById.Values, each => ProseFields.Enumerate(each).SelectMany(Check).ToImmutableArray())
                .SelectMany(each => each)));

    private static IEnumerable<Diagnostic> Check(Stated<string> prose)
    {
        var typed = new TypedText(prose);
        if (ProseLimits.Exceeded(prose.Value) is var (start, what))
        {
            yield return Unreadable(typed.Of(start, 1), $"{what}: this text is shown exactly as typed");
            yield break;
        }

        if (prose.Value.AsSpan().IndexOfAny(Suspect) < 0) yield break;
        if (MarkdownText.Parse(prose.Value) is not { } document)
        {
            yield return Unreadable(
                prose.Span with { Length = Math.Min(1, prose.Span.Length) },
                "marks nested too deeply: this text is shown exactly as typed");
            yield break;
        }

        var (headings, opened) =
            (new Lazy<ProseHeadings>(() => new ProseHeadings(document, 1, "check")), new HashSet<string>(StringComparer.OrdinalIgnoreCase));
        var told = 0;
        foreach (var item in document.Descendants())
        {
            if (item is HtmlBlock block) Open(block.Lines.ToString(), opened);
            if (item is HtmlInline { Tag: var tag })
            {
                if (tag.StartsWith("</", StringComparison.Ordinal) && opened.Contains(NameOf(tag.AsSpan(2)))) continue;
                Open(tag, opened);
            }

            if (Judge(item, headings) is not var (kind, message, help)) continue;

            // No more are kept of a file, so that it matters to no one where these stand.
            var span = told++ < 2 * DiagnosticList.MostPerFile ? typed.Of(item.Span.Start, item.Span.Length) : prose.Span;
            yield return kind.At(span, message, help);
        }
    }

    private static Diagnostic Unreadable(SourceSpan span, string message) =>
        DiagnosticDescriptors.ProseUnreadable.At(
            span, message, "simplify it, or split it with blank lines; a long table is data and belongs in records");

    private static (DiagnosticDescriptor Kind, string Message, string Help)? Judge(MarkdownObject item, Lazy<ProseHeadings> headings) =>
        item switch
        {
            HtmlBlock or HtmlInline => (
                DiagnosticDescriptors.RawHtml,
                "this is HTML, which prose does not use",
                "write it in Markdown; as it is, readers see the tags as text"),
            LinkInline { IsImage: true } => (
                DiagnosticDescriptors.UnsafeLink,
                "pictures in prose are not shown",
                "add the picture as a photo record and mention it: `[[P-0001]]`"),
            LinkInline link when ExternalLink.Outside(link.Url) is null && headings.Value.Anchor(link.Url) is null =>
                Unsafe(link.Url ?? ""),
            AutolinkInline link when ExternalLink.Outside(link.IsEmail ? "mailto:" + link.Url : link.Url) is null => Unsafe(link.Url),
            _ => null,
        };

    // The end of a tag whose beginning was reported is not reported.
    private static void Open(string html, HashSet<string> opened)
    {
        for (var at = html.IndexOf('<', StringComparison.Ordinal); at >= 0; at = html.IndexOf('<', at + 1))
        {
            if (at + 1 < html.Length && char.IsAsciiLetter(html[at + 1])) opened.Add(NameOf(html.AsSpan(at + 1)));
        }
    }

    private static string NameOf(ReadOnlySpan<char> tag) => (tag.IndexOfAny(AfterName) is >= 0 and var end ? tag[..end] : tag).ToString();

    private static (DiagnosticDescriptor Kind, string Message, string Help) Unsafe(string url) => (
        DiagnosticDescriptors.UnsafeLink,
        url.StartsWith('#') ? $"this text has no heading `{Short(url[1..])}`" : $"a page cannot link to `{Short(url)}`",
        url.StartsWith('#')
            ? "write a heading of the same text, its words joined by hyphens"
            : "link to http, https or mailto, or to a record: `[[ID]]`");

    private static string Short(string url) => url.Length <= 60 ? url : url[..60] + "…";
}

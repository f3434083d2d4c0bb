using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace Archive.Site;

/// <summary>Finds what prose holds that no page will show: HTML, and links that a page must not carry.</summary>
public static class ProseChecks
{
    private static readonly System.Buffers.SearchValues<char> Suspect = System.Buffers.SearchValues.Create("<[:");

    /// <summary>Checks all prose of a record.</summary>
    /// <param name="record">The record.</param>
    /// <returns>In no order.</returns>
    public static ImmutableArray<Diagnostic> Check(AsFound record) =>
        DiagnosticList.Collect(Records.Prose.Of(record.Statement).SelectMany(Check)
            .Concat(record.ById.Values.AsParallel().AsOrdered().SelectMany(Records.Prose.Of).SelectMany(Check)));

    private static IEnumerable<Diagnostic> Check(Stated<string> prose)
    {
        if (prose.Value.AsSpan().IndexOfAny(Suspect) < 0 || ProseText.Parse(prose.Value) is not { } document) return [];
        var headings = new Lazy<ProseHeadings>(() => new ProseHeadings(document, 1, "check"));
        return document.Descendants().Select(item => Judge(item, prose, headings)).OfType<Diagnostic>();
    }

    private static Diagnostic? Judge(MarkdownObject item, Stated<string> prose, Lazy<ProseHeadings> headings) => item switch
    {
        HtmlInline tag when Closes(tag, prose.Value) => null,
        HtmlBlock or HtmlInline => Faults.RawHtml.At(
            TypedSpan.Of(prose, item.Span.Start, item.Span.Length), "this is HTML, and prose is Markdown without it", "say it in Markdown; as it stands, readers see the tags as text"),
        LinkInline { IsImage: true } image => Faults.UnsafeLink.At(
            TypedSpan.Of(prose, image.Span.Start, image.Span.Length), "a picture in prose is not shown", "make it a photo of the record, and mention that: `[[P-0001]]`"),
        LinkInline link when ProseLink.Outside(link.Url) is null && headings.Value.Anchor(link.Url) is null => Unsafe(prose, link, link.Url ?? ""),
        AutolinkInline link when ProseLink.Outside(link.IsEmail ? "mailto:" + link.Url : link.Url) is null => Unsafe(prose, link, link.Url),
        _ => null,
    };

    // The end of a tag whose beginning was told.
    private static bool Closes(HtmlInline tag, string prose) =>
        tag.Tag.StartsWith("</", StringComparison.Ordinal)
        && prose.AsSpan(0, Math.Clamp(tag.Span.Start, 0, prose.Length)).Contains("<" + tag.Tag[2..].TrimEnd('>', ' '), StringComparison.OrdinalIgnoreCase);

    private static Diagnostic Unsafe(Stated<string> prose, MarkdownObject link, string url) => Faults.UnsafeLink.At(
        TypedSpan.Of(prose, link.Span.Start, link.Span.Length),
        url.StartsWith('#') ? $"no heading of this text is called `{url[1..]}`" : $"a page must not carry a link to `{Short(url)}`",
        url.StartsWith('#') ? "name a heading of the same text, its words joined by hyphens" : "link to http, https or mailto, or to a record: `[[ID]]`");

    private static string Short(string url) => url.Length <= 60 ? url : url[..60] + "…";
}

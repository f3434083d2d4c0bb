using Archive.Records;
using Markdig.Syntax;

namespace Archive.Site;

/// <summary>Makes record prose into markup.</summary>
/// <param name="record">Where mentioned records are found.</param>
/// <remarks>Each text stands on one page, as a rule, so nothing is kept.</remarks>
internal sealed class Prose(AsFound record)
{
    /// <summary>Prose as blocks: paragraphs, lists, tables.</summary>
    /// <param name="markdown">The text, or null.</param>
    /// <param name="place">The page it stands on.</param>
    /// <param name="below">Level of the heading it stands under.</param>
    /// <param name="prefix">Tells its anchors from those of other texts on the page.</param>
    public Markup Blocks(string? markdown, PagePlace place, int below = 2, string prefix = "about")
    {
        if (string.IsNullOrWhiteSpace(markdown)) return Markup.None;
        if (ProseText.IsWords(markdown)) return new Markup($"<p>{markdown}</p>");
        if (ProseText.Parse(markdown) is not { } document) return AsTyped(markdown);
        return Write(document, place, new ProseHeadings(document, below, prefix), markdown);
    }

    /// <summary>A story's text. A first heading that only repeats the title is left out: the page says it already.</summary>
    /// <param name="story">The story.</param>
    /// <param name="place">Its page.</param>
    public Markup Story(Story story, PagePlace place)
    {
        if (ProseText.Parse(story.Body.Value) is not { } document) return AsTyped(story.Body.Value);
        if (document.Count > 0 && document[0] is HeadingBlock heading && ProseText.Plain(heading) == Words.OneLine(story.Title)) document.RemoveAt(0);
        return Write(document, place, new ProseHeadings(document, 1, "story"), story.Body.Value);
    }

    /// <summary>Prose within a line: a caption, a note in a table. A single paragraph goes without its tags; anything else is shown as plain words.</summary>
    /// <param name="markdown">The text, or null.</param>
    /// <param name="place">The page it stands on.</param>
    public Markup Line(string? markdown, PagePlace place)
    {
        if (string.IsNullOrWhiteSpace(markdown)) return Markup.None;
        if (ProseText.IsWords(markdown)) return new Markup(markdown);
        if (ProseText.Parse(markdown) is not { Count: 1 } document || document[0] is not ParagraphBlock) return Markup.Of(ProseText.Plain(markdown));
        return Write(document, place, new ProseHeadings(document, 6, "line"), markdown, isInline: true);
    }

    private Markup Write(MarkdownDocument document, PagePlace place, ProseHeadings headings, string markdown, bool isInline = false)
    {
        using var writer = new StringWriter { NewLine = "\n" };
        try
        {
            var prose = new ProseWriter(writer, record, place, headings) { ImplicitParagraph = isInline };
            prose.Render(document);
            return new Markup(writer.ToString().TrimEnd('\n'));
        }
        catch (ArgumentException)
        {
            // The library's guard against deep nesting, while rendering.
            return AsTyped(markdown);
        }
    }

    private static Markup AsTyped(string markdown) => new($"<p class=\"as-typed\">{Escaping.Html(markdown)}</p>");
}

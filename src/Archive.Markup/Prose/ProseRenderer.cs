using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Wording;
using Markdig.Syntax;

namespace Archive.Markup.Prose;

/// <summary>Makes record prose into markup.</summary>
/// <param name="record">Where mentioned records are found.</param>
/// <remarks>Each text stands on one page, usually, so nothing is kept.</remarks>
public sealed class ProseRenderer(ArchiveModel record)
{
    /// <summary>Prose as blocks: paragraphs, lists, tables.</summary>
    /// <param name="markdown">The text, or null.</param>
    /// <param name="location">The page it stands on.</param>
    /// <param name="below">Level of the heading it stands under.</param>
    /// <param name="prefix">Tells its anchors from those of other texts on the page.</param>
    public HtmlFragment Blocks(string? markdown, PageLocation location, int below = 2, string prefix = "about")
    {
        if (string.IsNullOrWhiteSpace(markdown)) return HtmlFragment.None;
        if (MarkdownText.IsWords(markdown)) return new HtmlFragment($"<p>{markdown}</p>");
        if (MarkdownText.Parse(markdown) is not { } document) return AsTyped(markdown);
        return Write(document, location, new ProseHeadings(document, below, prefix), markdown);
    }

    /// <summary>A story's text. A first heading that only repeats the title is left out: the page says it already.</summary>
    public HtmlFragment Story(Story story, PageLocation location)
    {
        if (MarkdownText.Parse(story.Body.Value) is not { } document) return AsTyped(story.Body.Value);
        if (document.Count > 0 && document[0] is HeadingBlock heading && MarkdownText.Plain(heading) == Phrase.OneLine(story.Title))
            document.RemoveAt(0);
        return Write(document, location, new ProseHeadings(document, 1, "story"), story.Body.Value);
    }

    /// <summary>
    /// Prose within a line: a caption, a note in a table. A single paragraph goes without its tags; anything else is shown as plain words.
    /// </summary>
    /// <param name="markdown">The text, or null.</param>
    /// <param name="location">The page it stands on.</param>
    public HtmlFragment Line(string? markdown, PageLocation location)
    {
        if (string.IsNullOrWhiteSpace(markdown)) return HtmlFragment.None;
        if (MarkdownText.IsWords(markdown)) return new HtmlFragment(markdown);
        if (MarkdownText.Parse(markdown) is not { Count: 1 } document || document[0] is not ParagraphBlock)
            return HtmlFragment.Encode(MarkdownText.Plain(markdown));
        return Write(document, location, new ProseHeadings(document, 6, "line"), markdown, isInline: true);
    }

    private HtmlFragment Write(
        MarkdownDocument document, PageLocation location, ProseHeadings headings, string markdown, bool isInline = false)
    {
        using var writer = new StringWriter { NewLine = "\n" };
        try
        {
            var prose = new ProseWriter(writer, record, location, headings) { ImplicitParagraph = isInline };
            prose.Render(document);
            return new HtmlFragment(writer.ToString().TrimEnd('\n'));
        }
        catch (ArgumentException)
        {
            // The library's guard against deep nesting, while rendering.
            return AsTyped(markdown);
        }
    }

    private static HtmlFragment AsTyped(string markdown) => new($"<p class=\"as-typed\">{HtmlEscaping.Html(markdown)}</p>");
}

using System.Buffers;
using System.Text;
using Archive.Records.Wording;
using Markdig;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace Archive.Markup.Prose;

/// <summary>Record prose, parsed: Markdown with tables, bare web addresses and mentions of records.</summary>
/// <remarks>HTML is parsed, so that it can be reported, but it is only ever shown as the text it is.</remarks>
public static class MarkdownText
{
    // Letters and marks that mean nothing to Markdown or HTML within a line.
    private static readonly SearchValues<char> OfWords = SearchValues.Create(
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 ,.;()");

    /// <summary>How prose is parsed.</summary>
    public static MarkdownPipeline Pipeline { get; } = new MarkdownPipelineBuilder()
        .Use<RecordMentions>()
        .UsePipeTables()
        .UseAutoLinks()
        .UsePreciseSourceLocation()
        .Build();

    /// <summary>Parses prose.</summary>
    /// <returns>The document, or null where it is nested too deeply, or beyond <see cref="ProseLimits"/>.</returns>
    public static MarkdownDocument? Parse(string markdown)
    {
        if (ProseLimits.Exceeded(markdown) is not null) return null;
        try
        {
            return Markdown.Parse(markdown, Pipeline);
        }
        catch (ArgumentException)
        {
            // The library's guard against deep nesting.
            return null;
        }
    }

    /// <summary>
    /// Whether prose is nothing but words on one line, so that its only markup is the paragraph around them. Most notes are.
    /// </summary>
    public static bool IsWords(string markdown) =>
        markdown.Length > 0 && char.IsAsciiLetter(markdown[0]) && markdown[^1] != ' '
        && !markdown.AsSpan().ContainsAnyExcept(OfWords)
        && !markdown.Contains("  ", StringComparison.Ordinal)
        && !markdown.Contains("www.", StringComparison.OrdinalIgnoreCase);

    /// <summary>The words of prose without its marks, on one line.</summary>
    public static string Plain(string markdown)
    {
        return Parse(markdown) is { } document ? Plain(document) : Phrase.OneLine(markdown);
    }

    /// <summary>
    /// The words of a part of a document, on one line. Where a block does not end as a sentence does, a colon behind a heading or a
    /// semicolon keeps it from the next.
    /// </summary>
    /// <param name="part">A block, or a whole document.</param>
    public static string Plain(MarkdownObject part)
    {
        var words = new StringBuilder();
        // A leaf has no descendants of its own: its words hang in its inline.
        var items = part is LeafBlock { Inline: { } inline } ? inline.Descendants() : part.Descendants();
        var (begins, isHeading) = (-1, false);
        foreach (var item in items)
        {
            if (item is Block)
            {
                if (words.Length > begins) Part(words, isHeading);
                (begins, isHeading) = (words.Length, item is HeadingBlock);
            }

            switch (item)
            {
                case LiteralInline literal:
                    words.Append(literal.Content.AsSpan());
                    break;
                case CodeInline code:
                    words.Append(code.Content);
                    break;
                case HtmlInline html:
                    words.Append(html.Tag);
                    break;
                case HtmlEntityInline entity:
                    words.Append(entity.Transcoded.AsSpan());
                    break;
                case AutolinkInline link:
                    words.Append(link.Url);
                    break;
                case RecordMention mention:
                    words.Append(mention.Text ?? mention.Id);
                    break;
                case LineBreakInline:
                    words.Append(' ');
                    break;
                case LeafBlock { Inline: null } block:
                    words.Append(block.Lines.ToString());
                    break;
            }
        }

        return Phrase.OneLine(words.ToString());
    }

    /// <summary>A story's words without the title that they begin with.</summary>
    /// <param name="words">The words, by <see cref="Plain(string)"/>.</param>
    public static string Untitled(string words, string title) =>
        words.StartsWith(title + ": ", StringComparison.Ordinal) ? words[(title.Length + 2)..] : words;

    // Between what was written in one block and what is written in the next.
    private static void Part(StringBuilder words, bool isHeading)
    {
        var end = words.Length;
        while (end > 0 && char.IsWhiteSpace(words[end - 1])) end--;
        if (end > 0 && words[end - 1] is not ('.' or '!' or '?' or ':' or ';' or ',')) words.Append(isHeading ? ':' : ';');
        words.Append(' ');
    }
}

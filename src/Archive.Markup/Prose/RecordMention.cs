using Archive.Records.Terms;
using Archive.Records.Wording;
using Markdig;
using Markdig.Helpers;
using Markdig.Parsers;
using Markdig.Parsers.Inlines;
using Markdig.Renderers;
using Markdig.Syntax.Inlines;

namespace Archive.Markup.Prose;

/// <summary><c>[[ID]]</c> or <c>[[ID|text]]</c>: a record mentioned in prose.</summary>
/// <param name="id">The id as written.</param>
/// <param name="text">What is shown in its stead, or null.</param>
internal sealed class RecordMention(string id, string? text) : LeafInline
{
    /// <summary>The id as written.</summary>
    public string Id { get; } = id;

    /// <summary>What is shown instead of the record's own name.</summary>
    public string? Text { get; } = text;
}

/// <summary>
/// Finds mentions. It comes before the parser of links, so that it works in tables and emphasis; code is never looked into.
/// </summary>
internal sealed class RecordMentionParser : InlineParser
{
    public RecordMentionParser() => OpeningCharacters = ['['];

    public override bool Match(InlineProcessor processor, ref StringSlice slice)
    {
        if (slice.PeekChar() != '[') return false;
        var span = slice.AsSpan();
        var end = span.IndexOf("]]");
        if (end < 0) return false;
        var inside = span[2..end];
        if (inside.Contains('[')) return false;
        var bar = inside.IndexOf('|');
        var id = (bar < 0 ? inside : inside[..bar]).Trim().ToString();
        if (!RecordId.IsValid(id)) return false;
        var text = bar < 0 ? null : Phrase.OneLine(inside[(bar + 1)..].ToString());
        var start = processor.GetSourcePosition(slice.Start, out var line, out var column);
        processor.Inline = new RecordMention(id, string.IsNullOrEmpty(text) ? null : text)
        {
            Span = new Markdig.Syntax.SourceSpan(start, start + end + 1),
            Line = line,
            Column = column,
        };
        slice.Start += end + 2;
        return true;
    }
}

/// <summary>Puts the parser of mentions before that of links.</summary>
internal sealed class RecordMentions : IMarkdownExtension
{
    public void Setup(MarkdownPipelineBuilder pipeline) => pipeline.InlineParsers.InsertBefore<LinkInlineParser>(new RecordMentionParser());

    public void Setup(MarkdownPipeline pipeline, IMarkdownRenderer renderer)
    {
    }
}

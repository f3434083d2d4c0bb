using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Records.Reading.Syntax;

/// <summary>Syntax as written, before anyone asks what it means: the same for YAML, CSV rows and story heads.</summary>
internal abstract record SyntaxNode(SourceSpan Span)
{
    /// <summary>What it is, for a sentence: <c>a text</c>, <c>a list</c>, <c>a mapping</c>.</summary>
    public abstract string Noun { get; }
}

/// <summary>A single value.</summary>
/// <param name="Span">Where it stands: in YAML with its quotes, in CSV without.</param>
/// <param name="Form">How it is written.</param>
internal sealed record ScalarNode(SourceSpan Span, string Text, ScalarNotation Form) : SyntaxNode(Span)
{
    public override string Noun => IsEmpty ? "nothing" : "a single value";

    /// <summary>What it says, fit for a sentence: on one line, and cut short.</summary>
    public string Short => Quotation.Shorten(Text);

    /// <summary>Whether it stands without quotes and block marks, so that it may be a number or a truth value.</summary>
    public bool IsPlain => Form is ScalarNotation.Plain or ScalarNotation.Cell;

    /// <summary>Whether it says nothing: empty, blank, or one of YAML's words for nothing.</summary>
    public bool IsEmpty => string.IsNullOrWhiteSpace(Text) || (Form == ScalarNotation.Plain && Text is "~" or "null" or "Null" or "NULL");
}

/// <summary>How a single value is written.</summary>
internal enum ScalarNotation
{
    /// <summary>Without any mark.</summary>
    Plain,

    Quoted,

    /// <summary>As a block of lines.</summary>
    Block,

    /// <summary>As a cell of a table.</summary>
    Cell,
}

/// <summary>A list.</summary>
/// <param name="Items">Its items in order.</param>
internal sealed record ListNode(SourceSpan Span, ImmutableArray<SyntaxNode> Items) : SyntaxNode(Span)
{
    public override string Noun => "a list";
}

/// <summary>A mapping of keys to values; no key twice.</summary>
/// <param name="Entries">Its entries in order.</param>
internal sealed record MappingNode(SourceSpan Span, ImmutableArray<MappingEntry> Entries) : SyntaxNode(Span)
{
    public override string Noun => "a mapping";
}

/// <summary>What was refused and already reported; anyone who meets it says nothing more.</summary>
internal sealed record RejectedNode(SourceSpan Span) : SyntaxNode(Span)
{
    public override string Noun => "nothing that can be read";
}

/// <summary>A key and its value.</summary>
internal readonly record struct MappingEntry(ScalarNode Key, SyntaxNode Value);

using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Records.Reading.Syntax;

/// <summary>Syntax as written, before anyone asks what it means: the same for YAML, CSV rows and story heads.</summary>
internal abstract record SyntaxNode(SourceSpan Span)
{
    /// <summary>What it is, for a sentence: <c>a text</c>, <c>a list</c>, <c>a mapping</c>.</summary>
    public abstract string Noun { get; }
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

/// <summary>What was refused and already reported; anyone who meets it says nothing more.</summary>
internal sealed record RejectedNode(SourceSpan Span) : SyntaxNode(Span)
{
    public override string Noun => "nothing that can be read";
}

/// <summary>A key and its value.</summary>
internal readonly record struct MappingEntry(ScalarNode Key, SyntaxNode Value);

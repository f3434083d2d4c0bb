using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Records.Reading.Syntax;

/// <summary>A mapping of keys to values; no key twice.</summary>
/// <param name="Entries">Its entries in order.</param>
internal sealed record MappingNode(SourceSpan Span, ImmutableArray<MappingEntry> Entries) : SyntaxNode(Span)
{
    public override string Noun => "a mapping";
}

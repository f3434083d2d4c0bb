using Archive.Diagnostics;

namespace Archive.Records.Reading.Syntax;

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

using System.Collections.Immutable;
using Archive.Diagnostics.Collecting;

namespace Archive.Diagnostics.Rendering;

/// <summary>
/// A diagnostic as it is reported: places by line and column, lines quoted. Holds no source text, so it can be kept and reported again.
/// </summary>
/// <param name="Severity">How much it matters.</param>
/// <param name="Place">Where it lies.</param>
/// <param name="Help">What to do.</param>
/// <param name="Related">The other halves.</param>
public sealed record RenderedDiagnostic(
    string Code, Severity Severity, SourceLocation Place, string Message, string Help, ImmutableArray<RenderedRelated> Related)
{
    /// <summary>Tells diagnostics in their one order, each once.</summary>
    /// <param name="diagnostics">What was found, in any order.</param>
    /// <param name="prefix">What stands before each path, such as <c>content/</c>; empty for none.</param>
    public static ImmutableArray<RenderedDiagnostic> FromAll(IEnumerable<Diagnostic> diagnostics, string prefix) =>
        FromAll(diagnostics, _ => prefix);

    /// <summary>Tells diagnostics in their one order, each once.</summary>
    /// <param name="diagnostics">What was found, in any order.</param>
    /// <param name="prefix">What stands before the paths of each, such as <c>content/</c>; empty for none.</param>
    public static ImmutableArray<RenderedDiagnostic> FromAll(IEnumerable<Diagnostic> diagnostics, Func<Diagnostic, string> prefix) =>
        [.. DiagnosticList.Collect(diagnostics.Order(Diagnostic.Order))
            .Select(diagnostic => From(diagnostic, prefix(diagnostic)))
            .Distinct(SameDiagnostic.Comparer)];

    /// <summary>Tells one diagnostic.</summary>
    /// <param name="diagnostic">What was found.</param>
    /// <param name="prefix">What stands before each path, such as <c>content/</c>; empty for none.</param>
    public static RenderedDiagnostic From(Diagnostic diagnostic, string prefix) => new(
        diagnostic.Code,
        diagnostic.Severity,
        SourceLocation.From(diagnostic.Span, prefix),
        diagnostic.Message,
        diagnostic.Help,
        [.. diagnostic.Related.Select(other => new RenderedRelated(SourceLocation.From(other.Span, prefix), other.Says))]);

    /// <summary>The same with something before each of its paths.</summary>
    /// <param name="prefix">Such as <c>content/</c>; empty for none.</param>
    public RenderedDiagnostic Below(string prefix) =>
        this with { Place = Place.Below(prefix), Related = [.. Related.Select(other => other with { Place = other.Place.Below(prefix) })] };

    // The same error at the same place is reported once, whichever check found it.
    private sealed class SameDiagnostic : IEqualityComparer<RenderedDiagnostic>
    {
        internal static readonly SameDiagnostic Comparer = new();

        public bool Equals(RenderedDiagnostic? x, RenderedDiagnostic? y) =>
            x is not null && y is not null && x.Code == y.Code && x.Place == y.Place && x.Message == y.Message;

        public int GetHashCode(RenderedDiagnostic obj) => HashCode.Combine(obj.Code, obj.Place, obj.Message);
    }
}

/// <summary>Another place that is reported.</summary>
/// <param name="Says">What is to be seen there.</param>
public sealed record RenderedRelated(SourceLocation Place, string Says);

/// <summary>A stretch of a file as people count: lines and columns from 1, columns in UTF-16 units.</summary>
/// <param name="File">Path with its prefix, separated by <c>/</c>.</param>
/// <param name="Line">First line.</param>
/// <param name="Column">Column of the first character.</param>
/// <param name="EndLine">Last line.</param>
/// <param name="EndColumn">Column behind the last character.</param>
/// <param name="Quote">The line itself; null where the file has no text to quote.</param>
public sealed record SourceLocation(string File, int Line, int Column, int EndLine, int EndColumn, SourceQuote? Quote)
{
    /// <summary>A span as people count.</summary>
    /// <param name="prefix">What stands before its path.</param>
    public static SourceLocation From(SourceSpan span, string prefix)
    {
        var from = span.From;
        var to = span.Source.PositionOf(Math.Max(span.Start, span.End));
        return new SourceLocation(prefix + span.Path, from.Line + 1, from.Column + 1, to.Line + 1, to.Column + 1, SourceQuote.Around(span));
    }

    /// <summary>The same place with something before its path.</summary>
    /// <param name="prefix">Such as <c>content/</c>; empty for none.</param>
    public SourceLocation Below(string prefix) => prefix.Length == 0 ? this : this with { File = prefix + File };

    /// <summary><c>file:line:column</c>, or the file alone where it has no text.</summary>
    public override string ToString() => Quote is null ? File : FormattableString.Invariant($"{File}:{Line}:{Column}");
}

/// <summary>A line of a file around a span; a very long line is quoted in part.</summary>
/// <param name="Text">The quoted part, without a line end.</param>
/// <param name="From">Column of its first character in the line, from 0, in UTF-16 units.</param>
/// <param name="IsWhole">Whether it reaches to the end of the line.</param>
public sealed record SourceQuote(string Text, int From, bool IsWhole)
{
    // Enough for the widest terminal on both sides of the span.
    private const int Reach = 300;

    internal static SourceQuote? Around(SourceSpan span)
    {
        var text = span.Source.Text;
        if (text.Length == 0) return null;
        var at = Math.Clamp(span.Start, 0, text.Length);
        var column = span.Source.PositionOf(at).Column;
        var start = at - Math.Min(column, Reach);
        if (start > 0 && column > Reach && char.IsLowSurrogate(text[start])) start--;
        var rest = text.AsSpan(at, Math.Min(text.Length - at, 2 * Reach));
        var lineEnd = rest.IndexOfAny('\r', '\n');
        var isWhole = lineEnd >= 0 || at + rest.Length == text.Length;
        var end = at + (lineEnd >= 0 ? lineEnd : rest.Length);
        if (!isWhole && char.IsHighSurrogate(text[end - 1])) end--;
        return new SourceQuote(text[start..end], column - (at - start), isWhole);
    }
}

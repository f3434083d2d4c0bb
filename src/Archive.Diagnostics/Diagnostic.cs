using System.Collections.Immutable;

namespace Archive.Diagnostics;

/// <summary>An error that happened: what, where, and what to do.</summary>
/// <param name="Span">The smallest span that is wrong.</param>
/// <param name="Message">What is wrong, in one sentence: lower case, no full stop.</param>
/// <param name="Help">What to do, in one sentence.</param>
/// <param name="Related">The other halves: where it was first said, what it contradicts.</param>
public sealed record Diagnostic(
    DiagnosticDescriptor Descriptor, SourceSpan Span, string Message, string Help, ImmutableArray<Related> Related)
{
    /// <summary>The code of its kind.</summary>
    public string Code => Descriptor.Code;

    /// <summary>The severity of its kind.</summary>
    public Severity Severity => Descriptor.Severity;

    /// <summary>The one order of all output: path, offset, severity, code, message; all ordinal.</summary>
    public static IComparer<Diagnostic> Order { get; } = Comparer<Diagnostic>.Create(static (a, b) =>
    {
        var by = string.CompareOrdinal(a.Span.Path, b.Span.Path);
        if (by == 0) by = a.Span.Start.CompareTo(b.Span.Start);
        if (by == 0) by = a.Severity.CompareTo(b.Severity);
        if (by == 0) by = string.CompareOrdinal(a.Code, b.Code);
        return by != 0 ? by : string.CompareOrdinal(a.Message, b.Message);
    });

    public override string ToString() => $"{Span}: {Severity} {Code}: {Message}";
}

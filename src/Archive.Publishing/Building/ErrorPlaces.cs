using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;

namespace Archive.Publishing.Building;

/// <summary>
/// Where errors are in the record. A photo or document with an error in its own lines is never published, even with
/// <c>--with-errors</c>: the key that could not be read may be the one that hides something.
/// </summary>
public sealed class ErrorPlaces
{
    // In order; null for a file of which some errors are left out, so that any of its records may hold one.
    private readonly Dictionary<SourceText, int[]?> _errors;

    /// <param name="found">What is wrong with the record.</param>
    public ErrorPlaces(ImmutableArray<Diagnostic> found) =>
        _errors = found.Where(diagnostic => diagnostic.Severity == Severity.Error).GroupBy(diagnostic => diagnostic.Span.Source)
            .ToDictionary(file => file.Key, file => file.Any(DiagnosticList.IsLimit)
                ? null
                : file.Select(diagnostic => diagnostic.Span.Start).Order().ToArray());

    /// <summary>Whether an error stands, or may stand, within a span.</summary>
    public bool IsIn(SourceSpan span)
    {
        if (!_errors.TryGetValue(span.Source, out var errors)) return false;
        if (errors is null) return true;
        var first = Array.BinarySearch(errors, span.Start);
        if (first < 0) first = ~first;
        return first < errors.Length && errors[first] <= span.End;
    }
}

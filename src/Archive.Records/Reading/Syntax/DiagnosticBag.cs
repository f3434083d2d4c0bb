using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Records.Model;

namespace Archive.Records.Reading.Syntax;

/// <summary>What was reported about a file while it was read, up to the limit of <see cref="DiagnosticList"/>.</summary>
internal sealed class DiagnosticBag
{
    private readonly DiagnosticList _diagnostics = new();
    private string? _path;

    /// <summary>How many were reported.</summary>
    public int Count => _diagnostics.Count;

    /// <summary>The kinds of records that have no id that can be used, one entry a record.</summary>
    public List<RecordKind> Unnamed { get; } = [];

    /// <summary>Whether no more errors are taken.</summary>
    public bool IsFull => _path is not null && _diagnostics.IsFull(_path);

    /// <summary>All that was reported, in order.</summary>
    public ImmutableArray<Diagnostic> All => _diagnostics.All;

    /// <summary>Tells one more.</summary>
    /// <param name="diagnostic">What was wrong.</param>
    public void Add(Diagnostic diagnostic)
    {
        _path = diagnostic.Span.Path;
        _diagnostics.Add(diagnostic);
    }
}

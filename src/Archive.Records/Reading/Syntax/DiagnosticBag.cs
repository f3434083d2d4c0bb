using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Records.Model;

namespace Archive.Records.Reading.Syntax;

/// <summary>What was reported about a file while it was read, up to the limit of <see cref="DiagnosticList"/>.</summary>
internal sealed class DiagnosticBag
{
    private readonly DiagnosticList _diagnostics = new();
    private readonly Stack<List<string>> _lists = new();
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

    /// <summary>An empty list of keys: each mapping of a file needs one for the while that it is read.</summary>
    public List<string> LendList() => _lists.TryPop(out var list) ? list : new List<string>(32);

    /// <summary>Takes a list back.</summary>
    /// <param name="list">A list that was lent, and is no longer used.</param>
    public void TakeBack(List<string> list)
    {
        list.Clear();
        _lists.Push(list);
    }
}

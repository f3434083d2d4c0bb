using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>What was told of a file while it was read, up to a limit: a file made of faults must not fill the memory.</summary>
internal sealed class Told
{
    private const int Most = 10_000;

    private readonly ImmutableArray<Diagnostic>.Builder _diagnostics = ImmutableArray.CreateBuilder<Diagnostic>();
    private readonly Stack<List<string>> _lists = new();

    /// <summary>How many were told.</summary>
    public int Count => _diagnostics.Count;

    /// <summary>The kinds of records that have no id that can be used, one entry a record.</summary>
    public List<RecordKind> Unnamed { get; } = [];

    /// <summary>Whether nothing more is taken.</summary>
    public bool IsFull => Count > Most;

    /// <summary>All that was told, in order.</summary>
    public ImmutableArray<Diagnostic> All => _diagnostics.ToImmutable();

    /// <summary>Tells one more.</summary>
    /// <param name="diagnostic">What was wrong.</param>
    public void Add(Diagnostic diagnostic)
    {
        if (IsFull) return;
        _diagnostics.Add(Count < Most
            ? diagnostic
            : Faults.TooManyFaults.At(diagnostic.Span, $"this file has more than {Most} faults; those from here on are not told", "mend the first ones, and look again"));
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

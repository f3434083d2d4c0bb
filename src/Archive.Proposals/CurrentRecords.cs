using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Facts;
using Archive.Records.Model;

namespace Archive.Proposals;

/// <summary>What the record says now, with look-ups by id.</summary>
public sealed class CurrentRecords
{
    private readonly FrozenDictionary<string, RawRecord> _records;
    private readonly FrozenDictionary<string, string> _former;

    /// <summary>Looks records up.</summary>
    /// <param name="records">All records, as <see cref="RawRecord.All"/> gives them.</param>
    public CurrentRecords(IEnumerable<RawRecord> records)
    {
        _records = records.DistinctBy(record => record.Id, StringComparer.Ordinal)
            .ToFrozenDictionary(record => record.Id, StringComparer.Ordinal);
        _former = _records.Values
            .SelectMany(record => (record.Fact("was")?.Text ?? "").Split(", ", StringSplitOptions.RemoveEmptyEntries)
                .Select(was => (Was: was, record.Id)))
            .DistinctBy(pair => pair.Was, StringComparer.Ordinal)
            .ToFrozenDictionary(pair => pair.Was, pair => pair.Id, StringComparer.Ordinal);
    }

    /// <summary>Reads an archive.</summary>
    /// <returns>Its records, and files that cannot be read in part or at all, by their first error.</returns>
    public static (CurrentRecords Records, ImmutableArray<Diagnostic> Unread) Read(
        IArchiveFolder folder, CancellationToken cancellation = default)
    {
        var (records, unread) = RawRecord.All(folder, cancellation);
        return (new CurrentRecords(records), unread);
    }

    /// <summary>A record by its id, or by one it had before; null if there is none.</summary>
    public RawRecord? Find(string id) =>
        _records.GetValueOrDefault(id) ?? (_former.GetValueOrDefault(id) is { } now ? _records.GetValueOrDefault(now) : null);
}

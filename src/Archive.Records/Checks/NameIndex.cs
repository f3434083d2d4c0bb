using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>Finds the known id that an unknown one was probably meant to be.</summary>
/// <remarks>
/// Ids are grouped by kind and length, so that only those are compared that can be near enough. A record with very many dangling
/// references (a lost file, a renamed row) has one cause: when <see cref="Budget"/> is spent, only a difference of letter case is still
/// found.
/// </remarks>
internal sealed class NameIndex
{
    /// <summary>Letter pairs that are compared at most for one record: some tenths of a second of one core.</summary>
    public const long Budget = 100_000_000;

    private readonly Dictionary<RecordKind, SortedDictionary<int, List<string>>> _byLength = [];
    private readonly Dictionary<string, string> _ignoringCase = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<(string Name, ImmutableArray<RecordKind> Kinds), ArchiveRecord?> _answered = [];
    private readonly ArchiveModel _record;
    private long _left = Budget;

    public NameIndex(ArchiveModel record)
    {
        _record = record;
        foreach (var (id, known) in record.ById)
        {
            if (known.IsWithdrawn) continue;
            _ignoringCase.TryAdd(id, id);
            if (!_byLength.TryGetValue(known.RecordKind, out var lengths)) _byLength[known.RecordKind] = lengths = [];
            if (!lengths.TryGetValue(id.Length, out var ids)) lengths[id.Length] = ids = [];
            ids.Add(id);
        }
    }

    /// <summary>The nearest standing record of the wanted kinds, or failing that of any kind; null where none is near.</summary>
    /// <param name="name">An unknown id.</param>
    /// <param name="kinds">The wanted kinds; one of the arrays of <see cref="ReferenceRole"/>, compared by reference.</param>
    public ArchiveRecord? Nearest(string name, ImmutableArray<RecordKind> kinds)
    {
        if (_answered.TryGetValue((name, kinds), out var answer)) return answer;
        var id = DifferingByCase(name, kinds) ?? NearestOf(name, kinds) ?? NearestOf(name, ReferenceRole.AnyKind);
        return _answered[(name, kinds)] = id is null ? null : _record.ById[id];
    }

    private string? DifferingByCase(string name, ImmutableArray<RecordKind> kinds) =>
        _ignoringCase.TryGetValue(name, out var id) && kinds.Contains(_record.ById[id].RecordKind) ? id : null;

    private string? NearestOf(string name, ImmutableArray<RecordKind> kinds)
    {
        var near = kinds.Where(_byLength.ContainsKey).SelectMany(kind => _byLength[kind])
            .Where(ids => Math.Abs(ids.Key - name.Length) <= Math.Max(ids.Key, name.Length) / 3).ToList();
        var cost = near.Sum(ids => (long)ids.Value.Count * ids.Key * name.Length);
        if (cost > _left) return null;
        _left -= cost;
        return NearestName.Find(name, near.SelectMany(ids => ids.Value));
    }
}

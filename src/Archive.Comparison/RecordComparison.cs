using System.Collections.Immutable;
using Archive.Records.Facts;
using Archive.Records.Model;

namespace Archive.Comparison;

/// <summary>What became of a record.</summary>
public enum ChangeKind
{
    /// <summary>It is new.</summary>
    Added,

    /// <summary>It says something else.</summary>
    Changed,

    /// <summary>It was withdrawn, with a reason.</summary>
    Withdrawn,

    /// <summary>It is no more, and nothing says why.</summary>
    Gone,
}

/// <summary>Who wrote something, and when.</summary>
/// <param name="Who">Their name, as git has it.</param>
/// <param name="When">The day, as 2026-05-14.</param>
/// <param name="Commit">The commit's full name; empty for what is not committed yet.</param>
/// <param name="Says">The commit's first line.</param>
public sealed record Authorship(string Who, string When, string Commit, string Says);

/// <summary>A fact that differs.</summary>
/// <param name="Before">What was said; null where nothing was.</param>
/// <param name="After">What is said now; null where nothing is.</param>
public sealed record FactChange(string Name, RawFact? Before, RawFact? After)
{
    /// <summary>Who wrote it, and when; null where that is not known.</summary>
    public Authorship? By { get; init; }
}

/// <summary>A record that differs.</summary>
/// <param name="What">What became of it.</param>
/// <param name="Kind">Its kind; null for what is said of the archive.</param>
/// <param name="Id">Its id; the new one where it has another now.</param>
/// <param name="Was">Its id before, where that was another; else null.</param>
/// <param name="Facts">What differs, by name.</param>
public sealed record RecordChange(ChangeKind What, RecordKind? Kind, string Id, string? Was, ImmutableArray<FactChange> Facts)
{
    /// <summary>Where it stood; null for a new one.</summary>
    public RawRecord? Before { get; init; }

    /// <summary>Where it stands; null for one that is gone.</summary>
    public RawRecord? After { get; init; }

    /// <summary>What a record of its kind is called.</summary>
    public string Noun => Kind?.Noun() ?? "archive";
}

/// <summary>
/// Two states of a record compared with each other, fact by fact. Where a thing is written, in which file, order and style, does not
/// matter.
/// </summary>
public static class RecordComparison
{
    /// <param name="before">The earlier state.</param>
    /// <param name="after">The later state.</param>
    /// <returns>Changes by kind, then by id.</returns>
    public static ImmutableArray<RecordChange> Compare(ImmutableArray<RawRecord> before, ImmutableArray<RawRecord> after)
    {
        var old = before.ToDictionary(record => record.Id, StringComparer.Ordinal);
        var now = after.Select(record => record.Id).ToHashSet(StringComparer.Ordinal);
        var changes = new List<RecordChange>();
        var met = new HashSet<string>(StringComparer.Ordinal);
        foreach (var record in after)
        {
            // A record that was renamed says so itself.
            var was = old.ContainsKey(record.Id)
                ? record.Id
                : FormerIds(record).FirstOrDefault(id => old.ContainsKey(id) && !now.Contains(id));
            if (was is not null) met.Add(was);
            if (Difference(was is null ? null : old[was], record) is { } change) changes.Add(change);
        }

        changes.AddRange(before.Where(record => !met.Contains(record.Id)).Select(record =>
            new RecordChange(ChangeKind.Gone, record.Kind, record.Id, null, [
                .. record.Facts.Select(fact => new FactChange(fact.Name, fact, null))
            ])
            { Before = record }));
        return [.. changes.OrderBy(change => change.Kind is { } kind ? (int)kind : -1).ThenBy(change => change.Id, StringComparer.Ordinal)];
    }

    private static string[] FormerIds(RawRecord record) => record.Fact("was")?.Text.Split(", ") ?? [];

    private static RecordChange? Difference(RawRecord? before, RawRecord after)
    {
        var old = (before?.Facts ?? []).ToLookup(fact => fact.Name, StringComparer.Ordinal);
        var now = after.Facts.ToLookup(fact => fact.Name, StringComparer.Ordinal);
        ImmutableArray<FactChange> facts =
        [
            .. old.Select(group => group.Key).Union(now.Select(group => group.Key)).Order(StringComparer.Ordinal)
                .Select(name => new FactChange(name, First(old[name]), First(now[name])))
                .Where(change => !(change is { Before: { } said, After: { } says }
                    && FactComparison.AreEqual(after.Kind, change.Name, said.Text, says.Text))),
        ];
        var isRenamed = before is not null && before.Id != after.Id;
        if (before is not null && facts.IsEmpty && !isRenamed) return null;
        var what = after.Fact("withdrawn") is not null && before?.Fact("withdrawn") is null
            ? ChangeKind.Withdrawn
            : before is null
            ? ChangeKind.Added
            : ChangeKind.Changed;
        return new RecordChange(what, after.Kind, after.Id, isRenamed ? before!.Id : null, facts) { Before = before, After = after };
    }

    private static RawFact? First(IEnumerable<RawFact> facts) => facts.Cast<RawFact?>().FirstOrDefault();
}

using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Editing;
using Archive.Records.Facts;
using Archive.Records.Model;

namespace Archive.Intake.Spreadsheets;

/// <summary>
/// Says which event a row is that has no id. The same thing on the same day is the event that is recorded; another is new and takes the
/// next id. One that was rejected keeps the id under which it was.
/// </summary>
internal sealed class EventRows
{
    /// <summary>What a row is known by: when, what, and of what.</summary>
    internal static readonly FrozenSet<string> Keys = new[] { "on", "what", "of" }.ToFrozenSet(StringComparer.Ordinal);

    private readonly Dictionary<(string Day, string What), List<KnownEvent>> _byDay = [];
    private readonly NewIds _ids;

    internal EventRows(ImmutableArray<RawRecord> records, ILookup<string, RejectedFact> rejected)
    {
        foreach (var record in records.Where(record => record.Kind == RecordKind.Event))
        {
            if (record.Fact("on") is { } on && record.Fact("what") is { } what)
                Add(new KnownEvent(record.Id, on.Text, what.Text, [.. Items(record.Fact("of")?.Text)], record, IsNew: false));
        }

        var ids = records.Select(record => record.Id).ToHashSet(StringComparer.OrdinalIgnoreCase);
        foreach (var facts in rejected.Where(facts => !ids.Contains(facts.Key)))
        {
            if (Of("on") is { } on && Of("what") is { } what && Of("of") is { } of)
                Add(new KnownEvent(facts.Key, on, what, [.. Items(of)], null, IsNew: true));

            string? Of(string key) => facts.LastOrDefault(fact => fact.Key == key)?.Value;
        }

        _ids = new NewIds("E-", ids.Concat(rejected.Select(facts => facts.Key)));
    }

    /// <summary>The id of the event that a row is.</summary>
    internal string IdOf(List<CellFact> facts)
    {
        var (on, what) = (Text("on"), Text("what"));
        var of = Items(Text("of")).ToImmutableArray();
        var alike = (_byDay.GetValueOrDefault((Day(on), what)) ?? [])
            .Where(known => RecordedFacts.IsSame(RecordKind.Event, "on", on, known.On) && of.All(known.Of.Contains)).ToList();

        // One that says all of it; else one that more can be said of. Two rows may be two events of one thing on one day.
        var found = alike.FirstOrDefault(known => facts.All(fact => fact.Key == "of" || known.Says(fact)))
            ?? alike.FirstOrDefault(known => !known.IsNew && (known.Of.Count > of.Length || !known.IsTaken));
        if (found is null)
        {
            found = new KnownEvent(_ids.Next(), on, what, [.. of], null, IsNew: true);
            Add(found);
        }

        found.IsTaken = true;
        if (found.IsNew) found.Facts ??= [.. facts];

        // The record says it of more things together.
        if (!found.IsNew && found.Of.Count >= of.Length) facts.RemoveAll(fact => fact.Key == "of" && found.Of.Count > of.Length);
        return found.Id;

        string Text(string key) => facts.FirstOrDefault(fact => fact.Key == key)?.Value.Value.Text ?? "";
    }

    private void Add(KnownEvent known)
    {
        var key = (Day(known.On), known.What);
        if (!_byDay.TryGetValue(key, out var all)) _byDay.Add(key, all = []);
        all.Add(known);
    }

    private static string Day(string on) => on.Length > 10 ? on[..10] : on;

    private static string[] Items(string? text) => (text ?? "").Split(", ", StringSplitOptions.RemoveEmptyEntries);

    private sealed record KnownEvent(string Id, string On, string What, HashSet<string> Of, RawRecord? Record, bool IsNew)
    {
        internal bool IsTaken { get; set; }

        // Of a new one: what its row says; null before any row was it.
        internal List<CellFact>? Facts { get; set; }

        internal bool Says(CellFact fact) => Record is not null
            ? RecordedFacts.Says(Record, RecordKind.Event, fact.Key, fact.Value.Value)
            : Facts is null || Facts.Any(known => known.Key == fact.Key && known.Value.Value.Text == fact.Value.Value.Text);
    }
}

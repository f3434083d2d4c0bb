using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Wiring.Labels;

namespace Archive.Intake.Spreadsheets;

/// <summary>The ids and people of the record, and the places that texts mean.</summary>
internal sealed class KnownRecords
{
    private const int MostNear = 5000;
    private const string People = "people.";

    private readonly Dictionary<string, RecordKind> _kinds = new(StringComparer.Ordinal);

    // However people write upper and lower case, which tell no ids apart.
    private readonly Dictionary<string, string> _ids = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, string> _people = new(StringComparer.OrdinalIgnoreCase);
    private readonly HashSet<string> _frames = new(StringComparer.Ordinal);
    private readonly ImmutableArray<CompiledScheme> _schemes;

    internal KnownRecords(ImmutableArray<RawRecord> records, IEnumerable<LabelScheme> schemes)
    {
        foreach (var record in records)
        {
            if (record.Kind is not { } kind)
            {
                AddPeople(record);
                continue;
            }

            Add(record.Id, kind);
            if (kind != RecordKind.Frame) continue;
            foreach (var was in (record.Fact("was")?.Text ?? "").Split(", ", StringSplitOptions.RemoveEmptyEntries))
                _frames.Add(LeadingZeros.Strip(was));
        }

        _schemes =
        [
            .. schemes.Where(scheme => !scheme.IsWithdrawn && scheme.On is { Value: SchemeSubject.End })
                .Take(CompiledScheme.MostSchemes).Select(CompiledScheme.Compile),
        ];
    }

    /// <summary>Whether archive.yaml lists people: then nobody else is named.</summary>
    internal bool ListsPeople => _people.Count > 0;

    internal void Add(string id, RecordKind kind)
    {
        _kinds.TryAdd(id, kind);
        _ids.TryAdd(id, id);
        if (kind == RecordKind.Frame) _frames.Add(LeadingZeros.Strip(id));
    }

    private void AddPeople(RawRecord statement)
    {
        var names = new List<(string Name, string Key)>();
        foreach (var fact in statement.Facts.Where(fact => fact.Name.StartsWith(People, StringComparison.Ordinal)))
        {
            var key = fact.Name[People.Length..];
            if (key.IndexOf('.', StringComparison.Ordinal) is >= 0 and var dot) key = key[..dot];
            _people.TryAdd(key, key);
            if (fact.Name == $"{People}{key}.name" || fact.Name == People + key) names.Add((fact.Text, key));
        }

        foreach (var (name, key) in names) _people.TryAdd(name, key);

        // A first name that is one person's.
        var byFirst = names.ToLookup(name => name.Name.Split(' ')[0], StringComparer.OrdinalIgnoreCase);
        foreach (var first in byFirst.Where(first => first.Count() == 1))
            _people.TryAdd(first.Key, first.First().Key);
    }

    /// <summary>The key of someone, by key or name; null for nobody of the list.</summary>
    internal string? Person(string text) => _people.GetValueOrDefault(text);

    /// <summary>The id of a record of one of these kinds, however upper and lower case are written; null for none.</summary>
    internal string? Id(string text, ImmutableArray<RecordKind> kinds) =>
        KindOf(text) is { } kind && kinds.Contains(kind) ? text
        : _ids.GetValueOrDefault(text) is { } id && kinds.Contains(_kinds[id]) ? id
        : null;

    /// <summary>The known id that is most like an unknown one; null for none, or where there are too many to look at.</summary>
    internal string? Near(string text, ImmutableArray<RecordKind> kinds) =>
        _kinds.Count > MostNear ? null : NearestName.Find(text, _kinds.Where(pair => kinds.Contains(pair.Value)).Select(pair => pair.Key));

    /// <summary>The kind of the record of an id; null for none.</summary>
    internal RecordKind? KindOf(string id) => _kinds.TryGetValue(id, out var kind) ? kind : null;

    /// <summary>Whether a text is an address on a frame of the record.</summary>
    internal bool IsPlace(string text) => Address.TryParse(text, out var address) && Has(address);

    /// <summary>The place that a text means: by a rule, as it is written, or by a scheme for ends.</summary>
    /// <returns>Null for none on a frame of the record.</returns>
    internal string? Place(string text, ImmutableArray<CompiledScheme> rules)
    {
        var read = Meaning(text, rules);
        if (read is null && IsPlace(text)) return text;
        read ??= Meaning(text, _schemes);
        return read is { } address && Has(address) ? address.ToString() : null;
    }

    /// <summary>What the first rule that reads a text makes of it.</summary>
    internal static Address? Meaning(string text, ImmutableArray<CompiledScheme> rules)
    {
        foreach (var rule in rules)
        {
            if (rule.Read(text, out _) is { Means: [var first, ..] }) return first;
        }

        return null;
    }

    private bool Has(Address address) => _frames.Contains(LeadingZeros.Strip(address.Frame));
}

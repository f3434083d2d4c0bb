using System.Collections.Immutable;
using System.Globalization;
using Archive.Diagnostics;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading.Syntax;

namespace Archive.Records.Editing;

/// <summary>What a file must say after edits: what it said before, and the new facts.</summary>
internal sealed class ExpectedRecords
{
    private readonly RecordKind? _kind;
    private readonly List<(string Id, SortedDictionary<string, string> Facts)> _records = [];
    private readonly Dictionary<string, SortedDictionary<string, string>> _byId = new(StringComparer.Ordinal);

    public ExpectedRecords(RecordKind? kind, IEnumerable<MappingNode> nodes)
    {
        _kind = kind;
        foreach (var node in nodes)
        {
            var record = RawRecord.From(kind, YamlEditor.IdOf(kind, node), node);
            Put(record.Id, record.Facts.Select(fact => (fact.Name, fact.Text)));
        }
    }

    public void Change(string id, FactToWrite fact)
    {
        var facts = _byId[id];
        var evidence = (fact.Evidence ?? new FactEvidence()).Entries.Select(entry => ($"{fact.Key}.{entry.Key}", entry.Value.Trim()));
        var isSame = facts.GetValueOrDefault(fact.Key) == fact.Value.Text;
        if (!isSame)
        {
            var within = fact.Key + ".";
            foreach (var name in facts.Keys.Where(name => name == fact.Key || name.StartsWith(within, StringComparison.Ordinal)).ToList())
                facts.Remove(name);
            foreach (var (name, text) in Flat(fact.Key, fact.Value)) facts[name] = text;
        }

        foreach (var (name, text) in evidence) facts[name] = text;
    }

    public void Add(RecordEdit edit)
    {
        Put(edit.Id, []);
        foreach (var fact in edit.Facts) Change(edit.Id, fact);
    }

    /// <summary>Whether a text says just this.</summary>
    public bool AreIn(SourceText source)
    {
        var diagnostics = new DiagnosticBag();
        var found = YamlEditor.Read(source, diagnostics)
            .Select(node => RawRecord.From(_kind, YamlEditor.IdOf(_kind, node), node)).ToList();
        return diagnostics.All.All(diagnostic => diagnostic.Severity != Severity.Error)
            && found.Count == _records.Count
            && found.Zip(_records).All(pair => pair.First.Id == pair.Second.Id
                && pair.First.Facts.Select(fact => (fact.Name, fact.Text))
                    .OrderBy(fact => fact.Name, StringComparer.Ordinal)
                    .SequenceEqual(pair.Second.Facts.Select(fact => (fact.Key, fact.Value))));
    }

    private void Put(string id, IEnumerable<(string Name, string Text)> facts)
    {
        var sorted = new SortedDictionary<string, string>(StringComparer.Ordinal);
        foreach (var (name, text) in facts) sorted[name] = text;
        _records.Add((id, sorted));
        _byId.TryAdd(id, sorted);
    }

    // As RawRecord takes values apart.
    private static IEnumerable<(string Name, string Text)> Flat(string name, FactValue value) => value switch
    {
        SingleFact text => text.Text.Length == 0 ? [] : [(name, text.Text)],
        FactList { IsPlain: true } list => [(name, list.Text)],
        FactList list => list.Items.SelectMany((item, i) =>
            Flat($"{name}.{IdOf(item) ?? (i + 1).ToString(CultureInfo.InvariantCulture)}", item)),
        FactMapping mapping => mapping.Entries.Where(entry => entry.Key != "id")
            .SelectMany(entry => Flat(entry.Key == "is" ? name : $"{name}.{entry.Key}", entry.Value)),
        _ => [],
    };

    private static string? IdOf(FactValue item) => item is FactMapping mapping
        && mapping.Entries.FirstOrDefault(entry => entry.Key == "id").Value is SingleFact id ? id.Text : null;
}

using System.Text.Json;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Data.Tables;

/// <summary>
/// What data files say of each subject of a sort, in order: written once, and from it the JSON, the CSV and their description.
/// </summary>
/// <typeparam name="T">The subject.</typeparam>
public sealed class DataShape<T>
{
    private const string EvidenceKey = "evidence";
    private readonly List<DataField<T>> _fields = [];
    private bool _hasFacts;

    /// <summary>All keys of the JSON, in order.</summary>
    public IEnumerable<DataColumn> Keys => _hasFacts
        ? _fields
            .SelectMany(each => each.Keys)
            .Append(new DataColumn(EvidenceKey, "object", "how plain facts are known, by key; each with `from`, `by`, `on` and `note`"))
        : _fields.SelectMany(each => each.Keys);

    /// <summary>All columns of the CSV, in order.</summary>
    public IEnumerable<DataColumn> Columns => _fields.SelectMany(each => each.Columns);

    /// <summary>Writes a subject as a JSON object.</summary>
    public void WriteObject(Utf8JsonWriter json, T subject)
    {
        json.WriteStartObject();
        foreach (var field in _fields) field.WriteJson(json, subject);
        if (_hasFacts) WriteEvidence(json, subject);
        json.WriteEndObject();
    }

    /// <summary>Writes a subject as the cells of a CSV row.</summary>
    public void WriteCells(ICellWriter cells, T subject)
    {
        foreach (var field in _fields) field.WriteCells(cells, subject);
    }

    /// <summary>The same with columns for how plain facts are known, as far as any subject says so.</summary>
    internal DataShape<T> WithEvidence(IReadOnlyCollection<T> subjects)
    {
        var shape = new DataShape<T>();
        foreach (var field in _fields)
        {
            shape.Add(field);
            var known = subjects.Select(field.EvidenceOf).OfType<Evidence>().Select(each => EvidenceKeys.Values(each).ToArray()).ToList();
            for (var part = 0; known.Count > 0 && part < EvidenceKeys.All.Count; part++)
            {
                var at = part;
                if (known.TrueForAll(values => values[at].IsNothing)) continue;
                var name = $"{field.Keys[0].Name}_{EvidenceKeys.All[part].Name}";
                shape.Add(new ScalarField<T>(
                    EvidenceKeys.All[part] with { Name = name }, subject => EvidenceKeys.Values(field.EvidenceOf(subject)).ElementAt(at)));
            }
        }

        return shape;
    }

    public DataShape<T> Add(DataField<T> field)
    {
        _fields.Add(field);
        return this;
    }

    public DataShape<T> Text(string name, string means, Func<T, string?> value, string type = "text") =>
        Add(new ScalarField<T>(new DataColumn(name, type, means), subject => DataValue.From(value(subject))));

    public DataShape<T> Number(string name, string? unit, string means, Func<T, double?> value) =>
        Add(new ScalarField<T>(new DataColumn(name, "number", means, unit), subject => DataValue.From(value(subject))));

    public DataShape<T> Count(string name, string means, Func<T, int?> value) =>
        Add(new ScalarField<T>(new DataColumn(name, "integer", means), subject => DataValue.From(value(subject))));

    public DataShape<T> Flag(string name, string means, Func<T, bool?> value) =>
        Add(new ScalarField<T>(new DataColumn(name, "flag", means), subject => DataValue.From(value(subject))));

    /// <summary>A plain fact that the record may state with its evidence.</summary>
    public DataShape<T> Fact<TFact>(string name, string type, string means, Func<T, Stated<TFact>?> fact, Func<TFact, DataValue> value)
    {
        _hasFacts = true;
        return Add(new ScalarField<T>(
            new DataColumn(name, type, means), subject => fact(subject) is { } stated ? value(stated.Value) : default, subject =>
                fact(subject)?.Evidence));
    }

    public DataShape<T> Fact(string name, string means, Func<T, Stated<string>?> fact, string type = "text") =>
        Fact(name, type, means, fact, DataValue.From);

    public DataShape<T> Fact(string name, string means, Func<T, Stated<int>?> fact) =>
        Fact(name, "integer", means, fact, count => DataValue.From(count));

    public DataShape<T> Fact(string name, string means, Func<T, Stated<bool>?> fact) =>
        Fact(name, "flag", means, fact, flag => DataValue.From(flag));

    public DataShape<T> Fact(string name, string means, Func<T, Stated<EdtfDate>?> fact) =>
        Fact(name, "date", means, fact, date => DataValue.From(date.Text));

    public DataShape<T> Fact<TWord>(string name, string means, Func<T, Stated<TWord>?> fact)
        where TWord : struct, Enum => Fact(name, "text", means, fact, word => DataValue.From(DataValue.Word<TWord>(word)));

    /// <summary>A quantity of one number, under its stem and its unit: <c>length_m</c>.</summary>
    public DataShape<T> Quantity<TQuantity>(
        string stem, string unit, string means, Func<T, Stated<TQuantity>?> stated, Func<TQuantity, double> number) =>
        Add(new QuantityField<T, TQuantity>(
            stem,
            means,
            stated,
            [(new DataColumn($"{stem}_{unit}", "number", means, unit.Replace("_per_", "/", StringComparison.Ordinal)), number)]));

    /// <summary>Ids or other texts; those without spaces are joined by one in CSV.</summary>
    public DataShape<T> List(string name, string means, Func<T, IEnumerable<string>> items, string separator = " ") =>
        Add(new ListField<T>(new DataColumn(name, "list", means), separator, items));

    public DataShape<T> Entries<TEntry>(
        string name,
        string means,
        DataShape<TEntry> shape,
        Func<T, IEnumerable<TEntry>> entries,
        Func<TEntry, string> inWords,
        string separator = "; ") =>
        Add(new EntriesField<T, TEntry>(new DataColumn(name, "list", means), shape, entries, inWords, separator));

    public DataShape<T> Form(
        string name, string means, Func<T, bool> has, Action<Utf8JsonWriter, T> write, Func<T, string> inWords, string type = "object") =>
        Add(new FormField<T>(new DataColumn(name, type, means), has, write, inWords));

    private void WriteEvidence(Utf8JsonWriter json, T subject)
    {
        var isBegun = false;
        foreach (var field in _fields)
        {
            if (field.EvidenceOf(subject) is not { } evidence) continue;
            if (!isBegun) json.WriteStartObject(EvidenceKey);
            isBegun = true;
            json.WritePropertyName(field.Keys[0].Name);
            EvidenceKeys.Write(json, evidence);
        }

        if (isBegun) json.WriteEndObject();
    }
}

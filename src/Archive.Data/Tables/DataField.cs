using System.Text.Json;
using Archive.Records.Model;

namespace Archive.Data.Tables;

/// <summary>One thing that data files say of a subject: as keys of a JSON object, and as columns of a CSV row.</summary>
/// <typeparam name="T">The subject.</typeparam>
public abstract class DataField<T>
{
    /// <summary>The keys that <see cref="WriteJson"/> may write, in order.</summary>
    public abstract IReadOnlyList<DataColumn> Keys { get; }

    /// <summary>The columns that <see cref="WriteCells"/> fills, in order.</summary>
    public virtual IReadOnlyList<DataColumn> Columns => Keys;

    /// <summary>Writes what the subject has; a key without a value is left out.</summary>
    public abstract void WriteJson(Utf8JsonWriter json, T subject);

    /// <summary>Writes a cell for each column; a cell without a value is empty.</summary>
    public abstract void WriteCells(ICellWriter cells, T subject);

    /// <summary>How the fact is known, where it is a plain fact that was stated with its evidence.</summary>
    public virtual Evidence? EvidenceOf(T subject) => null;
}

/// <summary>A single value.</summary>
internal sealed class ScalarField<T>(DataColumn column, Func<T, DataValue> value, Func<T, Evidence?>? evidence = null) : DataField<T>
{
    public override IReadOnlyList<DataColumn> Keys { get; } = [column];

    public override void WriteJson(Utf8JsonWriter json, T subject)
    {
        var written = value(subject);
        if (written.IsNothing) return;
        json.WritePropertyName(column.Name);
        written.WriteTo(json);
    }

    public override void WriteCells(ICellWriter cells, T subject) => cells.Write(value(subject));

    public override Evidence? EvidenceOf(T subject) => evidence?.Invoke(subject);
}

/// <summary>A quantity: its numbers in SI units, the text as stated, and how it is known.</summary>
internal sealed class QuantityField<T, TQuantity>(
    string stem, string means, Func<T, Stated<TQuantity>?> stated, (DataColumn Column, Func<TQuantity, double> Number)[] numbers)
    : DataField<T>
{
    public override IReadOnlyList<DataColumn> Keys { get; } =
    [
        .. numbers.Select(number => number.Column),
        new DataColumn($"{stem}_stated", "text", $"{means}, exactly as the record states it"),
        EvidenceKeys.Column($"{stem}_evidence", $"how it is known: {means}"),
    ];

    public override IReadOnlyList<DataColumn> Columns { get; } =
    [
        .. numbers.Select(number => number.Column),
        new DataColumn($"{stem}_stated", "text", $"{means}, exactly as the record states it"),
        .. EvidenceKeys.All.Select(key => key with { Name = $"{stem}_{key.Name}" }),
    ];

    public override void WriteJson(Utf8JsonWriter json, T subject)
    {
        if (stated(subject) is not { } fact) return;
        foreach (var (column, number) in numbers)
        {
            json.WritePropertyName(column.Name);
            DataValue.From(number(fact.Value)).WriteTo(json);
        }

        json.WritePropertyName($"{stem}_stated");
        DataValue.From(AsStated(fact)).WriteTo(json);
        if (fact.Evidence is not { } evidence) return;
        json.WritePropertyName($"{stem}_evidence");
        EvidenceKeys.Write(json, evidence);
    }

    public override void WriteCells(ICellWriter cells, T subject)
    {
        var fact = stated(subject);
        foreach (var (_, number) in numbers) cells.Write(fact is { } known ? DataValue.From(number(known.Value)) : default);
        cells.Write(fact is { } said ? DataValue.From(AsStated(said)) : default);
        foreach (var value in EvidenceKeys.Values(fact?.Evidence)) cells.Write(value);
    }

    // The span of a text in quotes holds the quotes.
    private static string AsStated(Stated<TQuantity> fact)
    {
        var text = fact.Span.Text.Trim();
        return text.Length > 1 && text[0] is '\'' or '"' && text[^1] == text[0] ? text[1..^1] : text;
    }
}

/// <summary>A list of texts: an array in JSON; joined in CSV.</summary>
internal sealed class ListField<T>(DataColumn column, string separator, Func<T, IEnumerable<string>> items) : DataField<T>
{
    public override IReadOnlyList<DataColumn> Keys { get; } = [column];

    public override void WriteJson(Utf8JsonWriter json, T subject)
    {
        var isBegun = false;
        foreach (var item in items(subject))
        {
            if (!isBegun) json.WriteStartArray(column.Name);
            isBegun = true;
            DataValue.From(item).WriteTo(json);
        }

        if (isBegun) json.WriteEndArray();
    }

    public override void WriteCells(ICellWriter cells, T subject) => cells.Write(DataValue.From(string.Join(separator, items(subject))));
}

/// <summary>A list of things that have fields of their own: an array of objects in JSON; in CSV each in a few words.</summary>
internal sealed class EntriesField<T, TEntry>(
    DataColumn column,
    DataShape<TEntry> shape,
    Func<T, IEnumerable<TEntry>> entries,
    Func<TEntry, string> inWords,
    string separator) : DataField<T>
{
    public override IReadOnlyList<DataColumn> Keys { get; } = [column with { Entries = [.. shape.Keys] }];

    public override IReadOnlyList<DataColumn> Columns { get; } = [column with { Type = "text" }];

    public override void WriteJson(Utf8JsonWriter json, T subject)
    {
        var isBegun = false;
        foreach (var entry in entries(subject))
        {
            if (!isBegun) json.WriteStartArray(column.Name);
            isBegun = true;
            shape.WriteObject(json, entry);
        }

        if (isBegun) json.WriteEndArray();
    }

    public override void WriteCells(ICellWriter cells, T subject) =>
        cells.Write(DataValue.From(string.Join(separator, entries(subject).Select(inWords))));
}

/// <summary>What has a form of its own in JSON, and a few words in CSV.</summary>
internal sealed class FormField<T>(DataColumn column, Func<T, bool> has, Action<Utf8JsonWriter, T> write, Func<T, string> inWords)
    : DataField<T>
{
    public override IReadOnlyList<DataColumn> Keys { get; } = [column];

    public override IReadOnlyList<DataColumn> Columns { get; } = [column with { Type = "text" }];

    public override void WriteJson(Utf8JsonWriter json, T subject)
    {
        if (!has(subject)) return;
        json.WritePropertyName(column.Name);
        write(json, subject);
    }

    public override void WriteCells(ICellWriter cells, T subject) => cells.Write(has(subject) ? DataValue.From(inWords(subject)) : default);
}

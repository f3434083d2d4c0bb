using System.Text.Json;
using Archive.Data.Tables;
using Archive.Records.Model;

namespace Archive.Site.Data;

/// <summary><c>data/index.json</c>: what each data file holds, key by key, for anyone who finds them in thirty years.</summary>
internal static class DataIndex
{
    private static readonly string[] Rules =
    [
        "every JSON file except index and archive is an array with one entry per line, sorted by id (byte order); a key without a value is left out",
        "every CSV file (RFC 4180, UTF-8) has the same entries, with a header; a cell without a value is empty, lists of ids are joined by a space, other lists by `; `",
        "a CSV text that a spreadsheet would treat as a formula (it begins with = + - @, a tab or a line end) gets an apostrophe in front; the JSON has it unchanged",
        "numbers are in SI units, named at the end of the key; `…_stated` is exactly what the record says",
        "dates are Extended Date/Time Format (ISO 8601-2), levels 0 and 1; markdown is CommonMark without HTML, with [[ID]] for links to records",
        "`iiif/`, photos for IIIF viewers (Presentation API 3.0), is only there if the archive states its base, because IIIF ids are web addresses",
    ];

    internal static void Write(
        Stream stream, ArchiveStatement statement, IEnumerable<DataColumn> archiveKeys, IReadOnlyList<DataTable> tables)
    {
        using var json = new Utf8JsonWriter(stream, DataTable.Readable);
        json.WriteStartObject();
        json.WriteString("title", DataValue.From(statement.Title).ToString());
        if (statement.Base is { } address) json.WriteString("base", address.Value.OriginalString);
        if (statement.Licence is { } licence) json.WriteString("licence", DataValue.From(licence.Value).ToString());
        if (statement.Credit is { } credit) json.WriteString("credit", DataValue.From(credit.Value).ToString());
        json.WriteStartArray("rules");
        foreach (var rule in Rules) json.WriteStringValue(rule);
        json.WriteEndArray();
        json.WriteStartArray("files");
        json.WriteStartObject();
        json.WriteString("json", "archive.json");
        json.WriteString("means", "the archive as a whole");
        WriteColumns(json, "keys", archiveKeys);
        json.WriteEndObject();
        foreach (var table in tables) Write(json, table);
        json.WriteEndArray();
        json.WriteEndObject();
        json.Flush();
        stream.WriteByte((byte)'\n');
    }

    private static void Write(Utf8JsonWriter json, DataTable table)
    {
        json.WriteStartObject();
        json.WriteString("json", table.Path + ".json");
        json.WriteString("csv", table.Path + ".csv");
        json.WriteString("means", table.Means);
        json.WriteNumber("entries", table.Count);
        WriteColumns(json, "keys", table.Keys);
        WriteColumns(json, "columns", table.Columns);
        json.WriteEndObject();
    }

    private static void WriteColumns(Utf8JsonWriter json, string name, IEnumerable<DataColumn> columns)
    {
        json.WriteStartArray(name);
        foreach (var column in columns)
        {
            json.WriteStartObject();
            json.WriteString("name", column.Name);
            json.WriteString("type", column.Type);
            if (column.Unit is { } unit) json.WriteString("unit", unit);
            json.WriteString("means", column.Means);
            if (column.Entries.Count > 0) WriteColumns(json, "keys", column.Entries);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}

using System.Text.Json;
using Archive.Records.Model;

namespace Archive.Data.Tables;

// How a fact is known, under the same names wherever it is reported.
internal static class EvidenceKeys
{
    internal static readonly IReadOnlyList<DataColumn> All =
    [
        new("from", "text", "where it comes from: plate, printed, drawing, measured, estimated or told"),
        new("by", "text", "whose word it is, a key of `people`"),
        new("on", "date", "when it was established"),
        new("note", "markdown", "remark on it"),
    ];

    internal static DataColumn Column(string name, string means) => new(name, "object", means) { Entries = All };

    internal static IEnumerable<DataValue> Values(Evidence? evidence) =>
    [
        DataValue.From(DataValue.Word(evidence?.From?.Value)),
                DataValue.From(evidence?.By?.Value),
                DataValue.From(evidence?.On?.Value.Text),
                DataValue.From(evidence?.Note?.Value),
            ];

    internal static void Write(Utf8JsonWriter json, Evidence evidence)
    {
        json.WriteStartObject();
        foreach (var (key, value) in All.Zip(Values(evidence)))
        {
            if (value.IsNothing) continue;
            json.WritePropertyName(key.Name);
            value.WriteTo(json);
        }

        json.WriteEndObject();
    }
}

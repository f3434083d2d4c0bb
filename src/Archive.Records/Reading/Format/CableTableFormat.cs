using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Format;

/// <summary>The columns of a CSV table in <c>cables/</c>.</summary>
internal static class CableTableFormat
{
    /// <summary>A row.</summary>
    public static readonly MappingFormat All = new("row", [
        CableFormat.All.Find("id")!, CableFormat.Kind, CableFormat.Label,
        Column("a", ValueFormats.Address, "where one end was found", "R2-05/S2/J1"),
        Column("b", ValueFormats.Address, "where the other end was found", "R3-01/S3/J2"),
        CableFormat.Length,
        Column("length_from", EvidenceFormat.From.Value, "how the length is known", "measured"),
        Column("lies_in", ValueFormats.Text, "trays, in order from `a` to `b`, separated by spaces", "T-1 T-4"),
        Column("lies_over", ValueFormats.Text, "cables under it, separated by spaces", "C-0301"),
        CableFormat.Fate, CableFormat.CoilTo, CableFormat.Reason, RecordFormat.Note]);

    private static FormatKey Column(string name, ValueFormat value, string meaning, string example) =>
        new(name, new SingleFormat(value), meaning, example);
}

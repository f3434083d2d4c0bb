using System.Collections.Immutable;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Format;

/// <summary>The columns of a CSV table in <c>cables/</c>.</summary>
internal static class CableTableFormat
{
    // The facts of a row that have columns for how they are known, and for why they were changed.
    private static readonly ImmutableArray<FormatKey> Facts =
    [
        CableFormat.Kind, CableFormat.Label,
        Column("a", ValueFormats.Address, "where one end was found", "R2-05/S2/J1"),
        Column("b", ValueFormats.Address, "where the other end was found", "R3-01/S3/J2"),
        CableFormat.Length,
    ];

    /// <summary>A row.</summary>
    public static readonly MappingFormat All = new("row", [
        CableFormat.All.Find("id")!,
        .. Facts,
        Column("lies_in", ValueFormats.Text, "trays, in order from `a` to `b`, separated by spaces", "T-1 T-4"),
        Column("lies_over", ValueFormats.Text, "cables under it, separated by spaces", "C-0301"),
        CableFormat.Fate, CableFormat.CoilTo, CableFormat.Reason, RecordFormat.Note, RecordFormat.Withdrawn,
        Column("was", ValueFormats.Text, "ids that it had before, separated by spaces", "C-0042"),
        Column("accept", ValueFormats.Text, "codes of warnings that it accepts, separated by spaces; `note` says why", "AF1502"),
        .. TableLayout.EvidenceColumns(Facts)]);

    /// <summary>How the columns are read.</summary>
    public static readonly TableLayout Layout = new("cables", All, Facts)
    {
        Lists = ["lies_in", "lies_over", "was", "accept"],
        Required = ["id", "kind"],
        Quantity = "length",
    };

    private static FormatKey Column(string name, ValueFormat value, string meaning, string example) =>
        new(name, new SingleFormat(value), meaning, example);
}

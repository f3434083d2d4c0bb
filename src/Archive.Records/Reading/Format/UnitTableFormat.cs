using System.Collections.Immutable;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Format;

/// <summary>The columns of a CSV table in <c>units/</c>.</summary>
internal static class UnitTableFormat
{
    private static readonly ImmutableArray<FormatKey> Facts =
        [UnitFormat.At, UnitFormat.Marking, UnitFormat.Serial, UnitFormat.Revision, UnitFormat.Weight];

    /// <summary>A row.</summary>
    public static readonly MappingFormat All = new("row", [
        UnitFormat.All.Find("id")!,
        RecordFormat.Name,
        .. Facts,
        UnitFormat.Size,
        UnitFormat.Firmware,
        Column("straps", "straps, switches and links, each joined to its setting by `=`, separated by spaces", "S1=0110 W3=B-C"),
        Column("handling", "how it must be handled, separated by spaces", "static_sensitive"),
        Column("hazards", "what can hurt someone at it, separated by spaces", "stored_charge"),
        UnitFormat.Spare, UnitFormat.Condition, RecordFormat.Note, RecordFormat.Withdrawn,
        Column("was", "ids that it had before, separated by spaces", "U-0042"),
        Column("accept", "codes of warnings that it accepts, separated by spaces; `note` says why", "AF1507"),
        .. TableLayout.EvidenceColumns(Facts)]);

    /// <summary>How the columns are read.</summary>
    public static readonly TableLayout Layout = new("units", All, Facts)
    {
        Lists = ["handling", "hazards", "was", "accept"],
        Quantity = "weight",
        Pairs = "straps",
    };

    private static FormatKey Column(string name, string meaning, string example) =>
        new(name, new SingleFormat(ValueFormats.Text), meaning, example);
}

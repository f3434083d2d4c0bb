using Archive.Records.Model;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Format;

/// <summary><c>schemes/</c></summary>
internal static class SchemeFormat
{
    private static readonly KeyList Keys = RecordFormat.Begin("jacket-print", "Print on cables");

    public static readonly FactKey<string> Reads = Keys.Fact(
        "reads",
        ValueFormats.Expression,
        "the labels that it reads",
        @"'^(?<row1>\d\d)(?<frame1>\d\d)-J(?<port1>\d\d) (?<row2>\d\d)(?<frame2>\d\d)-J(?<port2>\d\d)$'",
        required: true);

    public static readonly ListKey<string> Means = Keys.List(
        "means",
        ValueFormats.Template,
        "the address of each end",
        "['{row1}-{frame1}/S1/J{port1}', '{row2}-{frame2}/S1/J{port2}']",
        required: true);

    public static readonly FormatKey Tables = Keys.Other(
        "tables",
        new TableFormat("the name of a group", new TableFormat("captured text", new SingleFormat(ValueFormats.Text))),
        "translate captured text; a table `row` is for the groups `row`, `row1`, `row2`",
        "{row: {\"01\": R1, \"02\": R2}}");

    public static readonly FactKey<SchemeSubject> On = Keys.Fact(
        "on",
        ValueFormats.Words<SchemeSubject>(),
        "what it reads: labels of cables, or tags at one `end`; then the first meaning is the end with the tag",
        "cable",
        usual: "cable");

    public static readonly ListKey<string> Confusions = Keys.List(
        "confusions", ValueFormats.Text, "letters and digits that are easily mistaken for each other on these labels", "[O0, I1l]");

    public static readonly FormatKey Examples = Keys.Other(
        "examples",
        new TableFormat("a label", new ListFormat(new SingleFormat(ValueFormats.Address), OneWillDo: true)),
        "labels with the addresses that they mean; they are checked",
        "{\"0105-J03 0202-J01\": [R1-05/S1/J3, R2-02/S1/J1]}");

    public static readonly MappingFormat All = Keys.Of("scheme");
}

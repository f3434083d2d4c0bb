using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Editing;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Kinds;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;

namespace Archive.Records.Mappings;

/// <summary>A file that says how spreadsheets are imported: YAML, a mapping for each sheet. The curator edits and keeps it.</summary>
public static class SheetMappingFile
{
    /// <summary>Largest that is read, in bytes.</summary>
    public const long Largest = 1 << 20;

    /// <summary>What rows can be.</summary>
    public static ImmutableArray<RecordKind> Kinds { get; } =
        [RecordKind.Cable, RecordKind.Frame, RecordKind.CableKind, RecordKind.Tray, RecordKind.Photo, RecordKind.Event];

    private static readonly KeyList Keys = new();
    private static readonly SingleKey<string> Sheet = Keys.Single("sheet", ValueFormats.Text, "name of the sheet", "Sheet1");
    private static readonly SingleKey<int> Head = Keys.Single("head", ValueFormats.CountFromOne, "row of the heads", "1");
    private static readonly SingleKey<string> Kind = Keys.Single("kind", ValueFormats.Text, "what each row is", "cable", required: true);
    private static readonly SingleKey<string> Path = Keys.Single("file", ValueFormats.Text, "where new records go", "cables/list.yaml");
    private static readonly SingleKey<EvidenceSource> From = Keys.Single(
        "from", ValueFormats.Words<EvidenceSource>(), "how its facts are known", "told");

    private static readonly SingleKey<string> By = Keys.Single("by", ValueFormats.Person, "whose word they are", "dm");
    private static readonly SingleKey<string> On = Keys.Single("on", ValueFormats.Text, "when they were established", "2026-05");
    private static readonly FormatKey Columns = Keys.Other(
        "columns",
        new TableFormat("a key of the record", new ListFormat(Column.All, OneWillDo: true)),
        "which column says what",
        "{id: {column: A}}",
        required: true);

    private static readonly MappingsKey Ids = Keys.Each("ids", Rule, "how ids are read", oneWillDo: true);
    private static readonly MappingsKey Addresses = Keys.Each("addresses", Rule, "how addresses are read", oneWillDo: true);
    private static readonly MappingsKey Subjects = Keys.Each("subjects", Rule, "how ids of other records are read", oneWillDo: true);
    private static readonly MappingFormat All = Keys.Of("sheet");

    private static MappingFormat Rule => new("rule", [SchemeFormat.Reads, SchemeFormat.Means, SchemeFormat.Tables]);

    /// <summary>Reads a file.</summary>
    /// <param name="path">For diagnostics.</param>
    /// <returns>Its sheets, and what is wrong: refuse if there is an error.</returns>
    public static (ImmutableArray<SheetMapping> Sheets, ImmutableArray<Diagnostic> Diagnostics) Read(string path, ReadOnlySpan<byte> bytes)
    {
        var diagnostics = new DiagnosticBag();
        var sheets = ImmutableArray.CreateBuilder<SheetMapping>();
        if (FileText.Decode(path, bytes, diagnostics) is { } source)
        {
            foreach (var node in YamlSyntax.Records(source.Whole, diagnostics))
            {
                if (node is not MappingNode mapping)
                {
                    if (node is not RejectedNode) diagnostics.Add(DiagnosticDescriptors.WrongType.At(
                        node.Span, $"a sheet must be a mapping of keys to values, but this is {node.Noun}", "begin with `kind: cable`"));
                    continue;
                }

                var from = new MappingReader(mapping, All, diagnostics);
                if (ReadSheet(from) is { } sheet) sheets.Add(sheet);
                from.End();
            }

            if (sheets.Count == 0 && diagnostics.Count == 0)
            {
                diagnostics.Add(DiagnosticDescriptors.WrongSheet.At(
                    source.Whole.Slice(0, 0), "this mapping has no sheet", "import without --mapping to see one proposed"));
            }
        }

        return (sheets.DrainToImmutable(), diagnostics.All);
    }

    /// <summary>Writes sheets so that <see cref="Read"/> reads them.</summary>
    public static string Write(IEnumerable<SheetMapping> sheets)
    {
        var text = new StringBuilder();
        foreach (var sheet in sheets)
        {
            var begin = "- ";
            if (sheet.Sheet is { } name) Line("sheet", name);
            Line("head", sheet.Head.ToString(CultureInfo.InvariantCulture));
            Line("kind", sheet.Kind.Noun());
            if (sheet.File is { } file) Line("file", file);
            foreach (var (key, value) in sheet.Evidence?.Entries ?? []) Line(key, value);
            text.Append("  columns:\n");
            foreach (var key in sheet.Columns.GroupBy(column => column.Key, StringComparer.Ordinal))
            {
                text.Append("    ").Append(YamlScalars.Key(key.Key, isFlow: false)).Append(':');
                var isOne = key.Count() == 1;
                foreach (var column in key)
                {
                    text.Append(isOne ? " " : "\n      - ")
                        .Append(YamlScalars.Inline(Column.ValueOf(column), Column.All, isFlow: true));
                    if (column.Comment is { } comment) text.Append(" # ").Append(YamlScalars.Comment(comment));
                }

                text.Append('\n');
            }

            void Line(string key, string value)
            {
                var isNumber = key == "head";
                text.Append(begin).Append(key).Append(": ")
                    .Append(isNumber ? value : YamlScalars.Scalar(value, ValueFormats.Text, isFlow: false)).Append('\n');
                begin = "  ";
            }
        }

        return text.ToString();
    }

    private static SheetMapping? ReadSheet(MappingReader from)
    {
        var kind = from.Read(Kind);
        var evidence = new FactEvidence(from.Read(From)?.Value, from.Read(By)?.Value, from.Read(On)?.Value);
        var sheet = new SheetMapping
        {
            Sheet = from.Read(Sheet)?.Value,
            Head = from.Read(Head)?.Value ?? 1,
            Kind = Kinds.FirstOrDefault(known => known.Noun() == kind?.Value),
            File = from.Read(Path)?.Value,
            Evidence = evidence.IsEmpty ? null : evidence,
            Columns = [.. ReadColumns(from)],
            Ids = [.. from.Each(Ids).Select(ReadRule)],
            Addresses = [.. from.Each(Addresses).Select(ReadRule)],
            Subjects = [.. from.Each(Subjects).Select(ReadRule)],
            Span = from.Start,
        };
        if (kind is not { } typed) return null;
        if (sheet.Kind.Noun() == typed.Value) return sheet;
        from.Diagnostics.Add(DiagnosticDescriptors.WrongSheet.At(
            typed.Span,
            $"rows cannot be imported as `{Quotation.Shorten(typed.Value)}`",
            $"use one of {string.Join(", ", Kinds.Select(known => known.Noun()))}"));
        return null;
    }

    private static IEnumerable<ColumnMapping> ReadColumns(MappingReader from)
    {
        if (from.Table(Columns.Name) is not { } table) yield break;
        foreach (var key in table.Keys)
        {
            foreach (var column in table.Each(new MappingsKey(key.Text, Column.All, "", OneWillDo: true)))
            {
                yield return new ColumnMapping(key.Text, key.Span)
                {
                    Column = column.Read(Column.Letters)?.Value,
                    Head = column.Read(Column.HeadText)?.Value,
                    Unit = column.Read(Column.Unit)?.Value,
                    Value = column.Read(Column.Value)?.Value,
                    Dates = column.Read(Column.Dates)?.Value,
                    Words = ReadWords(column),
                };
            }
        }
    }

    private static ImmutableDictionary<string, string> ReadWords(MappingReader column)
    {
        var words = ImmutableDictionary.CreateBuilder<string, string>(StringComparer.OrdinalIgnoreCase);
        if (column.Table(Column.Words.Name) is not { } table) return words.ToImmutable();
        foreach (var key in table.Keys)
        {
            if (table.Single(key.Text, ValueFormats.Text) is { } meant) words[key.Text.Trim()] = meant.Value;
        }

        return words.ToImmutable();
    }

    private static LabelScheme ReadRule(MappingReader rule) =>
        (LabelScheme)SchemeReader.Read(rule, new CommonFields("this rule", rule.Start));

    /// <summary>A column.</summary>
    private static class Column
    {
        private static readonly KeyList Keys = new();

        public static readonly SingleKey<string> Letters = Keys.Single("column", ValueFormats.Text, "its letters", "C");
        public static readonly SingleKey<string> HeadText = Keys.Single("head", ValueFormats.Text, "its head", "Length");
        public static readonly SingleKey<string> Unit = Keys.Single("unit", ValueFormats.Text, "unit of bare numbers", "m");
        public static readonly SingleKey<string> Value = Keys.Single("value", ValueFormats.Text, "what new records say", "coax");
        public static readonly SingleKey<DateOrder> Dates = Keys.Single(
            "dates", ValueFormats.Words<DateOrder>(), "which number of 3/4/2026 is the day", "day_first");

        public static readonly FormatKey Words = Keys.Other(
            "words",
            new TableFormat("a text of its cells", new SingleFormat(ValueFormats.Text)),
            "what the record says instead",
            "{unplugged: disconnected}");

        public static readonly MappingFormat All = Keys.Of("column");

        public static FactMapping ValueOf(ColumnMapping column) => new(
        [
            .. new (FormatKey Key, string? Text)[]
            {
                (Letters, column.Column), (HeadText, column.Head), (Unit, column.Unit), (Value, column.Value),
                (Dates, column.Dates is { } order ? EnumNames<DateOrder>.Word(order) : null),
            }.Where(entry => entry.Text is not null).Select(entry => new FactEntry(entry.Key.Name, FactValue.Of(entry.Text!))),
        ]);
    }
}

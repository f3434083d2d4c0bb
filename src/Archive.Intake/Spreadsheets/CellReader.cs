using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Facts;
using Archive.Records.Mappings;
using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;
using Archive.Spreadsheets.Model;
using Archive.Wiring.Labels;

namespace Archive.Intake.Spreadsheets;

/// <summary>What a cell says.</summary>
/// <param name="Unknown">Ids in it that no record has yet; a later row may have them.</param>
internal sealed record CellValue(FactValue Value, ImmutableArray<string> Unknown);

/// <summary>Reads the cells of one sheet by its mapping, and reports those that cannot be read.</summary>
internal sealed class CellReader(CellReports reports, KnownRecords known, SheetMapping mapping)
{
    private static readonly string[] Marks = [",", ";", "\n", " and ", " & ", " + "];

    private static readonly FrozenSet<string> Unknown =
        new[] { "?", "??", "???", "-", "--", "–", "—", "n/a", "unknown", "not known", "tbd" }.ToFrozenSet(StringComparer.OrdinalIgnoreCase);

    private readonly ImmutableArray<CompiledScheme> _ids = [.. mapping.Ids.Select(CompiledScheme.Compile)];
    private readonly ImmutableArray<CompiledScheme> _places = [.. mapping.Addresses.Select(CompiledScheme.Compile)];
    private readonly ImmutableArray<CompiledScheme> _subjects = [.. mapping.Subjects.Select(CompiledScheme.Compile)];

    // Of a column, for all its cells.
    private readonly Dictionary<string, (bool IsList, ValueFormat? Format)> _formats = new(StringComparer.Ordinal);

    /// <summary>The id that a text means, known or not; null for none.</summary>
    internal string? IdOf(string text)
    {
        var id = KnownRecords.Meaning(text, _ids)?.ToString() ?? text;
        return RecordId.IsValid(id) ? known.Id(id, [mapping.Kind]) ?? id : null;
    }

    /// <summary>What a cell says; null where that cannot be read, which is reported.</summary>
    internal CellValue? Read(ColumnMapping column, SheetCell cell)
    {
        if (cell.Type == CellType.Error)
        {
            reports.Unreadable(cell, "a program could not compute this cell", "correct its formula");
            return null;
        }

        var text = cell.Text.Trim();
        text = column.Words.GetValueOrDefault(text, text);
        if (IsAddress(column.Key)) return Place(cell, text) is { } place ? new CellValue(FactValue.Of(place), []) : null;
        if (column.Unit is { } unit) text = WithUnit(text, unit);
        if (!_formats.TryGetValue(column.Key, out var of))
        {
            of = (FactFormats.Find(mapping.Kind, column.Key)?.Node is ListFormat, FactFormats.ValueOf(mapping.Kind, column.Key));
            _formats.Add(column.Key, of);
        }

        var (isList, format) = of;
        if (!isList) return Single(column, format, cell, text);
        var unknown = ImmutableArray.CreateBuilder<string>();
        var items = new List<string>();
        foreach (var part in Parts(column, format, text))
        {
            if (Single(column, format, cell, part) is not { } one) return null;
            items.Add(one.Value.Text);
            unknown.AddRange(one.Unknown);
        }

        return new CellValue(FactValue.ListOf(items.Distinct(StringComparer.Ordinal)), unknown.ToImmutable());
    }

    /// <summary>Whether a cell is empty, or has a mark for what nobody knows. A label or a remark may be such a mark.</summary>
    internal static bool SaysNothing(ColumnMapping column, string text) => string.IsNullOrWhiteSpace(text)
        || (Unknown.Contains(text.Trim())
            && column.Key is not ("label" or "note" or "about" or "caption" or "name" or "condition")
            && !column.Words.ContainsKey(text.Trim()));

    // Names of people and texts that a rule reads have spaces in them; ids have none.
    private IEnumerable<string> Parts(ColumnMapping column, ValueFormat? format, string text)
    {
        foreach (var part in text.Split(Marks, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var words = part.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
            var isOne = column.Words.ContainsKey(part)
                || (format is { IsPerson: true } && !words.All(word => known.Person(word) is not null))
                || (format is { Words.Length: > 0 } && KnownWords.Find(mapping.Kind, column.Key, format.Words, part) is not null)
                || (format is { RecordKinds.Length: > 0 } && KnownRecords.Meaning(part, _subjects) is not null);
            if (isOne) yield return part;
            else
            {
                foreach (var word in words) yield return word;
            }
        }
    }

    private CellValue? Single(ColumnMapping column, ValueFormat? format, SheetCell cell, string text)
    {
        text = column.Words.GetValueOrDefault(text, text);
        switch (format)
        {
            case { IsDate: true }:
                var (date, why) = TypedDate.Read(text, column.Dates);
                return date is not null ? One(date) : Refuse(
                    cell,
                    $"`{column.Key}` cannot be read: {why}",
                    why!.StartsWith("it is not known", StringComparison.Ordinal)
                        ? $"say in the mapping: `{column.Key}: {{column: {column.Column}, dates: day_first}}`, or month_first"
                        : "write the date with its year first, such as 2026-05-12, or format the cell as a date");
            case { Words.Length: > 0 }:
                return KnownWords.Find(mapping.Kind, column.Key, format.Words, text) is { } word ? One(word) : Refuse(
                    cell,
                    $"`{column.Key}` cannot be `{Shortened(text)}`",
                    $"it is one of {string.Join(", ", format.Words)}; say which in the mapping: `words: {{{Shortened(text)}: …}}`");
            case { IsPerson: true } when known.ListsPeople:
                return known.Person(text) is { } person ? One(person) : Refuse(
                    cell,
                    $"`{Shortened(text)}` is not one of the people in archive.yaml",
                    "add them to `people`, or say in the mapping who is meant: `words: {…: dm}`");
            case { RecordKinds.Length: > 0 }:
                return Id(format, cell, text);
            default:
                return One(text);
        }
    }

    private CellValue? Id(ValueFormat format, SheetCell cell, string text)
    {
        var kinds = format.RecordKinds;
        var id = KnownRecords.Meaning(text, _subjects)?.ToString() ?? text;
        if (kinds.Contains(mapping.Kind) && known.Id(id, kinds) is null) id = KnownRecords.Meaning(text, _ids)?.ToString() ?? id;
        if (known.Id(id, kinds) is { } found) return One(found);

        // An end of a cable, or a place on a frame.
        var slash = id.IndexOf('/', StringComparison.Ordinal);
        if (slash > 0 && kinds.Contains(RecordKind.Cable) && known.Id(id[..slash], [RecordKind.Cable]) is { } cable
            && known.Place(id[(slash + 1)..], _places) is { } end) return One($"{cable}/{end}");
        if (slash > 0 && kinds.Contains(RecordKind.Scheme) && known.Place(id, _places) is { } place) return One(place);
        if (RecordId.IsValid(id) && kinds.Contains(mapping.Kind)) return new CellValue(FactValue.Of(id), [id]);
        ReportUnknown(cell, id, kinds);
        return null;
    }

    /// <summary>Reports an id that no record has.</summary>
    internal void ReportUnknown(SheetCell cell, string id, ImmutableArray<RecordKind> kinds) => reports.Add(
        DiagnosticDescriptors.UnknownIdInCell,
        cell,
        () => $"there is no {Noun(kinds)} `{Shortened(id)}`",
        () => known.Near(id, kinds) is { } near
            ? $"did you mean `{near}`? If it is written otherwise in this spreadsheet, add a rule `subjects` or `words` to the mapping"
            : "record it first, or add a rule `subjects` or `words` to the mapping");

    private static string Noun(ImmutableArray<RecordKind> kinds) => kinds.Length == 1 ? kinds[0].Noun() : "record";

    private string? Place(SheetCell cell, string text)
    {
        if (known.Place(text, _places) is { } place) return place;
        reports.Add(
            DiagnosticDescriptors.UnreadablePlace,
            cell,
            () => "this is no place on a frame of the record",
            () => "record the frame first, or add a rule `addresses` to the mapping");
        return null;
    }

    private CellValue? Refuse(SheetCell cell, string message, string help)
    {
        reports.Unreadable(cell, message, help);
        return null;
    }

    private static CellValue One(string text) => new(FactValue.Of(text), []);

    private static string Shortened(string text) => text.Length > 40 ? text[..40] + "…" : text;

    internal static bool IsAddress(string key) =>
        key.StartsWith("ends.", StringComparison.Ordinal) && key.EndsWith(".at", StringComparison.Ordinal);

    /// <summary>A bare number with its unit. A decimal comma is one unless it could part thousands.</summary>
    internal static string WithUnit(string text, string unit)
    {
        var comma = text.IndexOf(',', StringComparison.Ordinal);
        var plain = comma > 0 && text.Length - comma is 2 or 3 ? text.Replace(',', '.') : text;
        return IsNumber(plain) ? $"{plain} {unit}" : text;
    }

    internal static bool IsNumber(string text) => double.TryParse(
        text.Trim(),
        System.Globalization.NumberStyles.AllowLeadingSign | System.Globalization.NumberStyles.AllowDecimalPoint,
        System.Globalization.CultureInfo.InvariantCulture,
        out _);
}

using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Intake.Spreadsheets;

/// <summary>Whether the record says already what a cell says.</summary>
internal static class RecordedFacts
{
    /// <summary>Whether a record says it; a date may be recorded more exactly than a list has it.</summary>
    internal static bool Says(RawRecord? record, RecordKind kind, string key, FactValue value)
    {
        if (record is null) return false;
        if (CellReader.IsAddress(key))
        {
            return Address.TryParse(value.Text, out var place) && record.Facts.Any(end =>
                CellReader.IsAddress(end.Name) && Address.TryParse(end.Text, out var recorded) && recorded == place);
        }

        return record.Fact(key) is { } said && IsSame(kind, key, value.Text, said.Text);
    }

    /// <summary>A fact that the record says, as it is written there.</summary>
    internal static CellFact AsRecorded(RawRecord record, CellFact fact) =>
        fact.Value.Value is SingleFact && !CellReader.IsAddress(fact.Key) && record.Fact(fact.Key) is { } said
            ? fact with { Value = new CellValue(FactValue.Of(said.Text), []) }
            : fact;

    /// <summary>Whether two texts of a fact say the same, or the second says it more exactly.</summary>
    internal static bool IsSame(RecordKind kind, string key, string text, string recorded) =>
        FactComparison.AreEqual(kind, key, text, recorded)
        || (FactFormats.ValueOf(kind, key) is { IsDate: true } && IsSameDate(text, recorded));

    private static bool IsSameDate(string text, string recorded)
    {
        // Spreadsheets write seconds that nobody typed.
        const int Seconds = 19;
        if (text.Length == Seconds && text.EndsWith(":00", StringComparison.Ordinal)) text = text[..^3];
        return text.Length >= 4 && recorded.StartsWith(text, StringComparison.Ordinal)
            && (recorded.Length == text.Length || recorded[text.Length] is '-' or 'T' or ':');
    }
}

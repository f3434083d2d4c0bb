using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Records.Reading.Syntax;

/// <summary>
/// A number written with a decimal comma where commas part values: <c>{diameter: 6,1 mm}</c> in YAML, <c>6,4 m</c> in a table. What was
/// meant is one value; what is read is two, and neither is one that the record takes.
/// </summary>
internal static class DecimalComma
{
    /// <summary>The number with its comma, where an entry of a braced mapping and the next one are its halves.</summary>
    /// <param name="key">What is read as the next key.</param>
    /// <param name="value">What is read as its value.</param>
    /// <returns>Where both halves stand; null where they are none.</returns>
    public static SourceSpan? Joined(MappingEntry before, SyntaxNode key, SyntaxNode value) =>
        key is ScalarNode { Form: ScalarNotation.Plain } behind
            && value is ScalarNode { Text: "" }
            && before.Value is ScalarNode { Form: ScalarNotation.Plain } ahead
            ? Joined(ahead, behind)
            : null;

    /// <summary>The number with its comma, where two values are its halves: digits, and behind the comma more of them and a unit.</summary>
    /// <param name="ahead">What stands before the comma.</param>
    /// <returns>Where both halves stand; null where they are none.</returns>
    public static SourceSpan? Joined(ScalarNode ahead, ScalarNode behind)
    {
        var isNumber = IsWhole(ahead.Text)
            && behind.Text.Length > 0
            && char.IsAsciiDigit(behind.Text[0])
            && behind.Span.Start == ahead.Span.End + 1;
        return isNumber ? ahead.Span with { Length = behind.Span.End - ahead.Span.Start } : null;
    }

    /// <summary>
    /// A cell of a table in which semicolons or tabs part cells, with a point for its one comma between digits: there the comma is the
    /// decimal comma of its language. What has a point or several commas stays as it is, and is refused.
    /// </summary>
    public static ScalarNode WithPoint(ScalarNode cell)
    {
        var text = cell.Text;
        var comma = text.IndexOf(',', StringComparison.Ordinal);
        return comma > 0
            && comma == text.LastIndexOf(',')
            && !text.Contains('.', StringComparison.Ordinal)
            && char.IsAsciiDigit(text[comma - 1])
            && comma + 1 < text.Length
            && char.IsAsciiDigit(text[comma + 1])
            ? cell with { Text = string.Concat(text.AsSpan(0, comma), ".", text.AsSpan(comma + 1)) }
            : cell;
    }

    /// <param name="whole">The number with its comma.</param>
    public static Diagnostic Report(SourceSpan whole) => DiagnosticDescriptors.BadNumber.At(
        whole, $"`{Quotation.Shorten(whole.Text)}` contains a comma", "write `.` as the decimal point, and no separator between thousands");

    private static bool IsWhole(string text) => text.TrimStart('-', '+', '−') is { Length: > 0 } digits && digits.All(char.IsAsciiDigit);
}

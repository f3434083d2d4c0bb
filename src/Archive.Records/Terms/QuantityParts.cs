using System.Globalization;
using Archive.Diagnostics.Descriptors;

namespace Archive.Records.Terms;

// A number and the unit behind it, with their places in the text.
internal readonly record struct QuantityPart(
    string Text, decimal Number, bool IsNegative, int Start, int NumberLength, int UnitStart, string Unit)
{
    // A sign belongs to the number, be there a space between.
    internal int SignStart => Math.Max(Text.AsSpan(0, Start).IndexOfAnyExcept(' ', '\t'), -1) is >= 0 and var sign ? sign : Start;

    // With the sign, where it is the first part and has one.
    internal int Begin => Text.AsSpan(0, Start).Trim() is "-" or "−" ? SignStart : Start;

    internal int End => Unit.Length == 0 ? Start + NumberLength : UnitStart + Unit.Length;

    internal string Written => Text[Start..End];
}

// Takes a quantity's text apart: `7 ft 2 1/2 in` is 7 ft and 2.5 in.
internal static class QuantityParts
{
    // A dimension, which knows its units, says how to write one.
    private const string NumberAndUnit = "";

    private const int MostParts = 3;
    private const int MostDigits = 20;

    internal static TermError? Parse(string text, out List<QuantityPart> parts)
    {
        parts = [];
        var at = SkipSpace(text, 0);
        var negative = at < text.Length && text[at] is '-' or '−';
        if (negative || (at < text.Length && text[at] == '+')) at = SkipSpace(text, at + 1);
        do
        {
            var start = at;
            if (ReadNumber(text, ref at, out var number) is { } error) return error;
            var numberLength = at - start;
            at = SkipSpace(text, at);
            var unitStart = at;
            while (at < text.Length && !EndsUnit(text, unitStart, at)) at++;
            parts.Add(new QuantityPart(text, number, negative, start, numberLength, unitStart, text[unitStart..at].TrimEnd()));
            at = SkipSpace(text, at);
        }
        while (at < text.Length && parts.Count < MostParts);

        return at < text.Length
            ? new TermError(
                DiagnosticDescriptors.BadNumber,
                at,
                text.Length - at,
                "too many numbers for one quantity",
                NumberAndUnit)
            : null;
    }

    // A unit ends before a number of its own: behind a space, a mark of feet, or (7ft2in) letters that another unit follows.
    private static bool EndsUnit(string text, int unitStart, int at)
    {
        if (at == unitStart || !char.IsAsciiDigit(text[at])) return false;
        var before = text[at - 1];
        if (char.IsWhiteSpace(before)) return !text[unitStart..at].TrimEnd().EndsWith("per", StringComparison.Ordinal);
        if (before is '\'' or '′' or '’') return true;
        if (!char.IsAsciiLetter(before)) return false;
        var behind = at;
        while (behind < text.Length && (char.IsAsciiDigit(text[behind]) || text[behind] is '.' or '/')) behind++;
        return behind < text.Length && (char.IsAsciiLetter(text[behind]) || text[behind] is '"' or '″' or '”');
    }

    private static TermError? ReadNumber(string text, ref int at, out decimal number)
    {
        var start = at;
        if (ReadDecimal(text, ref at, out number) is { } error) return error;
        if (at < text.Length && text[at] == '/' && Numeral(text, at + 1) > 0) return ReadFraction(text, start, ref at, 0, ref number);
        var next = SkipSpace(text, at);
        if (next < text.Length && text[next] is '-' or '⁄') next++;
        var digits = Numeral(text, next);
        if (digits == 0 || next == at) return null;
        if (next + digits < text.Length && text[next + digits] == '/')
        {
            var whole = number;
            var numerator = next;
            at = next;
            if (ReadDecimal(text, ref at, out number) is { } wrong) return wrong;
            return ReadFraction(text, numerator, ref at, whole, ref number);
        }

        at = next + digits;
        return new TermError(
            DiagnosticDescriptors.BadNumber,
            start,
            at - start,
            $"`{text[start..at]}` is not one number",
            "write the digits of a number together, without spaces");
    }

    // A fraction of an inch, as rules are divided: 3/4, 2 1/2.
    private static TermError? ReadFraction(string text, int start, ref int at, decimal whole, ref decimal number)
    {
        at++;
        if (ReadDecimal(text, ref at, out var divisor) is { } error) return error;
        if (divisor == 0) return new TermError(
            DiagnosticDescriptors.BadNumber, start, at - start, "a fraction without a denominator", "write a number such as `2 1/2`");
        number = whole + (number / divisor);
        return null;
    }

    private static TermError? ReadDecimal(string text, ref int at, out decimal number)
    {
        var start = at;
        while (at < text.Length && (char.IsAsciiDigit(text[at]) || text[at] is '.' or ',')) at++;
        var written = text[start..at];
        number = 0;
        if (written.Contains(',', StringComparison.Ordinal))
        {
            return new TermError(DiagnosticDescriptors.BadNumber, start, written.Length, $"`{written}` contains a comma",
                "write `.` as the decimal point, and no separator between thousands");
        }

        if (written.Length <= MostDigits
            && decimal.TryParse(written, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out number)) return null;
        if (written.Length > MostDigits) return new TermError(
            DiagnosticDescriptors.BadNumber, start, written.Length, "a number with too many digits", "check the number");
        var length = written.Length > 0 ? written.Length : text.Length - start;
        return new TermError(
            DiagnosticDescriptors.BadNumber,
            start,
            length,
            length == 0 ? "a quantity is missing its number" : $"`{text.Substring(start, length)}` does not begin with a number",
            NumberAndUnit);
    }

    private static int Numeral(string text, int at)
    {
        var end = at;
        while (end < text.Length && char.IsAsciiDigit(text[end])) end++;
        return end - at;
    }

    private static int SkipSpace(string text, int at)
    {
        while (at < text.Length && char.IsWhiteSpace(text[at])) at++;
        return at;
    }
}

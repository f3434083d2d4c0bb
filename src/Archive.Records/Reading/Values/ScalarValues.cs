using System.Globalization;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Syntax;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Values;

/// <summary>Readers of single values that are no quantities.</summary>
internal static partial class ScalarValues
{
    private static readonly string[] PartsOfAddress = ["frame", "position", "port"];

    /// <summary>A text, exactly as written.</summary>
    public static bool Text(in WrittenValue written, out string value)
    {
        value = written.Text;
        return true;
    }

    /// <summary><c>true</c> or <c>false</c>, without quotes.</summary>
    public static bool Truth(in WrittenValue written, out bool value)
    {
        value = written.Text is "true" or "True" or "TRUE";
        return (written.Node.IsPlain && (value || written.Text is "false" or "False" or "FALSE"))
            || written.Refuse(
                DiagnosticDescriptors.WrongType, $"`{written.Key}` must be true or false", "write `true` or `false`, without quotes");
    }

    /// <summary>A whole number from zero to a million.</summary>
    public static bool Count(in WrittenValue written, out int value) => Whole(written, 0, 1_000_000, out value);

    /// <summary>A whole number from one to a million.</summary>
    public static bool CountFromOne(in WrittenValue written, out int value) => Whole(written, 1, 1_000_000, out value);

    /// <summary>A whole number of either sign, up to a million.</summary>
    public static bool Rank(in WrittenValue written, out int value) => Whole(written, -1_000_000, 1_000_000, out value);

    /// <summary>A number above zero, up to a thousand.</summary>
    public static bool Factor(in WrittenValue written, out double value) =>
        Number(written, out value)
        && (value is > 0 and <= 1000 || written.Refuse(
            DiagnosticDescriptors.BadNumber, $"`{written.Key}` must be a number above 0, up to 1000", "check the number"));

    /// <summary>A number; a fraction has a point.</summary>
    public static bool Number(in WrittenValue written, out double value)
    {
        value = 0;
        if (!written.Node.IsPlain) return NotANumber(written);
        return (double.TryParse(written.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value))
            || written.Refuse(
                DiagnosticDescriptors.BadNumber, $"`{written.Key}` expects a number", "write digits, with a point before decimals");
    }

    /// <summary>A date, a date with a time, or an interval of dates.</summary>
    public static bool Date(in WrittenValue written, out EdtfDate value)
    {
        if (EdtfDate.TryParse(written.Text, out value!, out var why)) return true;
        return written.Refuse(DiagnosticDescriptors.BadDate, why!, "write a date such as `2026-05-12`, `1984~` or `1979/1986`");
    }

    /// <summary>An address on a frame.</summary>
    public static bool Address(in WrittenValue written, out Address value)
    {
        if (Archive.Records.Terms.Address.TryParse(written.Text, out value)) return true;
        var parts = written.Text.Split('/');
        var wrong = Array.FindIndex(parts, part => !RecordId.IsValid(part));
        return parts.Length <= 3 && parts.Length > 1 && wrong >= 0 && parts[wrong].Length > 0
            ? written.Refuse(
                DiagnosticDescriptors.BadAddress,
                $"`{written.Short}` is not an address: `{Quotation.Shorten(parts[wrong])}` cannot name a {PartsOfAddress[wrong]}",
                "start each part with a letter or digit, then use letters, digits, `.`, `_` and `-`")
            : written.Refuse(
                DiagnosticDescriptors.BadAddress,
                $"`{written.Short}` is not an address",
                "write `FRAME`, `FRAME/POSITION`, `FRAME/POSITION/PORT` or `FRAME/POSITION:SLOT/PORT`");
    }

    public static bool Id(in WrittenValue written, out string value)
    {
        value = written.Text;
        return RecordId.IsValid(value)
            || written.Refuse(
                DiagnosticDescriptors.BadId,
                $"`{written.Short}` is not an id" + (RecordId.Unfit(value) is { } wrong ? $": {wrong}" : ""),
                "use letters from a to z or A to Z, digits, `.`, `_` and `-`, at most 64, and start with a letter or digit");
    }

    /// <summary>A port, or a range of ports.</summary>
    public static bool Ports(in WrittenValue written, out PortRange value) =>
        PortRange.TryParse(written.Text, written.Node.Span, out value, out var why)
        || written.Refuse(DiagnosticDescriptors.BadPortRange, why!, "write a port such as `TB1`, or a range such as `J1..J24`");

    /// <summary>A slot, or a range of slots.</summary>
    public static bool Slots(in WrittenValue written, out PortRange value) =>
        PortRange.TryParse(written.Text, written.Node.Span, out value, out var why)
        || written.Refuse(
            DiagnosticDescriptors.BadPortRange,
            why!.Replace("port", "slot", StringComparison.Ordinal),
            "write a slot such as `7`, or a range such as `1..16`");

    /// <summary>Where a unit plugs in.</summary>
    public static bool UnitPlace(in WrittenValue written, out UnitPlace value)
    {
        if (Archive.Records.Terms.UnitPlace.TryParse(written.Text, out value)) return true;
        var slot = written.Text.Split('/');
        return written.Refuse(
            DiagnosticDescriptors.BadAddress,
            $"`{written.Short}` is not a place of a unit",
            slot.Length == 3 && slot.All(RecordId.IsValid)
                ? $"write the slot after a colon: `{Quotation.Shorten($"{slot[0]}/{slot[1]}:{slot[2]}")}`"
                : "write `FRAME`, `FRAME/POSITION` or `FRAME/POSITION:SLOT`");
    }

    /// <summary>A SHA-256 checksum, in lower case.</summary>
    public static bool Checksum(in WrittenValue written, out string value)
    {
        value = written.Text.ToLowerInvariant();
        return (value.Length == 64 && value.All(char.IsAsciiHexDigitLower))
            || written.Refuse(
                DiagnosticDescriptors.BadChecksum,
                "a SHA-256 checksum has 64 hexadecimal digits",
                "have `asfound intake` write it, or leave it out");
    }

    /// <summary>Whether an original is published. It was true or false alone before there were words for it.</summary>
    public static bool Sharing(in WrittenValue written, out OriginalSharing value)
    {
        value = default;
        if (!written.Node.IsPlain && written.Text is ("true" or "false"))
        {
            return written.Refuse(
                DiagnosticDescriptors.WrongType,
                $"`{written.Key}` must be true or false without quotes, or one of two words",
                "write `true`, `false`, `stripped` or `with_notes`, without quotes");
        }

        if (written.Text is "True" or "TRUE" or "False" or "FALSE")
        {
            value = written.Text is "True" or "TRUE" ? OriginalSharing.True : OriginalSharing.False;
            return true;
        }

        return EnumNames<OriginalSharing>.Read(written, out value);
    }

    private static bool Whole(in WrittenValue written, int least, int most, out int value)
    {
        value = 0;
        if (!written.Node.IsPlain) return NotANumber(written);
        if (!int.TryParse(written.Text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out value))
        {
            return written.Refuse(DiagnosticDescriptors.BadNumber, $"`{written.Key}` expects a whole number", "write digits only");
        }

        return (value >= least && value <= most)
            || written.Refuse(
                DiagnosticDescriptors.BadNumber, $"`{written.Key}` must be a whole number from {least} to {most}", "check the number");
    }

    private static bool NotANumber(in WrittenValue written) =>
        written.Refuse(DiagnosticDescriptors.WrongType, $"`{written.Key}` expects a number, but this is quoted text", "remove the quotes");
}

using System.Globalization;
using System.Text.RegularExpressions;
using Archive.Diagnostics.Descriptors;
using UnitsNet;

namespace Archive.Records.Terms;

/// <summary>Conductor size: American wire gauge, or a section.</summary>
/// <param name="Text">As written: <c>24 AWG</c>, <c>2/0 AWG</c>, <c>16 mm2</c>.</param>
/// <param name="Section">Copper section of one conductor; for a gauge, that of a solid wire.</param>
public readonly partial record struct WireGauge(string Text, Area Section)
{
    private const int Thinnest = 40;
    private const int Thickest = -3;

    /// <summary>Reads a gauge from 4/0 to 40 AWG, or a section in mm² or circular mils.</summary>
    /// <param name="text">Such as <c>24 AWG</c>, <c>AWG 24</c>, <c>2/0 AWG</c>, <c>16 mm²</c>, <c>250 kcmil</c>.</param>
    /// <param name="gauge">The conductor size.</param>
    /// <param name="error">What is wrong, where it cannot be read.</param>
    public static bool TryParse(string text, out WireGauge gauge, out TermError? error)
    {
        gauge = default;
        error = null;
        var match = Gauge().Match(text);
        if (!match.Success)
        {
            var reading = Dimensions.Section.Read(text);
            if (reading.Value is { SquareMeters: > 0 } section) gauge = new WireGauge(text.Trim(), section);
            else error = reading.Fault ?? new TermError(
                DiagnosticDescriptors.BadNumber,
                0,
                text.Length,
                "a conductor without a section",
                "write a gauge such as `24 AWG`, or a section such as `16 mm2`");
            if (error?.Kind == DiagnosticDescriptors.BareNumber) error = error with { Help = "add `AWG`, or `mm2` if it is a section" };
            return error is null;
        }

        var number = match.Groups["number"];
        if (NumberOf(number.Value) is not { } n)
        {
            error = new TermError(DiagnosticDescriptors.BadNumber, number.Index, number.Length, $"there is no gauge `{number.Value}`",
                "write a gauge from 40 (thinnest) to 1, 1/0, 2/0, 3/0 or 4/0 (thickest)");
            return false;
        }

        gauge = new WireGauge(text.Trim(), Area.FromSquareMeters(Math.PI / 4 * Math.Pow(DiameterOf(n).Meters, 2)));
        return true;
    }

    /// <summary>Diameter of a solid wire: 0.005 in x 92^((36 - n) / 39), by ASTM B258.</summary>
    /// <param name="gauge">The gauge's number; 0, -1, -2 and -3 are 1/0, 2/0, 3/0 and 4/0.</param>
    public static Length DiameterOf(int gauge) => Length.FromInches(0.005 * Math.Pow(92, (36 - gauge) / 39.0));

    // 00 is another way to write 2/0.
    private static int? NumberOf(string text)
    {
        if (text.EndsWith("/0", StringComparison.Ordinal)) return text.Length == 3 && text[0] is >= '1' and <= '4' ? '1' - text[0] : null;
        if (text.All(digit => digit == '0')) return text.Length <= 1 - Thickest ? 1 - text.Length : null;
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var n) && n <= Thinnest ? n : null;
    }

    [GeneratedRegex(
        @"^\s*(AWG\s*#?(?<number>\d+(/\d+)?)|#?(?<number>\d+(/\d+)?)\s*AWG)\s*\z",
        RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture)]
    private static partial Regex Gauge();
}

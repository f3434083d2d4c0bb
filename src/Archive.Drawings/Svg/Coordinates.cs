using System.Text;

namespace Archive.Drawings.Svg;

/// <summary>Numbers as SVG takes them.</summary>
internal static class Coordinates
{
    // Beyond this a drawing is of no use to anyone, and cents of it still fit a long.
    private const double Most = 1e12;

    /// <summary>Appends a number to a hundredth of a unit, the same in every culture; what is not finite becomes 0.</summary>
    /// <param name="value">Units.</param>
    /// <remarks>By whole numbers: a large site has tens of millions of these, and formatting doubles costs five times as much.</remarks>
    internal static StringBuilder Coordinate(this StringBuilder text, double value)
    {
        var hundredths = Hundredths(value);
        if (hundredths < 0) text.Append('-');
        var (whole, part) = Math.DivRem(Math.Abs(hundredths), 100);
        text.Append(whole);
        if (part == 0) return text;
        text.Append('.').Append((char)('0' + (part / 10)));
        return part % 10 == 0 ? text : text.Append((char)('0' + (part % 10)));
    }

    /// <summary>What is written of a number.</summary>
    internal static long Hundredths(double value) =>
        double.IsFinite(value) ? (long)Math.Round(Math.Clamp(value, -Most, Most) * 100) : 0;
}

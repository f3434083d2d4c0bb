using System.Globalization;
using Archive.Records.Terms;

namespace Archive.Drawings.Svg;

/// <summary>A scale to measure by: four parts of a round number, alternately filled.</summary>
internal static class ScaleBar
{
    private const double Foot = 304.8;

    /// <param name="corner">Its left upper corner.</param>
    /// <param name="most">Most of the sheet that it may take, in units.</param>
    /// <param name="size">Size of its figures.</param>
    internal static void Draw(SvgWriter svg, PaperPoint corner, double perMillimetre, double most, DisplayUnits units, double size)
    {
        var isFeet = units == DisplayUnits.InchPound;
        var unit = isFeet ? Foot : 1000;
        var part = RoundDown(most / 4 / perMillimetre / unit);
        var wide = part * unit * perMillimetre;
        for (var i = 0; i < 4; i++)
            svg.Rectangle(new PaperBox(corner.X + (i * wide), corner.Y, wide, 4), i % 2 == 0 ? "fine solid" : "fine");
        foreach (var i in (int[])[0, 2, 4])
        {
            var says = (i * part).ToString("0.##", CultureInfo.InvariantCulture) + (i == 4 ? isFeet ? " ft" : " m" : string.Empty);
            svg.Text(new PlacedText(
                says, new(corner.X + (i * wide), corner.Y + 5 + size), size, i == 0 ? TextAnchor.Start : TextAnchor.Middle));
        }
    }

    // The greatest of 1, 2, 5 times a power of ten that is not above a number.
    private static double RoundDown(double number)
    {
        var power = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(number, 1e-6))));
        return (number / power * (1 + 1e-9)) switch { >= 5 => 5, >= 2 => 2, _ => 1 } * power;
    }
}

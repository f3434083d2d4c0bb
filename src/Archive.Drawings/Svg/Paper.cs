using Archive.Halls.Layout;
using Archive.Records.Model;

namespace Archive.Drawings.Svg;

/// <summary>How millimetres of a hall come to lie on the sheet.</summary>
/// <param name="West">Millimetres at the sheet's <paramref name="Left"/>.</param>
/// <param name="North">Millimetres at the sheet's <paramref name="Top"/>.</param>
/// <param name="Left">Units left of the hall.</param>
/// <param name="Top">Units above the hall.</param>
/// <param name="PerMillimetre">Units a millimetre.</param>
internal readonly record struct PlanScale(double West, double North, double Left, double Top, double PerMillimetre)
{
    internal PaperPoint ToPaper(PlanPoint point) =>
        new(Left + ((point.X - West) * PerMillimetre), Top + ((point.Y - North) * PerMillimetre));

    /// <summary>All five, as scripts read them.</summary>
    internal string ForScripts => string.Create(
        System.Globalization.CultureInfo.InvariantCulture, $"{West:0.##} {North:0.##} {Left:0.##} {Top:0.##} {PerMillimetre:0.########}");

    internal PaperBox ToPaper(Footprint footprint)
    {
        var corner = ToPaper(new PlanPoint(footprint.West, footprint.North));
        return new PaperBox(corner.X, corner.Y, footprint.Across * PerMillimetre, footprint.Down * PerMillimetre);
    }
}

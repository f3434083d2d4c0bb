using System.Globalization;
using Archive.Drawings.Svg;
using Archive.Records.Terms;

namespace Archive.Drawings.Frames;

/// <summary>The scales beside a frame's face: heights at its left, rack units at its right.</summary>
internal static class ElevationScale
{
    // EIA-310: one rack unit is 1.75 in.
    private const double RackUnit = 44.45;
    private const double Foot = 304.8;
    private const int MostTicks = 400;

    internal static void Draw(ElevationDrawing elevation)
    {
        var isFeet = elevation.Options.Units == DisplayUnits.InchPound;
        Heights(elevation, isFeet ? Foot / 4 : 100, isFeet ? 4 : 5, isFeet ? " ft" : " m", isFeet ? Foot : 1000);
        RackUnits(elevation);
    }

    private static void Heights(ElevationDrawing elevation, double step, int long_, string unit, double whole)
    {
        var (svg, face) = (elevation.Svg, elevation.Face);
        var x = face.X - 8;
        var path = new SvgPath().Line(new(x, face.Y), new(x, face.Bottom));
        var least = face.Bottom;
        for (var i = 0; i < MostTicks && elevation.Level(i * step) >= face.Y - 0.01; i++)
        {
            var y = elevation.Level(i * step);
            path.Line(new(x, y), new(x - (i % long_ == 0 ? 6 : 3), y));
            var text = new PlacedText(
                (i * step / whole).ToString("0.##", CultureInfo.InvariantCulture) + (i == 0 ? unit : string.Empty),
                new(x - 8, y + 3),
                TextMetrics.Usual,
                TextAnchor.End);
            if (i % long_ != 0 || (i > 0 && text.Box.Bottom > least)) continue;
            svg.Text(text);
            least = text.Box.Y;
        }

        svg.Path(path, "fine");
    }

    private static void RackUnits(ElevationDrawing elevation)
    {
        var (svg, face) = (elevation.Svg, elevation.Face);
        if (RackUnit * elevation.PerMillimetre < 3) return;
        var x = face.Right + 5;
        var path = new SvgPath();
        for (var unit = 0; unit < MostTicks && elevation.Level(unit * RackUnit) >= face.Y - 0.01; unit++)
        {
            var y = elevation.Level(unit * RackUnit);
            path.Line(new(x, y), new(x + (unit % 5 == 0 ? 6 : 3), y));
            if (unit % 10 != 0) continue;
            var text = new PlacedText(
                unit.ToString(CultureInfo.InvariantCulture) + (unit == 0 ? " U" : string.Empty), new(x + 8, y + 3), TextMetrics.Usual);
            svg.Text(text, "minor");
            elevation.Space.Take(text.Box);
        }

        svg.Path(path, "fine");
    }
}

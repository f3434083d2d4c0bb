using System.Collections.Immutable;
using System.Globalization;
using Archive.Drawings.Svg;
using Archive.Halls.Trays;
using Archive.Markup.Text;
using Archive.Records.Terms;
using Archive.Records.Wording;
using UnitsNet;

namespace Archive.Drawings.Trays;

/// <summary>How many cables lie along a tray, and where its sections are taken.</summary>
public static class TrayProfile
{
    private const double Width = 340, Height = 130, Left = 30, Right = 14, Top = 22, Bottom = 26;

    /// <summary>Draws the profile.</summary>
    /// <param name="stations">Where sections are taken, along the tray; each is named by a letter, from A.</param>
    /// <returns>Inline SVG in a box of class <c>drawing profile</c>; none for a tray without length or cables.</returns>
    public static HtmlFragment Draw(TraySpans spans, ImmutableArray<TrayStation> stations, DisplayUnits units)
    {
        var profile = spans.Profile().ToList();
        var most = profile.Select(piece => piece.Count).DefaultIfEmpty().Max();
        if (most == 0 || !(spans.Length is > 1 and < 1e9)) return HtmlFragment.None;
        var text = new UnitFormatter(units);
        var svg = new SvgWriter(
            new SheetSize(Width, Height),
            "profile",
            $"Cables along tray {spans.Tray.Id}",
            $"At most {Phrase.Count(most, "cable")} at one place. Sections at "
                + $"{string.Join(", ", stations.Select(at => text.Format(Round(at.At))))}.",
            hasLinks: false);
        double X(double along) => Left + (along / spans.Length * (Width - Left - Right));
        double Y(double count) => Height - Bottom - (count / most * (Height - Top - Bottom));
        var line = new SvgPath().MoveTo(new(X(0), Y(0)));
        foreach (var piece in profile) line.LineTo(new(X(piece.From), Y(piece.Count))).LineTo(new(X(piece.To), Y(piece.Count)));
        svg.Path(line.LineTo(new(X(spans.Length), Y(0))).Close(), "grey");
        svg.Line(new(X(0), Y(0)), new(X(spans.Length), Y(0)), "medium");
        svg.Line(new(X(0), Y(0)), new(X(0), Y(most)), "fine");
        svg.Text(new PlacedText(Phrase.Count(most), new(Left - 4, Y(most) + 4), TextMetrics.Usual, TextAnchor.End));
        svg.Text(new PlacedText("0", new(Left - 4, Y(0) + 3), TextMetrics.Usual, TextAnchor.End));
        svg.Text(new PlacedText("0", new(X(0), Height - 8), TextMetrics.Usual));
        var whole = text.Format(Round(UnitsNet.Length.FromMillimeters(spans.Length)));
        svg.Text(new PlacedText(whole, new(X(spans.Length), Height - 8), TextMetrics.Usual, TextAnchor.End));
        var lastRight = 0.0;
        for (var i = 0; i < stations.Length; i++)
        {
            var x = X(stations[i].At.Millimeters);
            svg.Line(new(x, Y(0)), new(x, Top - 6), "medium dashed");
            var name = PlacedText.Centred(Letter(i), new(x, Top - 13), TextMetrics.Usual);
            if (name.Box.X < lastRight) continue;
            svg.Text(name, "name");
            lastRight = name.Box.Right + 1;
        }

        return svg.Finish();
    }

    /// <summary>The letter of a station.</summary>
    /// <param name="number">From 0; at most 26 are lettered.</param>
    public static string Letter(int number) => ((char)('A' + (number % 26))).ToString(CultureInfo.InvariantCulture);

    private static Length Round(Length length) => UnitsNet.Length.FromMeters(Math.Round(length.Meters, 1));
}

using Archive.Drawings.Svg;
using Archive.Markup.Text;

namespace Archive.Drawings.QrCodes;

/// <summary>
/// A text as a QR code (ISO/IEC 18004), to be scanned from a label: black on white whatever the page wears, in whole modules.
/// </summary>
public static class QrDrawing
{
    /// <summary>Blank modules around the code, as the standard needs.</summary>
    public const int QuietZone = 4;

    private const int UnitsPerModule = 4;

    /// <summary>Draws a code that is still read with a quarter of it damaged (level Q).</summary>
    /// <param name="text">What it says, such as an address.</param>
    /// <returns>Inline SVG in a box of class <c>drawing code</c>; nothing for a text too long for a code.</returns>
    public static HtmlFragment Draw(string text) => Draw(text, QrMatrix.Encode(text, ErrorCorrectionLevel.Q));

    /// <summary>Draws what was encoded: much less work than to encode it.</summary>
    /// <param name="code">Its modules; null draws nothing.</param>
    public static HtmlFragment Draw(string text, QrMatrix? code)
    {
        if (code is null) return HtmlFragment.None;
        var side = (code.Side + (2 * QuietZone)) * UnitsPerModule;
        var svg = new SvgWriter(new SheetSize(side, side), "code", "QR code", text, hasLinks: false);
        svg.Rectangle(new PaperBox(0, 0, side, side), "ground");
        svg.Path(new SvgPath().Figures(code.Outline(UnitsPerModule, QuietZone * UnitsPerModule)), "module");
        return svg.Finish();
    }
}

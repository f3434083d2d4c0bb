using QRCoder;
using QRCoder.Exceptions;

namespace Archive.Site;

/// <summary>A text as a QR code (ISO/IEC 18004), to be scanned from a label: black on white whatever the page wears, in whole modules.</summary>
public static class QrSquare
{
    /// <summary>Blank modules around the code, as the standard wants.</summary>
    public const int QuietZone = 4;

    private const int UnitsPerModule = 4;

    /// <summary>Draws a code that is still read with a quarter of it worn off (level Q).</summary>
    /// <param name="text">What it says, such as an address.</param>
    /// <returns>Inline SVG in a box of class <c>drawing code</c>; nothing for a text too long for a code.</returns>
    public static Markup Draw(string text) => Draw(text, Encode(text));

    /// <summary>Encodes a text: much more work than to draw it, and much less to keep.</summary>
    /// <param name="text">What it says.</param>
    /// <returns>Its modules; none for a text too long for a code.</returns>
    internal static ReadOnlyMemory<byte> Encode(string text)
    {
        try
        {
            using var code = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.Q);
            return code.GetRawData(QRCodeData.Compression.Uncompressed);
        }
        catch (DataTooLongException)
        {
            return default;
        }
    }

    /// <summary>Draws what was encoded.</summary>
    /// <param name="text">What it says.</param>
    /// <param name="encoded">Its modules.</param>
    internal static Markup Draw(string text, ReadOnlyMemory<byte> encoded)
    {
        if (encoded.IsEmpty) return Markup.None;
        using var code = new QRCodeData(encoded.ToArray(), QRCodeData.Compression.Uncompressed);
        return Draw(text, code);
    }

    private static Markup Draw(string text, QRCodeData code)
    {
        var modules = code.ModuleMatrix; // its quiet zone is in it
        var side = modules.Count * UnitsPerModule;
        var svg = new SvgWriter(new SheetSize(side, side), "code", "QR code", text, hasLinks: false);
        svg.Rectangle(new PaperBox(0, 0, side, side), "ground");
        var path = new SvgPath();
        for (var row = 0; row < modules.Count; row++)
        {
            for (var from = 0; from < modules.Count; from++)
            {
                if (!modules[row][from]) continue;
                var to = from;
                while (to + 1 < modules.Count && modules[row][to + 1]) to++;
                path.Box(new PaperBox(from * UnitsPerModule, row * UnitsPerModule, (to + 1 - from) * UnitsPerModule, UnitsPerModule));
                from = to;
            }
        }

        svg.Path(path, "module");
        return svg.Finish();
    }
}

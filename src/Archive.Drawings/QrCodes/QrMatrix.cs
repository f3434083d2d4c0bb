using System.Collections;
using System.Globalization;
using System.Text;
using QRCoder;
using QRCoder.Exceptions;

namespace Archive.Drawings.QrCodes;

/// <summary>The level of error correction or soiled: the four levels of ISO/IEC 18004.</summary>
public enum ErrorCorrectionLevel
{
    /// <summary>About 7 parts in a hundred.</summary>
    L,

    /// <summary>About 15.</summary>
    M,

    /// <summary>About 25.</summary>
    Q,

    /// <summary>About 30.</summary>
    H,
}

/// <summary>A text as the modules of a QR code, without its quiet zone.</summary>
/// <param name="Side">Modules a side: 17 and four times the version.</param>
public sealed record QrMatrix(int Side)
{
    private BitArray Bits { get; init; } = new(0);

    /// <summary>Whether a module is dark.</summary>
    /// <param name="row">Row, from 0 at the top.</param>
    /// <param name="column">Column, from 0 at the left.</param>
    internal bool IsDark(int row, int column) => Bits[(row * Side) + column];

    /// <summary>
    /// The outlines of all that is dark, as the data of one SVG path: one, so that no printer leaves a hair between two modules, and
    /// outlines, because they are half as long as boxes.
    /// </summary>
    /// <param name="unit">Side of a module.</param>
    /// <param name="edge">Where the code begins, across and down.</param>
    public string Outline(int unit = 1, int edge = 0)
    {
        var path = new StringBuilder();
        var begun = new BitArray(Side * Side);
        for (var y = 0; y < Side; y++)
        {
            for (var x = 0; x < Side; x++)
            {
                if (Dark(x, y) && !Dark(x, y - 1) && !begun[(y * Side) + x]) Follow(path, begun, (x, y), unit, edge);
            }
        }

        return path.ToString();
    }

    // Once around, from the left end of an upper edge, with what is dark to the right: outer outlines turn one way, those of holes the
    // other, so that holes stay empty whichever rule of filling holds.
    private void Follow(StringBuilder path, BitArray begun, (int X, int Y) start, int unit, int edge)
    {
        path.Append(CultureInfo.InvariantCulture, $"M{edge + (start.X * unit)} {edge + (start.Y * unit)}");
        var (x, y, dx, dy, length) = (start.X, start.Y, 1, 0, 0);
        while (true)
        {
            if (dx > 0) begun[(y * Side) + x] = true;
            (x, y, length) = (x + dx, y + dy, length + 1);
            var turn = !Dark(x + ((dx - dy - 1) / 2), y + ((dx + dy - 1) / 2)) ? 1
                : Dark(x + ((dx + dy - 1) / 2), y + ((dy - dx - 1) / 2)) ? -1 : 0;
            if (turn == 0) continue;
            var next = (X: -dy * turn, Y: dx * turn);

            // The last line is drawn by closing.
            if ((x, y) == start && next == (1, 0)) break;
            path.Append(dy == 0 ? 'h' : 'v').Append(CultureInfo.InvariantCulture, $"{length * unit * (dx + dy)}");
            (dx, dy, length) = (next.X, next.Y, 0);
        }

        path.Append('z');
    }

    private bool Dark(int x, int y) => x >= 0 && y >= 0 && x < Side && y < Side && IsDark(y, x);

    /// <summary>Encodes a text in the smallest version that holds it; null where none does.</summary>
    /// <param name="level">How much may be damaged.</param>
    public static QrMatrix? Encode(string text, ErrorCorrectionLevel level)
    {
        try
        {
            using var code = QRCodeGenerator.GenerateQrCode(text, level switch
            {
                ErrorCorrectionLevel.L => QRCodeGenerator.ECCLevel.L,
                ErrorCorrectionLevel.M => QRCodeGenerator.ECCLevel.M,
                ErrorCorrectionLevel.Q => QRCodeGenerator.ECCLevel.Q,
                _ => QRCodeGenerator.ECCLevel.H,
            });

            // What is handed over has its quiet zone about it.
            var side = code.ModuleMatrix.Count - (2 * QrDrawing.QuietZone);
            var bits = new BitArray(side * side);
            for (var row = 0; row < side; row++)
            {
                for (var column = 0; column < side; column++)
                    bits[(row * side) + column] = code.ModuleMatrix[row + QrDrawing.QuietZone][column + QrDrawing.QuietZone];
            }

            return new QrMatrix(side) { Bits = bits };
        }
        catch (DataTooLongException)
        {
            return null;
        }
    }
}

using System.Collections;
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

    /// <summary>Dark modules side by side, row by row: what a drawing of the code is made of.</summary>
    public IEnumerable<(int Row, int From, int Length)> Runs()
    {
        for (var row = 0; row < Side; row++)
        {
            for (var from = 0; from < Side; from++)
            {
                if (!IsDark(row, from)) continue;
                var to = from + 1;
                while (to < Side && IsDark(row, to)) to++;
                yield return (row, from, to - from);
                from = to;
            }
        }
    }

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

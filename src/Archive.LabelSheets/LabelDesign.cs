using Archive.Drawings.QrCodes;

namespace Archive.LabelSheets;

/// <summary>How a code is set on a label so that it is read from a distance.</summary>
/// <param name="Level">How much of it may be damaged.</param>
/// <param name="Module">Side of a module in millimetres.</param>
/// <param name="Side">Modules a side, the quiet zone left out.</param>
public sealed record LabelDesign(ErrorCorrectionLevel Level, double Module, int Side)
{
    /// <summary>
    /// A 150th of an inch in millimetres: two dots of a printer of 300 dpi, four of one of 600. A module is so many of it, so that all
    /// modules come out of one width.
    /// </summary>
    public const double Dot = 25.4 / 150;

    /// <summary>
    /// The least side of a module in millimetres: three dots. Print needs a third to half a millimetre or more (common practice, no
    /// source).
    /// </summary>
    public const double LeastModule = 3 * Dot;

    // The highest level costs the finest modules: it is taken where they are still coarse (measured: with finer ones a reader missed one
    // code of 32 on a full sheet at 150 dpi).
    private const double LeastModuleOfH = 6 * Dot;

    // A code is read from about ten times its width: common practice, no source.
    private const double Reach = 10;

    // Blank between the quiet zone and the edge where the label is cut, in millimetres.
    internal const double Edge = 0.5;

    /// <summary>Width of the code in millimetres, the quiet zone left out.</summary>
    public double Width => Side * Module;

    /// <summary>Width of the code with its quiet zone, in millimetres.</summary>
    public double Box => (Side + (2 * QrDrawing.QuietZone)) * Module;

    /// <summary>From how far it is read, in millimetres.</summary>
    public double Distance => Width * Reach;

    /// <summary>
    /// Sets a code on a label: as large as the label is high, at the highest level whose modules are not too small and that is still read
    /// from the distance.
    /// </summary>
    /// <param name="address">The address that it carries.</param>
    /// <param name="distance">From how far it is to be read, in millimetres.</param>
    /// <returns>Null where no level will do: the label is too small.</returns>
    public static LabelDesign? For(string address, LabelStock stock, double distance)
    {
        foreach (var level in (ReadOnlySpan<ErrorCorrectionLevel>)[
            ErrorCorrectionLevel.H,
            ErrorCorrectionLevel.Q,
            ErrorCorrectionLevel.M,
            ErrorCorrectionLevel.L
        ])
        {
            if (QrMatrix.Encode(address, level) is { } code && At(level, code.Side, stock, distance) is { } design) return design;
        }

        return null;
    }

    /// <summary>Sets a code of a level on a label.</summary>
    /// <param name="side">Modules a side, the quiet zone left out.</param>
    /// <param name="distance">From how far it is to be read, in millimetres.</param>
    /// <returns>Null where its modules would be too small, or it would not be read from so far.</returns>
    internal static LabelDesign? At(ErrorCorrectionLevel level, int side, LabelStock stock, double distance)
    {
        // Beside the code there must be room for words at least as wide as half of it.
        var room = Math.Min(stock.Height, stock.Width / 1.5) - (2 * Edge);
        var module = Dots(room / (side + (2 * QrDrawing.QuietZone)));
        var design = new LabelDesign(level, module, side);
        return module >= (level == ErrorCorrectionLevel.H ? LeastModuleOfH : LeastModule) && design.Distance >= distance ? design : null;
    }

    /// <summary>Height that a label needs, in whole millimetres, for an address to be read from a distance.</summary>
    /// <param name="distance">The distance in millimetres.</param>
    public static double HeightFor(string address, double distance)
    {
        var side = QrMatrix.Encode(address, ErrorCorrectionLevel.L)?.Side ?? 177;
        return Math.Ceiling(
            (Math.Max(LeastModule, Dot * Math.Ceiling(distance / Reach / side / Dot)) * (side + (2 * QrDrawing.QuietZone))) + (2 * Edge));
    }

    /// <summary>The place next to a length that lies on a dot, so that the edges of modules do.</summary>
    /// <param name="length">The length in millimetres.</param>
    internal static double OnDot(double length) => Math.Round(length / Dot) * Dot;

    // A hair less than a dot still counts: 3 x 25.4 / 150 is no round number.
    private static double Dots(double length) => Math.Floor((length / Dot) + 1e-9) * Dot;
}

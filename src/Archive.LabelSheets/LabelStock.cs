using System.Globalization;

namespace Archive.LabelSheets;

/// <summary>A sheet of paper.</summary>
/// <param name="Name">Its name, as style sheets and people have it.</param>
/// <param name="Width">Width in millimetres.</param>
/// <param name="Height">Height in millimetres.</param>
public sealed record PaperSize(string Name, double Width, double Height)
{
    /// <summary>ISO 216: 210 x 297 mm.</summary>
    public static readonly PaperSize A4 = new("A4", 210, 297);

    /// <summary>ANSI A: 8.5 x 11 in.</summary>
    public static readonly PaperSize Letter = new("letter", 215.9, 279.4);

    /// <summary>Its name as a page writes it.</summary>
    public string DisplayName => this == Letter ? "Letter" : Name;
}

/// <summary>How a label is put on.</summary>
public enum LabelForm
{
    /// <summary>It is hung up or stuck on as it is.</summary>
    Tag,

    /// <summary>
    /// It is folded around a cable in its middle, so that both halves stick to each other and stand off like a flag: both say the same.
    /// </summary>
    Flag,

    /// <summary>It is wound around a cable: what is printed first, a clear or blank tail over it.</summary>
    Wrap,
}

/// <summary>Labels of one size on sheets of paper, side by side, in the middle of the sheet.</summary>
/// <param name="Paper">The sheet.</param>
/// <param name="Width">Width of a label in millimetres.</param>
/// <param name="Height">Height of a label in millimetres.</param>
public sealed record LabelStock(PaperSize Paper, double Width, double Height)
{
    private const double LeastSide = 10;

    // What printers leave blank at the edge, common practice, no source; the head of a sheet stands in it at the top.
    private const double LeastMargin = 8;

    /// <summary>How the label is put on.</summary>
    public LabelForm Form { get; init; }

    /// <summary>
    /// What is not printed, in millimetres: of a flag the width at its middle around the cable, of a wrap the height of its tail.
    /// </summary>
    public double Around { get; init; }

    /// <summary>What is printed on: all of a tag, one half of a flag, the head of a wrap.</summary>
    public LabelStock Panel => Form switch
    {
        LabelForm.Flag => new LabelStock(Paper, (Width - Around) / 2, Height),
        LabelForm.Wrap => new LabelStock(Paper, Width, Height - Around),
        _ => this,
    };

    /// <summary>Width and height in millimetres, as they are typed: <c>63.5x38.1</c>.</summary>
    public string Size => string.Create(CultureInfo.InvariantCulture, $"{Width}x{Height}");

    /// <summary>Width and height as a page writes them.</summary>
    public string SizeText => $"{SizeTextShort} mm";

    /// <summary>Width and height where a heading says that they are millimetres.</summary>
    public string SizeTextShort => string.Create(CultureInfo.InvariantCulture, $"{Width} × {Height}");

    /// <summary>Labels side by side.</summary>
    public int Columns => (int)((Paper.Width - (2 * LeastMargin)) / Width);

    /// <summary>Labels one below the other.</summary>
    public int Rows => (int)((Paper.Height - (2 * LeastMargin)) / Height);

    /// <summary>Labels on a sheet.</summary>
    public int PerSheet => Columns * Rows;

    /// <summary>Blank at the left, in millimetres.</summary>
    public double Left => (Paper.Width - (Columns * Width)) / 2;

    /// <summary>Blank at the top, in millimetres.</summary>
    public double Top => (Paper.Height - (Rows * Height)) / 2;

    /// <summary>Reads a size such as <c>63.5x38.1</c>, in millimetres.</summary>
    /// <param name="text">The size.</param>
    /// <returns>Null where it is none, or where no such label goes on the paper.</returns>
    /// <param name="form">How the label is put on.</param>
    /// <param name="around">What goes around the cable, in millimetres.</param>
    public static LabelStock? Find(string text, PaperSize paper, LabelForm form = LabelForm.Tag, double around = 0)
    {
        if (text.Split('x') is not [var w, var h] || !Number(w, out var width) || !Number(h, out var height)) return null;
        return new LabelStock(paper, width, height)
        {
            Form = form,
            Around = around
        } is { PerSheet: > 0, Panel: { Width: >= LeastSide, Height: >= LeastSide } } stock ? stock : null;

        static bool Number(string text, out double value) => double.TryParse(
            text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value) && value is >= LeastSide and <= 300;
    }
}

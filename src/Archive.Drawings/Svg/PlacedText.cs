namespace Archive.Drawings.Svg;

/// <summary>A text set on the sheet.</summary>
/// <param name="Baseline">Where its anchor stands.</param>
/// <param name="Size">Size of its type in units.</param>
/// <param name="Anchor">Which part of it is there.</param>
/// <param name="IsUpright">Whether it runs to the right; else it runs up the sheet.</param>
internal readonly record struct PlacedText(
    string Text, PaperPoint Baseline, double Size, TextAnchor Anchor = TextAnchor.Start, bool IsUpright = true)
{
    // Ascent and descent of the usual sans serifs, as parts of the size.
    private const double Ascent = 0.76;
    private const double Descent = 0.22;

    /// <summary>The room it takes, by <see cref="TextMetrics.Width"/>.</summary>
    internal PaperBox Box
    {
        get
        {
            var width = TextMetrics.Width(Text, Size);
            var before = Anchor switch { TextAnchor.Start => 0, TextAnchor.Middle => width / 2, _ => width };
            var height = (Ascent + Descent) * Size;
            return IsUpright
                ? new PaperBox(Baseline.X - before, Baseline.Y - (Ascent * Size), width, height)
                : new PaperBox(Baseline.X - (Ascent * Size), Baseline.Y - width + before, height, width);
        }
    }

    /// <summary>A text whose room has its middle at a point.</summary>
    internal static PlacedText Centred(string text, PaperPoint middle, double size, bool isUpright = true)
    {
        var drop = (Ascent - Descent) / 2 * size;
        return new PlacedText(text, isUpright ? middle.Moved(0, drop) : middle.Moved(drop, 0), size, TextAnchor.Middle, isUpright);
    }
}

namespace Archive.Drawings.Svg;

/// <summary>A point on the sheet, from its left upper corner.</summary>
/// <param name="X">To the right.</param>
/// <param name="Y">Down.</param>
internal readonly record struct PaperPoint(double X, double Y)
{
    internal PaperPoint Moved(double x, double y) => new(X + x, Y + y);
}

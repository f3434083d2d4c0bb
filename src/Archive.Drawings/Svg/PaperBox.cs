namespace Archive.Drawings.Svg;

/// <summary>A rectangle on the sheet.</summary>
/// <param name="X">Left edge.</param>
/// <param name="Y">Upper edge.</param>
internal readonly record struct PaperBox(double X, double Y, double Width, double Height)
{
    internal double Right => X + Width;

    internal double Bottom => Y + Height;

    internal PaperPoint Centre => new(X + (Width / 2), Y + (Height / 2));

    internal PaperBox Grown(double by) => new(X - by, Y - by, Width + (2 * by), Height + (2 * by));

    /// <summary>The same with edges on halves of a unit, which are written shorter.</summary>
    internal PaperBox Snapped()
    {
        var (left, top) = (Half(X), Half(Y));
        return new(left, top, Half(Right) - left, Half(Bottom) - top);
    }

    /// <summary>The nearest half of a unit.</summary>
    internal static double Half(double value) => Math.Round(value * 2) / 2;

    internal bool Meets(PaperBox other) => X < other.Right && other.X < Right && Y < other.Bottom && other.Y < Bottom;

    internal bool Holds(PaperBox other) => X <= other.X && other.Right <= Right && Y <= other.Y && other.Bottom <= Bottom;
}

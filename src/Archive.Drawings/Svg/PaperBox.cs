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

    internal bool Meets(PaperBox other) => X < other.Right && other.X < Right && Y < other.Bottom && other.Y < Bottom;

    internal bool Holds(PaperBox other) => X <= other.X && other.Right <= Right && Y <= other.Y && other.Bottom <= Bottom;
}

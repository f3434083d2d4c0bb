using Archive.Halls.Layout;
using Archive.Records.Model;

namespace Archive.Drawings.Svg;

/// <summary>Size of a drawing in its units: CSS pixels at the size it is made for.</summary>
internal readonly record struct SheetSize(double Width, double Height);

/// <summary>A point on the sheet, from its left upper corner.</summary>
/// <param name="X">To the right.</param>
/// <param name="Y">Down.</param>
internal readonly record struct PaperPoint(double X, double Y)
{
    internal PaperPoint Moved(double x, double y) => new(X + x, Y + y);
}

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

/// <summary>How millimetres of a hall come to lie on the sheet.</summary>
/// <param name="West">Millimetres at the sheet's <paramref name="Left"/>.</param>
/// <param name="North">Millimetres at the sheet's <paramref name="Top"/>.</param>
/// <param name="Left">Units left of the hall.</param>
/// <param name="Top">Units above the hall.</param>
/// <param name="PerMillimetre">Units a millimetre.</param>
internal readonly record struct PlanScale(double West, double North, double Left, double Top, double PerMillimetre)
{
    internal PaperPoint ToPaper(PlanPoint point) =>
        new(Left + ((point.X - West) * PerMillimetre), Top + ((point.Y - North) * PerMillimetre));

    internal PaperBox ToPaper(Footprint footprint)
    {
        var corner = ToPaper(new PlanPoint(footprint.West, footprint.North));
        return new PaperBox(corner.X, corner.Y, footprint.Across * PerMillimetre, footprint.Down * PerMillimetre);
    }
}

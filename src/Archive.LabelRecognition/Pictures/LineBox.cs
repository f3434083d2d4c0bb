namespace Archive.LabelRecognition.Pictures;

/// <summary>Where a line of text is: a rectangle at any angle. Pixels from the upper left corner of the picture.</summary>
/// <param name="CentreX">Middle.</param>
/// <param name="CentreY">Middle.</param>
/// <param name="Length">Along the text.</param>
/// <param name="Height">Across the text.</param>
/// <param name="Angle">Of the text against the picture's rows, radians, clockwise as seen: a right angle for text that runs down.</param>
public readonly record struct LineBox(double CentreX, double CentreY, double Length, double Height, double Angle)
{
    /// <summary>A whole picture as one line.</summary>
    public static LineBox Whole(RgbImage image) => new(image.Width / 2.0, image.Height / 2.0, image.Width, image.Height, 0);

    /// <summary>Its corners, clockwise from the one before the text.</summary>
    internal (double X, double Y)[] Corners()
    {
        var (sin, cos) = Math.SinCos(Angle);
        var (x, y, u, v) = (CentreX, CentreY, Length / 2, Height / 2);
        return [Corner(-u, -v), Corner(u, -v), Corner(u, v), Corner(-u, v)];

        (double X, double Y) Corner(double along, double across) =>
            (x + (along * cos) - (across * sin), y + (along * sin) + (across * cos));
    }

    /// <summary>The same place read the other way round.</summary>
    public LineBox Turned() => this with { Angle = Angle + Math.PI };
}

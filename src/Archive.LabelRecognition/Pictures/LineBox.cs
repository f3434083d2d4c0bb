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

    /// <summary>Whether a point lies in it.</summary>
    public bool Contains(double x, double y)
    {
        var (sin, cos) = Math.SinCos(Angle);
        var (dx, dy) = (x - CentreX, y - CentreY);
        return Math.Abs((dx * cos) + (dy * sin)) <= Length / 2 && Math.Abs((dy * cos) - (dx * sin)) <= Height / 2;
    }

    /// <summary>Where it is in a picture, if it was found in a part that was cut out along its rows.</summary>
    /// <param name="part">Where the part was, as large as it was cut out.</param>
    internal LineBox Within(LineBox part)
    {
        var (sin, cos) = Math.SinCos(part.Angle);
        var (u, v) = (CentreX - (part.Length / 2), CentreY - (part.Height / 2));
        return this with
        {
            CentreX = part.CentreX + (u * cos) - (v * sin),
            CentreY = part.CentreY + (u * sin) + (v * cos),
            Angle = Angle + part.Angle,
        };
    }

    /// <summary>The same place read the other way round.</summary>
    public LineBox Turned() => this with { Angle = Angle + Math.PI };
}

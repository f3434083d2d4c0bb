using System.Text;

namespace Archive.Drawings.Svg;

/// <summary>The figures of a path: made of numbers only.</summary>
internal sealed class SvgPath
{
    private readonly StringBuilder _data = new();

    // Where the pen is, in hundredths, as written; null where that is not known.
    private (long X, long Y)? _pen;

    internal bool IsEmpty => _data.Length == 0;

    internal SvgPath MoveTo(PaperPoint point) => Add('M', point);

    internal SvgPath LineTo(PaperPoint point) => Add('L', point);

    internal SvgPath Close()
    {
        _data.Append('Z');
        _pen = null;
        return this;
    }

    internal SvgPath Line(PaperPoint from, PaperPoint to) => MoveTo(from).LineTo(to);

    /// <summary>A figure through points.</summary>
    /// <param name="closed">Whether the last joins the first.</param>
    internal SvgPath Figure(IEnumerable<PaperPoint> points, bool closed)
    {
        var isFirst = true;
        foreach (var point in points)
        {
            Add(isFirst ? 'M' : 'L', point);
            isFirst = false;
        }

        return closed && !isFirst ? Close() : this;
    }

    internal SvgPath Box(PaperBox box)
    {
        MoveTo(new(box.X, box.Y));
        _pen = null;
        _data.Append('h').Coordinate(box.Width).Append('v').Coordinate(box.Height).Append('h').Coordinate(-box.Width);
        return Close();
    }

    /// <summary>Figures that were written elsewhere, such as those of a code.</summary>
    /// <param name="data">Path data of numbers only.</param>
    internal SvgPath Figures(string data)
    {
        _data.Append(data);
        _pen = null;
        return this;
    }

    public override string ToString() => _data.ToString();

    private SvgPath Add(char command, PaperPoint point)
    {
        var (x, y) = (Coordinates.Hundredths(point.X), Coordinates.Hundredths(point.Y));
        if (command == 'L' && _pen?.Y == y) _data.Append('H').Coordinate(point.X);
        else if (command == 'L' && _pen?.X == x) _data.Append('V').Coordinate(point.Y);
        else _data.Append(command).Coordinate(point.X).Append(' ').Coordinate(point.Y);
        _pen = (x, y);
        return this;
    }
}

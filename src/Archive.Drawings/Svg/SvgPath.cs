using System.Text;

namespace Archive.Drawings.Svg;

/// <summary>The figures of a path: made of numbers only.</summary>
internal sealed class SvgPath
{
    private readonly StringBuilder _data = new();

    internal bool IsEmpty => _data.Length == 0;

    internal SvgPath MoveTo(PaperPoint point) => Add('M', point);

    internal SvgPath LineTo(PaperPoint point) => Add('L', point);

    internal SvgPath Close()
    {
        _data.Append('Z');
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
        _data.Append('h').Coordinate(box.Width).Append('v').Coordinate(box.Height).Append('h').Coordinate(-box.Width);
        return Close();
    }

    /// <summary>Figures that were written elsewhere, such as those of a code.</summary>
    /// <param name="data">Path data of numbers only.</param>
    internal SvgPath Figures(string data)
    {
        _data.Append(data);
        return this;
    }

    public override string ToString() => _data.ToString();

    private SvgPath Add(char command, PaperPoint point)
    {
        _data.Append(command).Coordinate(point.X).Append(' ').Coordinate(point.Y);
        return this;
    }
}

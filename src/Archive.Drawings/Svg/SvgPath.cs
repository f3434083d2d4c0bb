using System.Text;
using Archive.Drawings.QrCodes;

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

    /// <summary>The dark modules of a code.</summary>
    /// <param name="unit">Side of a module.</param>
    /// <param name="edge">Where the code begins, across and down.</param>
    internal SvgPath Outline(QrMatrix code, int unit, int edge)
    {
        _data.Append(code.Outline(unit, edge));
        return this;
    }

    public override string ToString() => _data.ToString();

    private SvgPath Add(char command, PaperPoint point)
    {
        _data.Append(command).Coordinate(point.X).Append(' ').Coordinate(point.Y);
        return this;
    }
}

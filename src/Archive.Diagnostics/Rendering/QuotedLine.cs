using System.Collections.Immutable;
using System.Text;
using Wcwidth;

namespace Archive.Diagnostics.Rendering;

/// <summary>A quoted line laid out in the columns of a terminal, cut around the span where it is too long.</summary>
/// <param name="Text">The line as shown.</param>
/// <param name="MarkFrom">Terminal column of the first mark, from 0.</param>
/// <param name="MarkLength">Number of marks, at least 1.</param>
internal readonly record struct QuotedLine(string Text, int MarkFrom, int MarkLength)
{
    private const int TabStop = 4;
    private const char Cut = '…';

    // Ten thousand lines may be quoted, and nearly all of their letters are these.
    private static readonly string[] Plain = [.. Enumerable.Range(' ', '~' - ' ' + 1).Select(code => ((char)code).ToString())];

    internal static QuotedLine Create(SourceLocation place, SourceQuote quote, int width)
    {
        var cells = Cells(quote.Text);
        var from = place.Column - 1 - quote.From;
        var to = place.EndLine > place.Line ? quote.Text.Length : place.EndColumn - 1 - quote.From;
        var first = cells.TakeWhile(cell => cell.Index < from).Count();
        var last = first + cells.Skip(first).TakeWhile(cell => cell.Index < to).Count();
        var (left, right) = Window(cells, first, last, width);

        var cutLeft = left > 0 || quote.From > 0;
        var text = new StringBuilder();
        if (cutLeft) text.Append(Cut);
        for (var i = left; i < right; i++) text.Append(cells[i].Sign);
        if (right < cells.Length || !quote.IsWhole) text.Append(Cut);
        var mark = (cutLeft ? 1 : 0) + Width(cells, left, first);
        return new QuotedLine(text.ToString().TrimEnd(), mark, Math.Max(1, Width(cells, first, Math.Min(last, right))));
    }

    // The stretch of cells that is shown: all, or what fits, with the span's beginning in the left third.
    private static (int Left, int Right) Window(ImmutableArray<Cell> cells, int first, int last, int width)
    {
        if (Width(cells, 0, cells.Length) <= width) return (0, cells.Length);
        var room = Math.Max(8, width - 2);
        int left = first, right = first, used = 0;
        var before = Width(cells, first, last) > room * 2 / 3 ? room / 6 : room / 3;
        while (left > 0 && used + cells[left - 1].Width <= before) used += cells[--left].Width;
        while (right < cells.Length && used + cells[right].Width <= room) used += cells[right++].Width;
        while (left > 0 && used + cells[left - 1].Width <= room) used += cells[--left].Width;
        return (left, right);
    }

    private static int Width(ImmutableArray<Cell> cells, int from, int to)
    {
        var width = 0;
        for (var i = from; i < to; i++) width += cells[i].Width;
        return width;
    }

    private static ImmutableArray<Cell> Cells(string text)
    {
        var cells = ImmutableArray.CreateBuilder<Cell>(text.Length);
        var column = 0;
        for (var i = 0; i < text.Length;)
        {
            var index = i;
            if (text[i] is >= ' ' and <= '~')
            {
                cells.Add(new Cell(index, Plain[text[i++] - ' '], 1));
                column++;
                continue;
            }

            var isTab = text[i] == '\t';
            var sign = isTab ? new string(' ', TabStop - (column % TabStop)) : VisibleText.Sign(text, ref i);
            if (isTab) i++;
            var width = isTab ? sign.Length : SignWidth(sign);
            cells.Add(new Cell(index, sign, width));
            column += width;
        }

        return cells.DrainToImmutable();
    }

    private static int SignWidth(string sign)
    {
        var width = 0;
        foreach (var rune in sign.EnumerateRunes()) width += Math.Max(0, UnicodeCalculator.GetWidth(rune));
        return width;
    }

    private readonly record struct Cell(int Index, string Sign, int Width);
}

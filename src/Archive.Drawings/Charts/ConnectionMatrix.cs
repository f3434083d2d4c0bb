using System.Collections.Immutable;
using Archive.Drawings.Svg;
using Archive.Markup.Text;
using Archive.Records.Wording;

namespace Archive.Drawings.Charts;

/// <summary>Something that cables run to and from, as a line and a column of a matrix.</summary>
/// <param name="Label">What stands at its line, such as a frame's id.</param>
/// <param name="Name">What it is called in full.</param>
/// <param name="Href">Its page, or null.</param>
/// <param name="Group">What it stands together with, such as its row; items of a group follow each other.</param>
public sealed record MatrixItem(string Label, string Name, string? Href, string Group);

/// <summary>Cables between two items, or within one.</summary>
/// <param name="A">Index of one item.</param>
/// <param name="B">Index of the other, not below the first.</param>
/// <param name="Count">How many cables.</param>
/// <param name="Href">Where they are listed, or null.</param>
public sealed record MatrixCell(int A, int B, int Count, string? Href);

/// <summary>
/// Who is connected to whom: a square with a line and a column for each, dark where many cables run. A square was chosen over arcs because
/// three hundred arcs are a tangle, and in a square rows of frames still show as blocks.
/// </summary>
/// <remarks>
/// Linear in items and cells. Up to <see cref="MostNumbered"/> items are named and their counts written; of more, their groups are named.
/// </remarks>
public static class ConnectionMatrix
{
    /// <summary>Most items that one square is drawn for.</summary>
    public const int Most = 320;

    private const int MostNumbered = 44;
    private const double Usual = 640;
    private const double Large = 28;
    private const double Least = 18;
    private const double Wide = 960;
    private const double Gap = 6;
    private const double MostMargin = 150;
    private const int Shades = 5;

    /// <summary>Draws the square.</summary>
    /// <param name="items">Lines and columns, in order.</param>
    /// <param name="cells">Where cables run.</param>
    /// <param name="title">What it shows, in a few words.</param>
    /// <returns>
    /// Inline SVG in a box of class <c>drawing matrix</c>, and its names once more, so that they can stay while it is
    /// moved; none without items, or with more than <see cref="Most"/>.
    /// </returns>
    public static HtmlFragment Draw(ImmutableArray<MatrixItem> items, ImmutableArray<MatrixCell> cells, string title)
    {
        if (items.Length is 0 or > Most) return HtmlFragment.None;
        var isNumbered = items.Length <= MostNumbered;
        var side = isNumbered ? Math.Clamp(Usual / items.Length, Least, Large) : Math.Max(3, Math.Floor(Wide / items.Length));
        var names = isNumbered ? items.Select(item => item.Label) : items.Select(item => item.Group);
        var margin = Math.Min(MostMargin, names.Max(name => TextMetrics.Width(name, TextMetrics.Usual) + 1)) + (2 * Gap);
        var extent = margin + (side * items.Length) + Gap;
        var svg = new SvgWriter(
            new SheetSize(extent, extent), isNumbered ? "matrix" : "matrix dense", title, Description(items, cells), hasLinks: true);
        var sheet = new Sheet(svg, margin, side, cells.Select(cell => cell.Count).DefaultIfEmpty(1).Max());
        Grid(sheet, items);
        foreach (var name in NamesOf(items, sheet, isNumbered))
        {
            Linked(sheet, name, name.Line);
            svg.Text(name.Column);
        }

        foreach (var shade in cells.GroupBy(cell => sheet.Shade(cell.Count)).OrderBy(shade => shade.Key))
            Mirrored(sheet, shade, isNumbered);
        foreach (var cell in cells) Cell(sheet, cell, items, isNumbered);
        return Framed(svg.Finish(), sheet, [.. NamesOf(items, sheet, isNumbered)], extent);
    }

    // On a screen names lie over the chart's own and stay in sight; they are not read out a second time.
    private static HtmlFragment Framed(HtmlFragment chart, Sheet sheet, ImmutableArray<NamePlaces> names, double extent)
    {
        var across = Over(new SheetSize(extent, sheet.Margin), "columns");
        var down = Over(new SheetSize(sheet.Margin, extent), "rows");
        using (across.Letters(TextMetrics.Usual, "", isUpright: false))
        {
            foreach (var (text, at) in names.Select(name => (name.Column.Text, name.Column.Baseline))) across.Small(text, new(-at.Y, at.X));
        }

        using (down.Letters(TextMetrics.Usual, "", anchor: TextAnchor.End))
        {
            foreach (var name in names) down.Small(name.Line.Text, name.Line.Baseline);
        }

        return new HtmlFragment(
            $"<div class=\"matrix-frame\">{chart}{Wrapped("across", across)}{Wrapped("down", down)}</div>");

        SvgWriter Over(SheetSize size, string of) =>
            new(size, "matrix-names", $"Names of {of}", $"The names of the chart's {of}.", hasLinks: false);

        string Wrapped(string place, SvgWriter svg) => $"<div class=\"{place}\" aria-hidden=\"true\">{svg.Finish()}</div>";
    }

    private static string Description(ImmutableArray<MatrixItem> items, ImmutableArray<MatrixCell> cells)
    {
        var most = cells.OrderByDescending(cell => cell.Count)
            .ThenBy(cell => cell.A)
            .ThenBy(cell => cell.B)
            .Take(3)
            .Select(cell => $"{Name(cell, items)}: {cell.Count}");
        return $"A chart of {Phrase.Count(items.Length, "row")} and as many columns, from {items[0].Label} to {items[^1].Label}; {Phrase.Count(cells.Length, "square has", "squares have")} cables. Most: {string.Join("; ", most)}. The table has the same figures.";
    }

    private static string Name(MatrixCell cell, ImmutableArray<MatrixItem> items) =>
        cell.A == cell.B ? $"within {items[cell.A].Label}" : $"{items[cell.A].Label} and {items[cell.B].Label}";

    // A line where one group ends and the next begins, and the diagonal on which each meets itself.
    private static void Grid(Sheet sheet, ImmutableArray<MatrixItem> items)
    {
        var (from, to) = (sheet.At(0), sheet.At(items.Length));
        var fine = new SvgPath();
        for (var index = 0; index <= items.Length; index++)
        {
            if (index > 0 && index < items.Length && items[index].Group == items[index - 1].Group) continue;
            fine.Line(new(from, sheet.At(index)), new(to, sheet.At(index))).Line(new(sheet.At(index), from), new(sheet.At(index), to));
        }

        sheet.Svg.Path(fine, "fine");
        sheet.Svg.Line(new(from, from), new(to, to), "fine faint");
    }

    private static IEnumerable<NamePlaces> NamesOf(ImmutableArray<MatrixItem> items, Sheet sheet, bool isNumbered)
    {
        for (var first = 0; first < items.Length;)
        {
            var end = first + 1;
            while (!isNumbered && end < items.Length && items[end].Group == items[first].Group) end++;
            var height = (end - first) * sheet.Side;
            var middle = sheet.At(first) + (height / 2) + (TextMetrics.Usual * 0.27);
            var text = TextMetrics.Cut(
                isNumbered ? items[first].Label : items[first].Group, TextMetrics.Usual, sheet.Margin - (2 * Gap));

            // A group whose lines are fewer than a letter is high goes unnamed: the table names it.
            if (isNumbered || height >= TextMetrics.Usual)
            {
                yield return new NamePlaces(
                    isNumbered ? items[first] : null,
                    new PlacedText(text, new(sheet.Margin - Gap, middle), TextMetrics.Usual, TextAnchor.End),
                    new PlacedText(text, new(middle, sheet.Margin - Gap), TextMetrics.Usual, IsUpright: false));
            }

            first = end;
        }
    }

    private static void Linked(Sheet sheet, NamePlaces name, PlacedText text)
    {
        if (name.Item?.Href is not { } href)
        {
            sheet.Svg.Text(text);
            return;
        }

        using var link = sheet.Svg.Link(href, name.Item.Name);
        sheet.Svg.Text(text);
    }

    // Below the diagonal the same again, without links: with numbers where there are few, else a path a shade.
    private static void Mirrored(Sheet sheet, IGrouping<int, MatrixCell> shade, bool isNumbered)
    {
        var cells = shade.Where(cell => cell.A != cell.B).ToList();
        if (!isNumbered)
        {
            var path = new SvgPath();
            foreach (var cell in cells) path.Box(sheet.Box(cell.A, cell.B));
            sheet.Svg.Path(path, $"cell shade-{shade.Key}");
            return;
        }

        if (cells.Count == 0) return;
        foreach (var cell in cells) sheet.Svg.Rectangle(sheet.Box(cell.A, cell.B), $"cell shade-{shade.Key}");
        var size = Math.Floor(2 * cells.Min(cell => SizeOf(Phrase.Count(cell.Count), sheet.Box(cell.A, cell.B)))) / 2;
        using var letters = sheet.Svg.Letters(size, shade.Key >= 3 ? "on-dark" : "", anchor: TextAnchor.Middle);
        foreach (var cell in cells)
        {
            var number = PlacedText.Centred(Phrase.Count(cell.Count), sheet.Box(cell.A, cell.B).Centre, size);
            sheet.Svg.Small(number.Text, number.Baseline);
        }
    }

    private static double SizeOf(string text, PaperBox box) =>
        Math.Min(TextMetrics.Usual, TextMetrics.Usual * (box.Width - 1) / TextMetrics.Width(text, TextMetrics.Usual));

    private static void Cell(Sheet sheet, MatrixCell cell, ImmutableArray<MatrixItem> items, bool isNumbered)
    {
        if (cell.Href is { } href)
        {
            using var link = sheet.Svg.Link(href, $"{Name(cell, items)}: {Phrase.Count(cell.Count, "cable")}");
            Paint(sheet, cell, isNumbered);
        }
        else
        {
            Paint(sheet, cell, isNumbered);
        }
    }

    private static void Paint(Sheet sheet, MatrixCell cell, bool isNumbered)
    {
        var box = sheet.Box(cell.B, cell.A);
        sheet.Svg.Rectangle(box, $"cell shade-{sheet.Shade(cell.Count)}");
        if (!isNumbered) return;
        var text = Phrase.Count(cell.Count);
        sheet.Svg.Text(PlacedText.Centred(text, box.Centre, SizeOf(text, box)), sheet.Shade(cell.Count) >= 3 ? "on-dark" : null);
    }

    private sealed record NamePlaces(MatrixItem? Item, PlacedText Line, PlacedText Column);

    private sealed record Sheet(SvgWriter Svg, double Margin, double Side, int Greatest)
    {
        internal double At(int index) => Margin + (index * Side);

        internal PaperBox Box(int column, int line)
        {
            var inset = Side >= Least ? 1 : 0;
            return new PaperBox(At(column) + inset, At(line) + inset, Side - (2 * inset), Side - (2 * inset));
        }

        // Shades by the logarithm: one cable is still seen beside a hundred.
        internal int Shade(int count) => Greatest <= 1 ? Shades - 1 : (int)Math.Round((Shades - 1) * Math.Log(count) / Math.Log(Greatest));
    }
}

namespace Archive.Site;

/// <summary>The room on a sheet that labels may take: what is taken is taken, so labels never collide.</summary>
/// <remarks>Kept in square cells, so that a sheet of thousands of boxes is looked through only where a label is to stand.</remarks>
/// <param name="sheet">The whole sheet; labels stay on it.</param>
internal sealed class LabelSpace(SheetSize sheet)
{
    private const double Cell = 32;
    private readonly Dictionary<(int Column, int Row), List<PaperBox>> _taken = [];

    /// <summary>Takes room that labels must keep clear of.</summary>
    internal void Take(PaperBox box)
    {
        foreach (var cell in Cells(box))
        {
            if (!_taken.TryGetValue(cell, out var boxes)) _taken.Add(cell, boxes = []);
            boxes.Add(box);
        }
    }

    internal bool IsFree(PaperBox box) =>
        new PaperBox(0, 0, sheet.Width, sheet.Height).Holds(box)
        && Cells(box).All(cell => !_taken.TryGetValue(cell, out var boxes) || !boxes.Exists(box.Meets));

    /// <summary>Sets a text at the first place that is free, and takes it.</summary>
    /// <returns>The text in its place, or null where no place is free.</returns>
    internal Lettered? Set(IEnumerable<Lettered> places)
    {
        foreach (var place in places)
        {
            if (!IsFree(place.Box)) continue;
            Take(place.Box);
            return place;
        }

        return null;
    }

    private IEnumerable<(int Column, int Row)> Cells(PaperBox box)
    {
        for (var column = Index(box.X, sheet.Width); column <= Index(box.Right, sheet.Width); column++)
        {
            for (var row = Index(box.Y, sheet.Height); row <= Index(box.Bottom, sheet.Height); row++) yield return (column, row);
        }
    }

    private static int Index(double at, double limit) => (int)(Math.Clamp(at, 0, limit) / Cell);
}

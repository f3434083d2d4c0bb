namespace Archive.Drawings.Svg;

/// <summary>The room on a sheet that labels may take: what is taken is taken, so labels never collide.</summary>
/// <remarks>Kept in square cells, so that a sheet of thousands of boxes is looked through only where a label is to stand.</remarks>
/// <param name="sheet">The whole sheet; labels stay on it.</param>
internal sealed class LabelPlacement(SheetSize sheet)
{
    private const double Cell = 32;
    private readonly Dictionary<(int Column, int Row), List<Taken>> _taken = [];

    /// <summary>Takes room that labels must keep clear of.</summary>
    internal void Take(PaperBox box) => Add(new Taken(box, null));

    /// <summary>Marks a line that labels had better not lie on, but for those of its owner.</summary>
    /// <param name="from">One end.</param>
    /// <param name="to">The other end; a slanting line is not marked.</param>
    /// <param name="owner">What the line belongs to.</param>
    internal void Avoid(PaperPoint from, PaperPoint to, object owner)
    {
        var box = new PaperBox(Math.Min(from.X, to.X), Math.Min(from.Y, to.Y), Math.Abs(from.X - to.X), Math.Abs(from.Y - to.Y));
        if (Math.Min(box.Width, box.Height) < 1) Add(new Taken(box.Grown(1), owner));
    }

    /// <summary>Sets a text at the first place that is free and lies on no line of others; else at the first that is free.</summary>
    /// <param name="places">Places, the best first.</param>
    /// <param name="owner">What the text belongs to, if it has a line.</param>
    /// <returns>The text in its place, or null where no place is free.</returns>
    internal PlacedText? Set(IReadOnlyCollection<PlacedText> places, object? owner = null)
    {
        foreach (var onLines in (bool[])[false, true])
        {
            foreach (var place in places)
            {
                if (!IsFree(place.Box, owner, onLines)) continue;
                Take(place.Box);
                return place;
            }
        }

        return null;
    }

    private bool IsFree(PaperBox box, object? owner, bool onLines) =>
        new PaperBox(0, 0, sheet.Width, sheet.Height).Holds(box)
        && Cells(box).All(cell => !_taken.TryGetValue(cell, out var all)
            || !all.Exists(taken => taken.Box.Meets(box) && (taken.Owner is null || (!onLines && !ReferenceEquals(taken.Owner, owner)))));

    private void Add(Taken taken)
    {
        foreach (var cell in Cells(taken.Box))
        {
            if (!_taken.TryGetValue(cell, out var all)) _taken.Add(cell, all = []);
            all.Add(taken);
        }
    }

    private IEnumerable<(int Column, int Row)> Cells(PaperBox box)
    {
        for (var column = Index(box.X, sheet.Width); column <= Index(box.Right, sheet.Width); column++)
        {
            for (var row = Index(box.Y, sheet.Height); row <= Index(box.Bottom, sheet.Height); row++) yield return (column, row);
        }
    }

    private static int Index(double at, double limit) => (int)(Math.Clamp(at, 0, limit) / Cell);

    private readonly record struct Taken(PaperBox Box, object? Owner);
}

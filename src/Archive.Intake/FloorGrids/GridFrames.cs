using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Spreadsheets.Model;

namespace Archive.Intake.FloorGrids;

/// <summary>A frame drawn in a grid.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Name">What its cell says beside the id; null for nothing.</param>
/// <param name="Block">The squares that it covers.</param>
/// <param name="Cell">Where its name is written.</param>
/// <param name="Faces">The side to which an arrow in its cell points; null for none.</param>
/// <param name="Fill">Its colour; null for none.</param>
public sealed record GridFrame(string Id, string? Name, SquareBlock Block, SheetCell Cell, Compass? Faces, string? Fill);

/// <summary>Finds the frames: names in cells, in merged cells, in boxes of lines or in fields of one colour.</summary>
internal static class GridFrames
{
    // A frame is no hall: a box or field of more squares is something else, and one that is so long both ways is a room with one name
    // in it. Common practice, no source: people reach into a frame.
    private const int MostOfFrame = 64;
    private const double DeepestFrame = 2_000; // mm

    /// <param name="grid">The sheet.</param>
    /// <param name="square">Side of a square, in millimetres.</param>
    /// <param name="isFrame">Whether the record has a frame of this id.</param>
    /// <returns>Frames, and cells that name a frame a second time.</returns>
    internal static (ImmutableArray<GridFrame> Frames, ImmutableArray<SheetCell> Twice) Find(
        FloorGrid grid, double square, Func<string, bool> isFrame)
    {
        var named = new Dictionary<(int, int), (SheetCell Cell, SquareBlock Block, string Id, string? Name, Compass? Faces)>();
        var twice = ImmutableArray.CreateBuilder<SheetCell>();
        var ids = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (cell, block) in grid.Texts)
        {
            if (cell.Type == CellType.Error || Read(cell.Text, isFrame) is not var (id, name, faces)) continue;
            if (ids.Add(id)) named.Add((cell.Row, cell.Column), (cell, block, id, name, faces));
            else twice.Add(cell);
        }

        var taken = named.Values.SelectMany(frame => Squares(frame.Block)).ToHashSet();
        return (
            [
                .. named.Values.Select(frame => new GridFrame(
                    frame.Id,
                    frame.Name,
                    BlockOf(grid, square, frame.Cell, frame.Block, taken),
                    frame.Cell,
                    frame.Faces,
                    grid.Fill((frame.Cell.Row, frame.Cell.Column)))),
            ],
            twice.ToImmutable());
    }

    internal static IEnumerable<(int Row, int Column)> Squares(SquareBlock block)
    {
        for (var row = block.Top; row <= block.Bottom; row++)
        {
            for (var column = block.Left; column <= block.Right; column++) yield return (row, column);
        }
    }

    /// <summary>The side that an arrow points to; null for none.</summary>
    internal static Compass? Arrow(string text)
    {
        foreach (var letter in text)
        {
            if (ArrowOf(letter) is { } side) return side;
        }

        return null;
    }

    private static Compass? ArrowOf(char letter) => letter switch
    {
        '↑' or '▲' or '△' or '⇧' or '⬆' => Compass.North,
        '↓' or '▼' or '▽' or '⇩' or '⬇' => Compass.South,
        '→' or '▶' or '▷' or '►' or '⇨' or '⮕' => Compass.East,
        '←' or '◀' or '◁' or '◄' or '⇦' or '⬅' => Compass.West,
        _ => null,
    };

    // "R2-05", "R2-05 ↓", "R2-05\nReceiver": the id first. An id that the record does not have needs letters and figures, so that
    // numbers along the edge are no frames.
    private static (string Id, string? Name, Compass? Faces)? Read(string text, Func<string, bool> isFrame)
    {
        var faces = Arrow(text);
        var words = string.Concat(text.Select(letter => ArrowOf(letter) is null ? letter : ' '))
            .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 0 || !RecordId.IsValid(words[0])) return null;
        var isLikely = words[0].Any(char.IsAsciiLetter) && words[0].Any(char.IsAsciiDigit) && !words[0].Any(char.IsAsciiLetterLower);
        if (!isFrame(words[0]) && !isLikely) return null;
        return (words[0], words.Length > 1 ? string.Join(' ', words[1..]) : null, faces);
    }

    private static SquareBlock BlockOf(
        FloorGrid grid, double square, SheetCell cell, SquareBlock block, HashSet<(int, int)> taken)
    {
        if (block is not { Across: 1, Down: 1 }) return block;
        var at = (cell.Row, cell.Column);
        var fill = grid.Fill(at);
        return Field(grid, square, at, taken, (from, to) => !grid.HasLine(from, to))
            ?? (fill is null ? null : Field(grid, square, at, taken, (from, to) => grid.Fill(to) == fill && !grid.HasLine(from, to)))
            ?? block;
    }

    // What can be reached from a square, if it is a small whole rectangle in which nothing else is named.
    private static SquareBlock? Field(
        FloorGrid grid,
        double side,
        (int Row, int Column) start,
        HashSet<(int, int)> taken,
        Func<(int, int), (int, int), bool> isOpen)
    {
        var seen = new HashSet<(int Row, int Column)> { start };
        var next = new Queue<(int Row, int Column)>([start]);
        while (next.TryDequeue(out var square))
        {
            foreach (var (down, across) in FloorGrid.Steps)
            {
                var to = (Row: square.Row + down, Column: square.Column + across);
                if (!isOpen(square, to)) continue;
                if (to.Row < 1 || to.Column < 1 || taken.Contains(to) != (to == start) || grid.IsMerged(to)) return null;
                if (seen.Add(to)) next.Enqueue(to);
                if (seen.Count > MostOfFrame) return null;
            }
        }

        var block = new SquareBlock(
            seen.Min(each => each.Row), seen.Min(each => each.Column), seen.Max(each => each.Row), seen.Max(each => each.Column));
        var isRoom = Math.Min(block.Across, block.Down) is > 1 and var least && least * side > DeepestFrame;
        return block.Across * block.Down == seen.Count && !isRoom ? block : null;
    }
}

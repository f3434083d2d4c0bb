using System.Collections.Immutable;
using Archive.Spreadsheets.Model;

namespace Archive.Intake.FloorGrids;

/// <summary>What a colour means.</summary>
internal enum FillMeaning
{
    Module,
    Display,
    Take,
    Leave,
}

/// <summary>A line of the legend.</summary>
/// <param name="Fill">The colour, as the file names it.</param>
/// <param name="Name">Of a module: as it is written; of a display: its id.</param>
internal sealed record LegendEntry(string Fill, FillMeaning Meaning, string Name, SheetCell Cell);

/// <summary>Finds the legend: squares of a colour alone, outside of what is drawn, each with a text beside it or in it.</summary>
internal static class GridLegend
{
    // Common practice, no source.
    private static readonly string[] Take =
        ["take", "taken", "taken out", "to take", "leaves", "goes", "to move", "move", "remove", "removed"];

    private static readonly string[] Leave = ["leave", "left", "stay", "stays", "keep", "remains"];

    /// <param name="frames">The frames of the sheet.</param>
    /// <param name="isFloor">Whether a square is inside the walls of a hall.</param>
    /// <param name="displayOf">The id of the display that a text names by id or name; null for none.</param>
    internal static ImmutableArray<LegendEntry> Find(
        FloorGrid grid, ImmutableArray<GridFrame> frames, Func<(int Row, int Column), bool> isFloor, Func<string, string?> displayOf)
    {
        var ofFrames = frames.SelectMany(frame => GridFrames.Squares(frame.Block)).ToHashSet();
        var used = frames.Select(frame => frame.Fill).OfType<string>().ToHashSet(StringComparer.Ordinal);
        var entries = ImmutableArray.CreateBuilder<LegendEntry>();
        foreach (var (cell, block) in grid.Texts)
        {
            var at = (cell.Row, cell.Column);
            if (ofFrames.Contains(at) || isFloor(at) || cell.Type == CellType.Error) continue;
            var text = string.Join(' ', cell.Text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
            if (Swatch(block) is { } fill && entries.All(entry => entry.Fill != fill)) entries.Add(Entry(fill, text, cell, displayOf));
        }

        return entries.ToImmutable();

        // The square to the left of the text, or the text's own, if that colour is on a frame or says take or leave.
        string? Swatch(SquareBlock block)
        {
            var own = grid.Fill((block.Top, block.Left));
            if (own is not null) return used.Contains(own) || IsTake(block) ? own : null;
            var left = (Row: block.Top, Column: block.Left - 1);
            return !ofFrames.Contains(left) && !isFloor(left) && grid.At(left) is not { Type: not CellType.Empty } ? grid.Fill(left) : null;
        }

        bool IsTake(SquareBlock block)
        {
            var text = grid.At((block.Top, block.Left))!.Text.Trim().ToLowerInvariant();
            return Take.Contains(text) || Leave.Contains(text);
        }
    }

    private static LegendEntry Entry(string fill, string text, SheetCell cell, Func<string, string?> displayOf)
    {
        var plain = text.ToLowerInvariant();
        if (Take.Contains(plain)) return new LegendEntry(fill, FillMeaning.Take, "", cell);
        if (Leave.Contains(plain)) return new LegendEntry(fill, FillMeaning.Leave, "", cell);
        if (displayOf(Without("display")) is { } display) return new LegendEntry(fill, FillMeaning.Display, display, cell);
        return new LegendEntry(fill, FillMeaning.Module, Without("module"), cell);

        string Without(string word) => plain.StartsWith(word, StringComparison.Ordinal) && plain[word.Length..] is [':' or ' ', ..]
            ? text[(word.Length + 1)..].Trim()
            : text;
    }
}

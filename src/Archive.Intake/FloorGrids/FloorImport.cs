using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Proposals;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Spreadsheets.Model;
using Archive.Spreadsheets.Reading;

namespace Archive.Intake.FloorGrids;

/// <summary>What a sheet cannot say of a floor.</summary>
/// <param name="Sheet">Its name.</param>
/// <param name="SquareMillimetres">Side of a floor square.</param>
/// <param name="Hall">Id of the hall; null for one that follows from the sheet's name.</param>
/// <param name="Faces">
/// The sides that rows face where the sheet does not show it, by the row's id; by an empty id those of all others.
/// </param>
/// <param name="Height">Height of new frames, as it is to be written; null if it is not known, then no sizes are proposed.</param>
public sealed record FloorOptions(
    string Sheet, double SquareMillimetres, string? Hall, ImmutableDictionary<string, Compass> Faces, string? Height);

/// <summary>A hall drawn in a sheet.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Rows">Its rows, with their ids.</param>
/// <param name="Outline">Corners in squares of the sheet; empty where no walls are drawn.</param>
/// <param name="Origin">The sheet's square, from 0, whose corner is the hall's origin.</param>
public sealed record GridHall(
    string Id, ImmutableArray<GridRow> Rows, ImmutableArray<(int X, int Y)> Outline, (int X, int Y) Origin);

/// <summary>What a sheet says whose cells are squares of floor.</summary>
/// <param name="Diagnostics">If one of them is an error, nothing is proposed.</param>
/// <param name="LeftOut">Texts and colours that say nothing of the record, in words.</param>
public sealed record FloorImport(
    FloorGrid? Grid,
    ImmutableArray<GridHall> Halls,
    ImmutableArray<ProposedFact> Facts,
    ImmutableArray<Diagnostic> Diagnostics,
    ImmutableArray<string> LeftOut)
{
    /// <summary>Reads a sheet.</summary>
    /// <param name="stream">The spreadsheet; can seek, and is closed.</param>
    /// <param name="file">Its name, as the curator typed it.</param>
    /// <param name="records">All records of the archive.</param>
    public static FloorImport Read(
        Stream stream,
        string file,
        ImmutableArray<RawRecord> records,
        FloorOptions options,
        CancellationToken cancellation = default)
    {
        try
        {
            var sum = Convert.ToHexStringLower(SHA256.HashData(stream));
            stream.Position = 0;
            using var workbook = Workbook.Open(stream, Path.GetFileName(file));
            if (workbook.Find(options.Sheet) is not { } sheet)
            {
                return Refused(DiagnosticDescriptors.WrongSheet.At(
                    new SourceText(file, "").Whole,
                    $"{file} has no sheet `{options.Sheet}`",
                    $"use --floor with one of {string.Join(", ", workbook.Sheets.Take(20).Select(each => each.Name))}"));
            }

            return Read(sheet, new ProposalOrigin(file) { Sha256 = sum }, records, options, cancellation);
        }
        catch (SpreadsheetException wrong)
        {
            return Refused(DiagnosticDescriptors.UnreadableSpreadsheet.At(new SourceText(file, "").Whole, wrong.Message, wrong.Help));
        }
    }

    /// <summary>Reads a sheet that is open.</summary>
    /// <param name="origin">The file.</param>
    /// <exception cref="SpreadsheetException">It cannot be read, or is too large for a floor.</exception>
    public static FloorImport Read(
        Sheet sheet,
        ProposalOrigin origin,
        ImmutableArray<RawRecord> records,
        FloorOptions options,
        CancellationToken cancellation = default) =>
        new FloorReader(origin, sheet.Name, new FloorGrid(sheet, cancellation), records, options).Read();

    private static FloorImport Refused(Diagnostic why) => new(null, [], [], [why], []);
}

/// <summary>Reads one sheet.</summary>
internal sealed class FloorReader(
    ProposalOrigin origin, string sheet, FloorGrid grid, ImmutableArray<RawRecord> records, FloorOptions options)
{
    private readonly CurrentRecords _current = new(records);
    private readonly List<Diagnostic> _diagnostics = [];
    private readonly List<ProposedFact> _facts = [];
    private readonly HashSet<(int Row, int Column)> _read = [];

    internal FloorImport Read()
    {
        var (frames, twice) = GridFrames.Find(grid, options.SquareMillimetres, id => _current.Find(id) is { Kind: RecordKind.Frame });
        foreach (var cell in twice)
        {
            _diagnostics.Add(DiagnosticDescriptors.FrameDrawnTwice.At(
                At(cell), "this frame is in the sheet twice; its first place counts", "correct the sheet if that is wrong"));
        }

        if (frames.IsEmpty)
        {
            _diagnostics.Add(DiagnosticDescriptors.NoFramesDrawn.At(
                new SourceText($"{origin.File}, {sheet}", "").Whole,
                "no cell of this sheet names a frame",
                "write the ids of frames into cells, such as R2-05: capital letters and figures, or ids that the record has"));
            return new FloorImport(grid, [], [], [.. _diagnostics], []);
        }

        foreach (var frame in frames) _read.UnionWith(GridFrames.Squares(frame.Block));
        var regions = GridFields.Enclosed(grid, frames)
            .Select(region => (
                Squares: region,
                Frames: frames.Where(frame => region.Contains((frame.Block.Top, frame.Block.Left))).ToImmutableArray()))
            .Where(region => !region.Frames.IsEmpty).ToList();
        var inside = regions.SelectMany(region => region.Squares).ToHashSet();
        var displays = records.Where(record => record.Kind == RecordKind.Display).ToList();
        var legend = GridLegend.Find(grid, frames, inside.Contains, text => displays.Find(display =>
            string.Equals(display.Id, text, StringComparison.OrdinalIgnoreCase)
            || string.Equals(display.Fact("name")?.Text, text, StringComparison.OrdinalIgnoreCase))?.Id);
        _read.UnionWith(legend.Select(entry => (entry.Cell.Row, entry.Cell.Column)));

        var halls = new List<GridHall>();
        foreach (var (squares, within) in regions)
        {
            var corners = GridFields.Corners(squares);
            halls.Add(Hall(halls.Count, within, corners, (corners.Min(corner => corner.X), corners.Min(corner => corner.Y))));
        }

        var open = frames.Except(regions.SelectMany(region => region.Frames)).ToImmutableArray();
        if (!open.IsEmpty)
        {
            var corner = (open.Min(frame => frame.Block.Left) - 1, open.Min(frame => frame.Block.Top) - 1);
            halls.Add(Hall(halls.Count, open, [], corner));
        }

        foreach (var hall in halls) Take(hall, legend);
        foreach (var frame in frames) Frame(frame, halls, legend);
        Displays(frames, legend);
        var isWrong = _diagnostics.Any(each => each.Severity == Severity.Error);
        return new FloorImport(grid, [.. halls], isWrong ? [] : [.. _facts], [.. _diagnostics], [.. LeftOut(frames, legend)]);
    }

    private GridHall Hall(
        int number,
        ImmutableArray<GridFrame> frames,
        ImmutableArray<(int X, int Y)> outline,
        (int X, int Y) corner)
    {
        var first = options.Hall ?? Slug(sheet) ?? "hall";
        var id = number == 0 ? first : string.Create(CultureInfo.InvariantCulture, $"{first}-{number + 1}");
        var known = _current.Find(id);
        var whole = grid.Used.ToString();
        if (known is null)
        {
            Add(RecordKind.Hall, id, "name", FactValue.Of(number == 0 ? sheet : $"{sheet} {number + 1}"), whole);
            if (number == 0 && records.All(record => record.Kind != RecordKind.Hall || record.Fact("as_found")?.Text != "true"))
                Add(RecordKind.Hall, id, "as_found", FactValue.Of("true"), whole);
        }

        if (!outline.IsEmpty) Add(RecordKind.Hall, id, "outline", Line(outline, corner), whole);
        var rows = Rows(GridRows.Find(frames), known);
        foreach (var row in rows) Row(id, row, corner);
        return new GridHall(id, rows, outline, corner);
    }

    // Rows with a side that they face and an id; a row is parted where its frames have different fronts.
    private ImmutableArray<GridRow> Rows(ImmutableArray<GridRow> found, RawRecord? hall)
    {
        var used = new HashSet<string>(StringComparer.Ordinal);
        var rows = ImmutableArray.CreateBuilder<GridRow>();
        var number = 0;
        foreach (var each in found)
        {
            number++;
            var id = Recorded(hall, each) ?? Written(each) ?? string.Create(CultureInfo.InvariantCulture, $"row-{number}");
            var faces = each.Faces ?? Seen(each);
            if (faces is null && options.Faces.TryGetValue(id, out var told)) faces = told;
            if (faces is null && options.Faces.TryGetValue("", out var all)
                && (each.IsAcross is not { } way || Fits(all, way))) faces = all;
            if (faces is not { } facing || (each.IsAcross is { } across && !Fits(facing, across)))
            {
                var sides = each.IsAcross switch
                {
                    true => "north or south",
                    false => "east or west",
                    null => "north, east, south or west",
                };
                var some = string.Join(", ", each.Frames.Take(5).Select(frame => frame.Id)) + (each.Frames.Length > 5 ? ", …" : "");
                _diagnostics.Add(DiagnosticDescriptors.FacingUnknown.At(
                    At(each.Frames[0].Cell),
                    $"the sheet does not show where the row `{id}` faces ({some})",
                    $"add --faces {id}={sides.Split([' ', ','])[0]} ({sides}), or write an arrow beside it, such as ↓"));
                rows.Add(each with { Id = id });
                continue;
            }

            var isAcross = facing is Compass.North or Compass.South;
            var part = 0;
            foreach (var frames in Parted(each.Frames, facing))
            {
                part++;
                var own = part == 1 ? id : string.Create(CultureInfo.InvariantCulture, $"{id}-{part}");
                for (var copy = 2; !used.Add(own); copy++) own = string.Create(CultureInfo.InvariantCulture, $"{id}-{copy}");
                rows.Add(new GridRow(frames, isAcross, facing, own));
            }
        }

        return rows.ToImmutable();
    }

    private static bool Fits(Compass faces, bool isAcross) => faces is Compass.North or Compass.South == isAcross;

    private static IEnumerable<ImmutableArray<GridFrame>> Parted(ImmutableArray<GridFrame> frames, Compass faces)
    {
        var from = 0;
        for (var at = 1; at <= frames.Length; at++)
        {
            if (at < frames.Length && Front(frames[at], faces) == Front(frames[from], faces)) continue;
            yield return frames[from..at];
            from = at;
        }
    }

    // In squares from the sheet's corner.
    private static int Front(GridFrame frame, Compass faces) => faces switch
    {
        Compass.North => frame.Block.Top - 1,
        Compass.South => frame.Block.Bottom,
        Compass.West => frame.Block.Left - 1,
        _ => frame.Block.Right,
    };

    // An arrow or the word front beside the row; or lines along one long side and none along the other.
    private Compass? Seen(GridRow row)
    {
        Compass[] sides = row.IsAcross switch
        {
            true => [Compass.North, Compass.South],
            false => [Compass.West, Compass.East],
            null => [Compass.North, Compass.East, Compass.South, Compass.West],
        };
        var seen = new HashSet<Compass>();
        foreach (var side in sides)
        {
            foreach (var square in row.Frames.SelectMany(frame => Beside(frame.Block, side)))
            {
                if (grid.At(square) is not { } cell || cell.Text.Trim() is not { Length: > 0 } text) continue;
                Compass? shown = string.Equals(text, "front", StringComparison.OrdinalIgnoreCase) ? side
                    : text.Length <= 2 && GridFrames.Arrow(text) is { } arrow && sides.Contains(arrow) ? arrow : null;
                if (shown is not { } found) continue;
                seen.Add(found);
                _read.Add(square);
            }
        }

        if (seen.Count == 1) return seen.First();
        if (seen.Count > 1 || row.IsAcross is null) return null;
        return (Sides(isLined: true), Sides(isLined: false)) is ([var one], [_]) ? one : null;

        List<Compass> Sides(bool isLined) =>
        [
            .. sides.Where(side => row.Frames.SelectMany(frame => Edge(frame.Block, side))
                .All(each => grid.HasLine(each.In, each.Out) == isLined)),
        ];
    }

    private static IEnumerable<(int Row, int Column)> Beside(SquareBlock block, Compass side) => Edge(block, side).Select(each => each.Out);

    private static IEnumerable<((int Row, int Column) In, (int Row, int Column) Out)> Edge(SquareBlock block, Compass side)
    {
        var isAcross = side is Compass.North or Compass.South;
        for (var at = isAcross ? block.Left : block.Top; at <= (isAcross ? block.Right : block.Bottom); at++)
        {
            yield return side switch
            {
                Compass.North => ((block.Top, at), (block.Top - 1, at)),
                Compass.South => ((block.Bottom, at), (block.Bottom + 1, at)),
                Compass.West => ((at, block.Left), (at, block.Left - 1)),
                _ => ((at, block.Right), (at, block.Right + 1)),
            };
        }
    }

    // A row of the hall that has one of these frames keeps its id.
    private static string? Recorded(RawRecord? hall, GridRow row)
    {
        if (hall is null) return null;
        var ids = row.Frames.Select(frame => frame.Id).ToHashSet(StringComparer.Ordinal);
        foreach (var fact in hall.Facts.Where(fact => fact.Name.StartsWith("rows.", StringComparison.Ordinal)))
        {
            var end = fact.Name.IndexOf(".frames", StringComparison.Ordinal);
            if (end > 5 && fact.Text.Split(", ").Any(ids.Contains)) return fact.Name[5..end];
        }

        return null;
    }

    // What is written in front of the first frame, in line with it.
    private string? Written(GridRow row)
    {
        var first = row.Frames[0].Block;
        var before = Enumerable.Range(1, 2)
            .SelectMany(step => Enumerable.Range(first.Top, first.Down).Select(at => (Row: at, Column: first.Left - step)));
        var above = Enumerable.Range(1, 2)
            .SelectMany(step => Enumerable.Range(first.Left, first.Across).Select(at => (Row: first.Top - step, Column: at)));
        var squares = row.IsAcross switch { true => before, false => above, null => before.Concat(above) };
        foreach (var square in squares)
        {
            if (grid.At(square) is not { Type: CellType.Text } cell || _read.Contains(square) || Slug(cell.Text) is not { } id) continue;
            _read.Add(square);
            return id;
        }

        return null;
    }

    private void Row(string hall, GridRow row, (int X, int Y) corner)
    {
        if (row is not { Faces: { } faces, IsAcross: { } isAcross, Id: { } id }) return;
        var block = row.Block;
        var cells = block.ToString();
        var front = Front(row.Frames[0], faces);
        var at = isAcross
            ? (X: block.Left - 1 - corner.X, Y: front - corner.Y)
            : (X: front - corner.X, Y: block.Top - 1 - corner.Y);
        var key = $"rows.{id}.";
        Add(RecordKind.Hall, hall, key + "at", FactValue.ListOf([Millimetres(at.X), Millimetres(at.Y)]), cells);
        Add(RecordKind.Hall, hall, key + "runs", FactValue.Of(isAcross ? "east" : "south"), cells);
        Add(RecordKind.Hall, hall, key + "faces", FactValue.Of(faces.ToString().ToLowerInvariant()), cells);
        var places = ImmutableArray.CreateBuilder<FactValue>();
        for (var i = 0; i < row.Frames.Length; i++)
        {
            if (i > 0 && row.GapBefore(i) is > 0 and var gap)
                places.Add(new FactMapping([new FactEntry("gap", FactValue.Of($"{Millimetres(gap)} mm"))]));
            places.Add(FactValue.Of(row.Frames[i].Id));
        }

        Add(RecordKind.Hall, hall, key + "frames", new FactList(places.ToImmutable()), cells);
    }

    private void Frame(GridFrame frame, List<GridHall> halls, ImmutableArray<LegendEntry> legend)
    {
        var known = _current.Find(frame.Id);
        var cell = frame.Block.ToString();
        if (known is null) Add(RecordKind.Frame, frame.Id, "name", FactValue.Of(frame.Name ?? frame.Id), cell);
        var row = halls.SelectMany(hall => hall.Rows).FirstOrDefault(row => row.Frames.Any(each => each.Id == frame.Id));
        if (known?.Fact("size") is null && options.Height is { } height && row is { IsAcross: { } isAcross })
        {
            var (width, depth) = isAcross ? (frame.Block.Across, frame.Block.Down) : (frame.Block.Down, frame.Block.Across);
            Add(
                RecordKind.Frame,
                frame.Id,
                "size",
                FactValue.Of($"{Millimetres(width)} mm x {Millimetres(depth)} mm x {height}"),
                cell,
                new FactEvidence(EvidenceSource.Drawing, Note: $"in whole floor squares of {Millimetres(1)} mm"));
        }

        if (legend.FirstOrDefault(entry => entry.Fill == frame.Fill && entry.Meaning == FillMeaning.Module) is not { } module) return;
        var spelt = records.Where(record => record.Kind == RecordKind.Frame).Select(record => record.Fact("module")?.Text).OfType<string>()
            .FirstOrDefault(text => string.Equals(text, module.Name, StringComparison.OrdinalIgnoreCase));
        Add(RecordKind.Frame, frame.Id, "module", FactValue.Of(spelt ?? module.Name), cell);
    }

    private void Displays(ImmutableArray<GridFrame> frames, ImmutableArray<LegendEntry> legend)
    {
        foreach (var entry in legend.Where(entry => entry.Meaning == FillMeaning.Display))
        {
            var members = frames.Where(frame => frame.Fill == entry.Fill).Select(frame => frame.Id).ToList();
            var display = _current.Find(entry.Name)!;
            if (members.Count == 0) continue;
            if (display.Facts.Any(fact => fact.Name.StartsWith("needs.", StringComparison.Ordinal)))
            {
                _diagnostics.Add(DiagnosticDescriptors.DisplayWithChoices.At(
                    At(entry.Cell),
                    $"what `{entry.Name}` needs has choices in it, so its frames are not proposed",
                    $"add by hand those that are missing of {string.Join(", ", members.Take(20))}"));
                continue;
            }

            var needs = (display.Fact("needs")?.Text ?? "").Split(", ", StringSplitOptions.RemoveEmptyEntries);
            Add(RecordKind.Display, entry.Name, "needs", FactValue.ListOf(needs.Union(members)), entry.Cell.Address);
        }
    }

    // Squares and frames of the colour that leaves are one line on the floor, if they hang together.
    private void Take(GridHall hall, ImmutableArray<LegendEntry> legend)
    {
        if (legend.FirstOrDefault(entry => entry.Meaning == FillMeaning.Take) is not { } take) return;
        var (line, column) = (take.Cell.Row, take.Cell.Column);
        var squares = GridFrames.Squares(grid.Used)
            .Where(square => grid.Fill(square) == take.Fill && square != (line, column) && square != (line, column - 1)).ToHashSet();
        var frames = hall.Rows.SelectMany(row => row.Frames).ToList();
        foreach (var frame in frames.Where(frame => frame.Fill == take.Fill)) squares.UnionWith(GridFrames.Squares(frame.Block));
        var parts = GridFields.Parts(squares)
            .Where(part => frames.Any(frame => part.Contains((frame.Block.Top, frame.Block.Left)))).ToList();
        if (parts.Count == 1) Add(RecordKind.Hall, hall.Id, "take", Line(GridFields.Corners(parts[0]), hall.Origin), take.Cell.Address);
        else if (parts.Count > 1)
        {
            _diagnostics.Add(DiagnosticDescriptors.TakeInParts.At(
                At(take.Cell),
                $"what leaves `{hall.Id}` is {parts.Count} areas that do not touch, but a hall has one line",
                "fill the floor between them with the same colour, or record `take` by hand"));
        }
    }

    private IEnumerable<string> LeftOut(ImmutableArray<GridFrame> frames, ImmutableArray<LegendEntry> legend)
    {
        var meant = legend.Select(entry => entry.Fill).ToHashSet(StringComparer.Ordinal);
        foreach (var fill in frames.Where(frame => frame.Fill is { } colour && !meant.Contains(colour)).GroupBy(frame => frame.Fill))
            yield return $"colour {fill.Key} of {string.Join(", ", fill.Take(5).Select(frame => frame.Id))}: no legend says what it means";
        foreach (var (cell, _) in grid.Texts.Where(text => !_read.Contains((text.Cell.Row, text.Cell.Column))))
            yield return $"{sheet}!{cell.Address} {cell.Text.Trim().ReplaceLineEndings(" ")}";
    }

    private FactList Line(ImmutableArray<(int X, int Y)> points, (int X, int Y) corner) => new(
        [.. points.Select(point => FactValue.ListOf([Millimetres(point.X - corner.X), Millimetres(point.Y - corner.Y)]))]);

    private string Millimetres(int squares) => (squares * options.SquareMillimetres).ToString("0.###", CultureInfo.InvariantCulture);

    private void Add(RecordKind kind, string id, string key, FactValue value, string cells, FactEvidence? evidence = null) =>
        _facts.Add(new ProposedFact
        {
            RecordKind = kind,
            RecordId = id,
            Key = key,
            Value = value,
            Evidence = evidence,
            Origin = origin with { Cell = $"{sheet}!{cells}" },
        });

    private SourceSpan At(SheetCell cell) => new SourceText($"{origin.File}, {sheet}!{cell.Address}", cell.Text).Whole;

    // "Row 1" is row-1.
    private static string? Slug(string text)
    {
        var slug = string.Concat(text.Trim().ToLowerInvariant().Select(letter => char.IsWhiteSpace(letter) ? '-' : letter));
        return RecordId.IsValid(slug) && GridFrames.Arrow(text) is null ? slug : null;
    }
}

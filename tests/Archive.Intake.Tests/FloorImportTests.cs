using System.Collections.Immutable;
using System.Globalization;
using Archive.Intake.FloorGrids;
using Archive.Proposals;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Spreadsheets.Model;
using CsCheck;
using Xunit;

namespace Archive.Intake.Tests;

public class FloorImportTests
{
    private static readonly FloorOptions Squares600 =
        new("Floor", 600, null, ImmutableDictionary<string, Compass>.Empty, "2100 mm");

    private static readonly string[] Colours = ["#ffcc00", "#99ccff", "theme 4 tint 0.4"];

    private static readonly Gen<ImmutableArray<DrawnRow>> Halls = Gen.Select(
        Gen.Bool,
        Gen.Enum<Compass>(),
        Gen.Select(Gen.Int[1, 2], Gen.Int[1, 3], Gen.Int[0, 2], Gen.Int[0, 3]).Array[1, 6],
        Gen.Int[0, 2]).Select((_, faces, frames, shown) => new DrawnRow(faces, [.. frames.Select(each =>
            new DrawnFrame(each.Item1, each.Item2, each.Item3, each.Item4))], shown)).Array[1, 5].Select(rows => rows.ToImmutableArray());

    [Fact]
    public void A_random_hall_drawn_as_a_grid_and_imported_gives_that_hall()
    {
        var drawn = 0;
        Gen.Select(Halls, Gen.Bool).Sample((rows, hasWalls) =>
        {
            var sheet = new DrawnSheet();
            var (expected, faces) = Draw(sheet, rows, hasWalls);
            var import = FloorImport.Read(sheet, new ProposalOrigin("floor.xlsx"), [], Squares600 with { Faces = faces });
            Assert.Empty(import.Diagnostics);
            var said = import.Facts.Where(fact => fact.Key is "outline" or "size" || fact.Key.StartsWith("rows.", StringComparison.Ordinal))
                .Select(fact => $"{fact.RecordId} {fact.Key} {fact.Value.Text}").Order(StringComparer.Ordinal);
            Assert.Equal(expected.Order(StringComparer.Ordinal), said);
            drawn++;

            // Written and imported again, it says what the record says.
            var folder = Accepted(import);
            var (records, _) = RawRecord.All(folder);
            var again = FloorImport.Read(sheet, new ProposalOrigin("floor.xlsx"), records, Squares600 with { Faces = faces });
            Assert.DoesNotContain(ProposalFinder.Find(new CurrentRecords(records), again.Facts), proposal => proposal.IsChange);
        }, iter: 150, threads: 1);
        Assert.True(drawn > 100);
    }

    [Fact]
    public void What_the_sheet_does_not_show_is_asked()
    {
        var sheet = new DrawnSheet();
        for (var at = 1; at <= 3; at++) sheet.Write(5, at + 2, $"R1-0{at}");
        sheet.Write(5, 2, "Row A");
        var asked = Assert.Single(Import(sheet).Diagnostics);
        Assert.Equal("AF1605", asked.Code);
        Assert.Contains("--faces row-a=north", asked.Help, StringComparison.Ordinal);
        Assert.Empty(Import(sheet).Facts);
        var answer = Squares600 with { Faces = ImmutableDictionary<string, Compass>.Empty.Add("row-a", Compass.South) };
        var told = FloorImport.Read(sheet, new ProposalOrigin("f.xlsx"), [], answer, TestContext.Current.CancellationToken);
        Assert.Contains("0, 600", told.Facts.Single(fact => fact.Key == "rows.row-a.at").Value.Text, StringComparison.Ordinal);

        // The word front, or a line along one side only, shows it too.
        sheet.Write(4, 4, "front");
        Assert.Equal("north", Import(sheet).Facts.Single(fact => fact.Key == "rows.row-a.faces").Value.Text);
    }

    [Fact]
    public void Frames_are_names_and_not_numbers_along_the_edge()
    {
        var sheet = new DrawnSheet();
        for (var at = 1; at <= 5; at++) sheet.Write(1, at + 1, at.ToString(CultureInfo.InvariantCulture));
        sheet.Write(3, 2, "Switch room");
        sheet.Write(3, 4, "17");
        Assert.Equal("AF1604", Assert.Single(Import(sheet).Diagnostics).Code);
        var folder = InMemoryFolder.Empty.With("archive.yaml", "title: T\n").With("frames/f.yaml", "- {id: \"17\", name: x}\n");
        var known = FloorImport.Read(
            sheet, new ProposalOrigin("f.xlsx"), RawRecord.All(folder, TestContext.Current.CancellationToken).Records,
            Squares600 with { Faces = ImmutableDictionary<string, Compass>.Empty.Add("", Compass.South) },
            TestContext.Current.CancellationToken);
        Assert.Equal("17", known.Facts.Single(fact => fact.Key == "rows.switch-room.frames").Value.Text);
    }

    // LibreOffice made the files; the README beside them says how.
    [Theory]
    [InlineData("floor.xlsx")]
    [InlineData("floor.ods")]
    public void Merged_cells_boxes_colours_and_a_legend_are_read(string file)
    {
        var folder = InMemoryFolder.Empty.With("archive.yaml", "title: T\n")
            .With("displays/d.yaml", "- {id: first-light, name: First light, needs: [R2-01]}\n");
        var records = RawRecord.All(folder, TestContext.Current.CancellationToken).Records;
        var import = FloorImport.Read(
            File.OpenRead(Path.Combine(Repository.Root, "tests", "Archive.Spreadsheets.Tests", "files", file)),
            file,
            records,
            Squares600 with { Sheet = "ground floor", Hall = "origin" },
            TestContext.Current.CancellationToken);
        Assert.Empty(import.Diagnostics);
        Assert.Equal(["Ground floor!A1 Receiving hall, ground floor", "Ground floor!L8 aisle 1 m"], import.LeftOut);
        Assert.Equal(
            """
            R1-01 module Receivers
            R1-01 name Receiver one
            R1-01 size 600 mm x 1200 mm x 2100 mm
            R1-02 module Receivers
            R2-01 size 600 mm x 1200 mm x 2100 mm
            first-light needs R2-01, R1-04
            origin as_found true
            origin name Ground floor
            origin outline [0, 0], [5400, 0], [5400, 6000], [0, 6000]
            origin rows.row-1.at 600, 2400
            origin rows.row-1.faces south
            origin rows.row-1.frames R1-01, R1-02, [gap: 600 mm], R1-04
            origin rows.row-1.runs east
            origin rows.row-2.at 4200, 1200
            origin rows.row-2.faces west
            origin rows.row-2.frames PW-01, PW-02
            origin rows.row-2.runs south
            origin rows.row-3.at 600, 4800
            origin rows.row-3.faces south
            origin rows.row-3.frames R2-01, R2-02
            origin rows.row-3.runs east
            origin take [4200, 1200], [4800, 1200], [4800, 2400], [4200, 2400]
            """.ReplaceLineEndings("\n"),
            string.Join('\n', import.Facts.Where(fact => fact.RecordId is "origin" or "R1-01" or "first-light"
                || (fact.RecordId, fact.Key) is ("R1-02", "module") or ("R2-01", "size"))
                .Select(fact => $"{fact.RecordId} {fact.Key} {fact.Value.Text}").Order(StringComparer.Ordinal)));
        Assert.Equal("Ground floor!C4:C5", import.Facts.First(fact => fact.RecordId == "R1-01").Origin.Cell);
    }

    [Fact]
    public void What_colours_cannot_say_is_left_to_a_person()
    {
        var sheet = new DrawnSheet();
        sheet.Write(3, 3, "R1-01 ↓");
        sheet.Write(3, 5, "R1-02");
        sheet.Write(9, 3, "R2-01 ↓");
        foreach (var (row, column) in new[] { (3, 3), (9, 3), (12, 1) }) sheet.Fill(new CellRange(row, column, row, column), "#ff0000");
        foreach (var (row, column) in new[] { (3, 5), (13, 1) }) sheet.Fill(new CellRange(row, column, row, column), "#00ff00");
        sheet.Write(12, 2, "take");
        sheet.Write(13, 2, "first-light");
        var folder = InMemoryFolder.Empty.With("archive.yaml", "title: T\n")
            .With("displays/d.yaml", "- {id: first-light, name: First, needs: [R1-09, {any: 1, of: [R1-07, R1-08]}]}\n");
        var records = RawRecord.All(folder, TestContext.Current.CancellationToken).Records;
        var import = FloorImport.Read(
            sheet, new ProposalOrigin("f.xlsx"), records, Squares600, TestContext.Current.CancellationToken);
        Assert.Equal(["AF1607", "AF1608"], import.Diagnostics.Select(each => each.Code));
        Assert.DoesNotContain(import.Facts, fact => fact.Key is "take" or "needs");
    }

    [Fact]
    public void A_file_made_to_do_harm_is_refused()
    {
        var far = new DrawnSheet();
        far.Write(1, 1, "R1-01");
        far.Write(1, 16_000, "R1-02");
        Assert.Throws<SpreadsheetException>(() => Import(far));
        var wide = new DrawnSheet();
        wide.Write(1, 1, "R1-01");
        for (var at = 0; at < 3; at++) wide.Merge(new CellRange(1, 1, 1_000_000, 16_000));
        Assert.Throws<SpreadsheetException>(() => Import(wide));
        var twice = new DrawnSheet();
        twice.Write(1, 1, "R1-01 ↓");
        twice.Write(9, 9, "R1-01 ↑");
        Assert.Equal("AF1606", Assert.Single(Import(twice).Diagnostics).Code);
    }

    private static FloorImport Import(DrawnSheet sheet) =>
        FloorImport.Read(sheet, new ProposalOrigin("f.xlsx"), [], Squares600, TestContext.Current.CancellationToken);

    private static InMemoryFolder Accepted(FloorImport import)
    {
        var folder = InMemoryFolder.Empty.With("archive.yaml", "title: T\n");
        var (records, _) = RawRecord.All(folder);
        var changes = AcceptedProposals.Apply(folder, ProposalFinder.Find(new CurrentRecords(records), import.Facts));
        Assert.Empty(changes.Refused);
        foreach (var file in changes.Files) folder = folder.With(file.Path, file.After);
        var parsed = RecordReader.Read(folder);
        Assert.DoesNotContain(parsed.Diagnostics, each => each.Severity == Archive.Diagnostics.Severity.Error);
        return folder;
    }

    // Rows that run across stand one below the other; those that run down, beside them. Nothing is nearer than three squares.
    private static (List<string> Expected, ImmutableDictionary<string, Compass> Faces) Draw(
        DrawnSheet sheet, ImmutableArray<DrawnRow> rows, bool hasWalls)
    {
        var placed = new List<(string Id, DrawnRow Row, int Top, int Left)>();
        var (top, left) = (5, 40);
        foreach (var row in rows)
        {
            var id = $"row-{(char)('a' + placed.Count)}";
            if (row.IsAcross)
            {
                placed.Add((id, row, top, 5));
                top += 9;
            }
            else
            {
                placed.Add((id, row, 5, left));
                left += 9;
            }
        }

        var (expected, faces, number, squares) =
            (new List<string>(), ImmutableDictionary.CreateBuilder<string, Compass>(), 0, new List<CellRange>());
        var rowFacts = new List<(string Id, DrawnRow Row, CellRange First, string Frames)>();
        foreach (var (id, row, rowTop, rowLeft) in placed)
        {
            var at = 0;
            var places = new List<string>();
            var first = default(CellRange);
            foreach (var (frame, i) in row.Frames.Select((frame, i) => (frame, i)))
            {
                if (i > 0 && frame.GapBefore > 0)
                {
                    places.Add($"[gap: {frame.GapBefore * 600} mm]");
                    at += frame.GapBefore;
                }

                // Fronts are in one line, depths are not.
                var back = row.Faces is Compass.North or Compass.West ? 0 : 3 - frame.Depth;
                var range = row.IsAcross
                    ? new CellRange(rowTop + back, rowLeft + at, rowTop + back + frame.Depth - 1, rowLeft + at + frame.Width - 1)
                    : new CellRange(rowTop + at, rowLeft + back, rowTop + at + frame.Width - 1, rowLeft + back + frame.Depth - 1);
                if (i == 0) first = range;
                at += frame.Width;
                var name = $"F{++number:000}";
                places.Add(name);
                squares.Add(range);
                var isOne = range.FirstRow == range.LastRow && range.FirstColumn == range.LastColumn;
                var arrow = i == 0 && row.Shown == 0 ? $" {"↑→↓←"[(int)row.Faces]}" : "";
                sheet.Write(range.FirstRow, range.FirstColumn, name + arrow);
                if (frame.Style == 1) sheet.Fill(range, Colours[i % Colours.Length]);
                else if (frame.Style == 2) sheet.Box(range);
                else if (!isOne) sheet.Merge(range);
                expected.Add($"{name} size {frame.Width * 600} mm x {frame.Depth * 600} mm x 2100 mm");
            }

            sheet.Write(row.IsAcross ? first.FirstRow : first.FirstRow - 1, row.IsAcross ? first.FirstColumn - 1 : first.FirstColumn, id);
            if (row.Shown == 1) faces[id] = row.Faces;
            else if (row.Shown == 2)
            {
                var (y, x) = row.Faces switch
                {
                    Compass.North => (first.FirstRow - 1, first.FirstColumn),
                    Compass.South => (first.LastRow + 1, first.FirstColumn),
                    Compass.West => (first.FirstRow, first.FirstColumn - 1),
                    _ => (first.FirstRow, first.LastColumn + 1),
                };
                sheet.Write(y, x, "↑→↓←"[(int)row.Faces].ToString());
            }

            rowFacts.Add((id, row, first, string.Join(", ", places)));
        }

        var origin = hasWalls
            ? (Row: 2, Column: 2)
            : (Row: squares.Min(each => each.FirstRow), Column: squares.Min(each => each.FirstColumn));
        if (hasWalls)
        {
            var (bottom, right) = (squares.Max(each => each.LastRow) + 3, squares.Max(each => each.LastColumn) + 3);
            sheet.Box(new CellRange(2, 2, bottom, right));
            var (x, y) = ((right - 1) * 600, (bottom - 1) * 600);
            expected.Add($"floor outline [0, 0], [{x}, 0], [{x}, {y}], [0, {y}]");
        }

        foreach (var (id, row, first, frames) in rowFacts)
        {
            var (x, y) = row.Faces switch
            {
                Compass.North => (first.FirstColumn, first.FirstRow),
                Compass.South => (first.FirstColumn, first.LastRow + 1),
                Compass.West => (first.FirstColumn, first.FirstRow),
                _ => (first.LastColumn + 1, first.FirstRow),
            };
            expected.Add($"floor rows.{id}.at {(x - origin.Column) * 600}, {(y - origin.Row) * 600}");
            expected.Add($"floor rows.{id}.runs {(row.IsAcross ? "east" : "south")}");
            expected.Add($"floor rows.{id}.faces {row.Faces.ToString().ToLowerInvariant()}");
            expected.Add($"floor rows.{id}.frames {frames}");
        }

        return (expected, faces.ToImmutable());
    }

    /// <param name="Style">0 and 3: merged; 1: filled; 2: in a box of lines.</param>
    private sealed record DrawnFrame(int Width, int Depth, int GapBefore, int Style);

    /// <param name="Shown">0: an arrow in the first frame's cell; 1: named in the options; 2: an arrow beside it.</param>
    private sealed record DrawnRow(Compass Faces, ImmutableArray<DrawnFrame> Frames, int Shown)
    {
        internal bool IsAcross => Faces is Compass.North or Compass.South;
    }
}

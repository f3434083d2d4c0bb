using System.IO.Compression;
using Archive.Spreadsheets.Model;
using Archive.Spreadsheets.Reading;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class ExportTests
{
    [Fact]
    public async Task The_record_and_every_plan_become_sheets()
    {
        using var archive = new Asfound();
        archive.Write(
            "content/cables/d.yaml",
            "- {id: C-2, kind: coax-75, label: '=1+1', length: 60 ft, ends: [{at: R1-01}, {at: R1-02}]}\n");
        archive.Write(
            "content/events/e.yaml",
            "- {id: E-1, on: 2026-05-14, what: inspected, of: [R1-01]}\n- {id: E-2, on: 2026-05, what: inspected, of: [R1-01]}\n");
        var run = await archive.Run("export", archive["out.xlsx"]);
        Assert.Equal((0, ""), (run.Code, run.Out));
        var bytes = File.ReadAllBytes(archive["out.xlsx"]);
        using var book = Workbook.Open(new MemoryStream(bytes), "out.xlsx");
        var names = book.Sheets.Select(sheet => sheet.Name).ToList();
        Assert.Equal(["cables", "frames"], names[..2]);
        var plans = (await Asfound.Typed("plan")).Out.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line.Split(' ')[0]);
        // Where frames may stand is calculated when someone asks, and is on no page either.
        Assert.Equal(["stands"], plans.Except(names));

        // Units in the head, real numbers and dates; what looks like a formula is a text.
        var cables = book.Sheets[0].Rows().ToList();
        Assert.Equal((CellType.Number, 18.288), Cell(cables, "C-2", "length [m]") is var length ? (length!.Type, length.Number) : default);
        Assert.Equal((CellType.Text, "=1+1"), Cell(cables, "C-2", "label") is var label ? (label!.Type, label.Text) : default);
        Assert.Null(Cell(cables, "C-1", "length [m]"));
        var events = book.Find("events")!.Rows().ToList();
        Assert.Equal((CellType.Date, "2026-05-14"), Cell(events, "E-1", "on") is var day ? (day!.Type, day.Text) : default);
        Assert.Equal((CellType.Text, "2026-05"), Cell(events, "E-2", "on") is var month ? (month!.Type, month.Text) : default);

        // Frozen heads and filters over the whole table.
        using var zip = new ZipArchive(new MemoryStream(bytes));
        using var sheet = new StreamReader(zip.GetEntry("xl/worksheets/sheet1.xml")!.Open());
        var xml = sheet.ReadToEnd();
        Assert.Contains("ySplit=\"1\"", xml, StringComparison.Ordinal);
        Assert.Contains("<autoFilter ref=\"A1:", xml, StringComparison.Ordinal);
        Assert.Contains($"{cables.Count}\"/></worksheet>", xml, StringComparison.Ordinal);

        // The same record is the same bytes; a file that is there is not replaced unasked.
        Assert.Equal(2, (await archive.Run("export", archive["out.xlsx"])).Code);
        Assert.Equal(0, (await archive.Run("export", archive["out.xlsx"], "--replace")).Code);
        Assert.Equal(bytes, File.ReadAllBytes(archive["out.xlsx"]));
    }

    [Fact]
    public async Task Nothing_is_written_where_it_does_not_belong()
    {
        using var archive = new Asfound();
        foreach (var place in new[] { "content/out.xlsx", "out.csv", "content", "" })
            Assert.Equal(2, (await archive.Run("export", place.Length > 0 ? archive[place] : "")).Code);
        archive.Write("content/frames/r2.yaml", "- {id: R1-01}\n");
        var refused = await archive.Run("export", archive["out.xlsx"]);
        Assert.Equal(1, refused.Code);
        Assert.Contains("--with-errors", refused.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(archive["out.xlsx"]));
    }

    private static SheetCell? Cell(List<SheetRow> rows, string id, string head)
    {
        var column = rows[0].Cells.Single(cell => cell.Text == head).Column;
        var ids = rows[0].Cells.Single(cell => cell.Text == "id").Column;
        return rows.Single(row => row[ids]?.Text == id)[column];
    }
}

using System.IO.Compression;
using System.Text;
using Archive.Spreadsheets.Model;
using Archive.Spreadsheets.Reading;
using Xunit;

namespace Archive.Spreadsheets.Tests.Reading;

public sealed class HostileFileTests
{
    private const string Relationships = "<Relationships xmlns='http://schemas.openxmlformats.org/package/2006/relationships'>";

    private static byte[] Zip(params (string Name, string Text)[] parts)
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, text) in parts)
            {
                using var part = zip.CreateEntry(name).Open();
                part.Write(Encoding.UTF8.GetBytes(text));
            }
        }

        return bytes.ToArray();
    }

    private static byte[] Ods(string rows, string before = "") => Zip((
        "content.xml",
        $"{before}<d xmlns:t='t' xmlns:o='o' xmlns:x='x'><o:spreadsheet><t:table t:name='A'>{rows}</t:table></o:spreadsheet></d>"));

    private const string Usual = "<Relationship Id='r1' Type='x/worksheet' Target='worksheets/a.xml'/>";

    private static byte[] Xlsx(string data, string relation = Usual) => Zip(
        ("[Content_Types].xml", "<Types/>"),
        ("xl/workbook.xml", "<workbook xmlns:r='r'><sheets><sheet name='A' r:id='r1'/></sheets></workbook>"),
        ("xl/_rels/workbook.xml.rels", $"{Relationships}{relation}</Relationships>"),
        ("xl/worksheets/a.xml", $"<worksheet><sheetData>{data}</sheetData></worksheet>"));

    private static List<SheetCell> Cells(byte[] bytes)
    {
        using var book = Workbook.Open(new MemoryStream(bytes), "x.csv");
        return [.. book.Sheets.SelectMany(sheet => sheet.Rows()).SelectMany(row => row.Cells)];
    }

    private static string Refused(byte[] bytes) => Assert.Throws<SpreadsheetException>(() => Cells(bytes)).Message;

    [Fact]
    public void A_million_empty_rows_and_cells_are_nothing()
    {
        var cell = Assert.Single(Cells(Ods(
            "<t:table-row t:number-rows-repeated='1048000'><t:table-cell t:number-columns-repeated='16384'/></t:table-row>"
            + "<t:table-row><t:table-cell t:number-columns-repeated='2000'/><t:table-cell><x:p>last</x:p></t:table-cell></t:table-row>")));
        Assert.Equal((1_048_001, 2001, "last"), (cell.Row, cell.Column, cell.Text));
    }

    [Fact]
    public void What_is_repeated_counts_against_the_limit() => Assert.Equal(
        "a sheet has more than 5000000 cells",
        Refused(Ods(
            "<t:table-row t:number-rows-repeated='1000000'>"
            + "<t:table-cell t:number-columns-repeated='16384'><x:p>x</x:p></t:table-cell></t:table-row>")));

    [Fact]
    public void Entities_are_refused()
    {
        const string Entities = "<!DOCTYPE d [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;&a;'>]>";
        Assert.Contains("document type definition", Refused(Ods("<t:table-row/>", Entities)), StringComparison.Ordinal);
        Assert.Contains("document type definition", Refused(Zip(
            ("[Content_Types].xml", "<Types/>"), ("xl/workbook.xml", $"{Entities}<workbook/>"))), StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_part_unpacks_to_is_limited()
    {
        using var part = new PartReader(new MemoryStream(Encoding.UTF8.GetBytes($"<a>{new string(' ', 100_000)}</a>")), 50_000);
        var refused = Assert.Throws<SpreadsheetException>(() =>
        {
            while (part.Read())
            {
            }
        });
        Assert.StartsWith("one of its parts is larger than", refused.Message, StringComparison.Ordinal);
        Assert.StartsWith("a cell has more than", Refused(Xlsx(
            $"<row><c t='inlineStr'><is><t>{new string('x', 40_000)}</t></is></c></row>")), StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_outside_the_file_is_opened()
    {
        const string Outside = "<Relationship Id='r1' Type='x/worksheet' Target='file:///etc/passwd' TargetMode='External'/>";
        Assert.Empty(Cells(Xlsx("<row><c><v>1</v></c></row>", Outside)));
        Assert.Equal(
            "this file is damaged: it has no part etc/passwd",
            Refused(Xlsx("", "<Relationship Id='r1' Type='x/worksheet' Target='../../../etc/passwd'/>")));
    }

    [Fact]
    public void Formulas_are_never_computed_and_odd_cells_keep_their_place()
    {
        var cells = Cells(Xlsx(
            "<row r='3'><c r='B3'><f>1+1</f><v>7</v></c><c><v>1e400</v></c><c r='A3' t='str'><v>late</v></c></row>"
            + "<row><c t='inlineStr'><is><r><t>a_x000A_</t></r><rPh><t>no</t></rPh><r><t>b</t></r></is></c>"
            + "<c t='d'><v>2026-05-14T00:00:00</v></c></row>"));
        Assert.Equal(
            ["B3 Number 7", "C3 Text 1e400", "D3 Text late", "A4 Text a\nb", "B4 Date 2026-05-14"],
            cells.Select(cell => $"{cell.Address} {cell.Type} {cell.Text}"));
        Assert.Contains("refers to a text that is not there", Refused(Xlsx("<row><c t='s'><v>9</v></c></row>")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "the file is empty")]
    [InlineData("PK", "this file is damaged: its list of parts cannot be read")]
    [InlineData("\0\u0001\u0002", "this is no spreadsheet")]
    [InlineData("a,b\n\"never closed", "line 2: a quote is never closed")]
    public void What_is_no_spreadsheet_is_said(string text, string why) => Assert.Equal(why, Refused(Encoding.Latin1.GetBytes(text)));

    [Fact]
    public void Old_and_protected_files_are_said() =>
        Assert.Contains(".xls", Refused([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]), StringComparison.Ordinal);

    /// <summary>A damaged file is read in part or refused, and never anything else.</summary>
    [Theory]
    [InlineData("station.xlsx")]
    [InlineData("station.ods")]
    public void Any_damage_is_refused_or_read(string file)
    {
        var whole = File.ReadAllBytes(Path.Combine(Repository.Root, "tests/Archive.Spreadsheets.Tests/files", file));
        var random = new Random(8);
        for (var turn = 0; turn < 300; turn++)
        {
            byte[] damaged = [.. whole];
            if (turn % 5 == 0) damaged = damaged[..random.Next(damaged.Length)];
            else for (var at = 0; at < 1 + (turn % 7); at++) damaged[random.Next(damaged.Length)] = (byte)random.Next(256);
            try
            {
                Cells(damaged);
                using var book = Workbook.Open(new MemoryStream(damaged), file);
                foreach (var sheet in book.Sheets) sheet.Merged();
            }
            catch (SpreadsheetException refused)
            {
                Assert.NotEmpty(refused.Help);
            }
        }
    }
}

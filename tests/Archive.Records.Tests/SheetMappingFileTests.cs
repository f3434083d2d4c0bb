using System.Text;
using Archive.Diagnostics;
using Archive.Records.Facts;
using Archive.Records.Mappings;
using Archive.Records.Model;
using CsCheck;
using Xunit;

namespace Archive.Records.Tests;

public sealed class SheetMappingFileTests
{
    private static readonly Gen<string> Text = Gen.Char["aZ09 .:#'\"{}[],&*!|>%@`-é\\?=\t"].Array[1, 12]
        .Select(letters => new string(letters))
        .Where(text => text.Trim() == text);

    // Whatever a sheet, a head or a file is called, the curator's file says the same.
    [Fact]
    public void What_is_written_is_read_again() => Gen.Select(Text, Text, Text, Gen.Int[1, 20]).Sample((sheet, head, value, row) =>
    {
        var span = new SourceText("m.yaml", "").Whole;
        var mapping = new SheetMapping
        {
            Sheet = sheet,
            Head = row,
            Kind = RecordKind.CableKind,
            File = "kinds/list.yaml",
            Evidence = new FactEvidence(EvidenceSource.Told, "dm", "2026-05"),
            Columns =
            [
                new ColumnMapping("id", span) { Column = "A", Head = head, Comment = head },
                new ColumnMapping("diameter", span) { Column = "AB", Unit = "mm" },
                new ColumnMapping("diameter", span) { Column = "C" },
                new ColumnMapping("name", span) { Value = value },
            ],
            Span = span,
        };
        var (sheets, diagnostics) = SheetMappingFile.Read("m.yaml", Encoding.UTF8.GetBytes(SheetMappingFile.Write([mapping])));
        Assert.Empty(diagnostics);
        var read = Assert.Single(sheets);
        Assert.Equal(
            (sheet, row, mapping.Kind, mapping.File, mapping.Evidence),
            (read.Sheet, read.Head, read.Kind, read.File, read.Evidence));
        Assert.Equal(
            mapping.Columns.Select(column => (column.Key, column.Column, column.Head, column.Unit, column.Value)),
            read.Columns.Select(column => (column.Key, column.Column, column.Head, column.Unit, column.Value)));
    });

    [Theory]
    [InlineData("")]
    [InlineData("kind")]
    [InlineData("- kind: [cable]\n")]
    [InlineData("- {kind: cable, columns: []}\n")]
    [InlineData("- {kind: cable, columns: {id: A}}\n")]
    [InlineData("- {kind: cable, columns: {id: {column: A}}, addresses: {reads: x}}\n")]
    [InlineData("\0")]
    public void What_is_no_mapping_is_an_error_with_a_place(string text)
    {
        var (_, diagnostics) = SheetMappingFile.Read("m.yaml", Encoding.UTF8.GetBytes(text));
        Assert.Contains(diagnostics, each => each.Severity == Severity.Error && each.Span.Path == "m.yaml");
    }
}

using Archive.PhotoLabels.Grammars;
using Archive.PhotoLabels.Joining;
using Archive.PhotoLabels.Reading;
using Archive.Records.Model;
using Xunit;

namespace Archive.PhotoLabels.Tests;

public sealed class PhotoRowsTests
{
    private static readonly SchemeGrammars Grammars = SchemeGrammars.From(WrittenArchive.Model(
        ("frames/f.yaml", """
            - {id: R2-05, positions: [{id: S7, ports: [J1..J16]}]}
            - {id: R3-09, positions: [{id: S2, ports: [J1..J60]}]}
            """),
        ("schemes/s.yaml", File.ReadAllText(Path.Combine(Repository.Root, "content/schemes/jacket-print.yaml")))));

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_row_or_a_column_decides_between_ports(bool isRow)
    {
        // Out of order in the list: the place in the photo counts.
        var lines = PhotoRows.Weighed(
            [
                Line(isRow, 0.5, ("0205-07J08 0309-02J40", 0.5), ("0205-07J03 0309-02J40", 0.45)),
                Line(isRow, 0.2, ("0205-07J02 0309-02J31", 0.98)),
                Line(isRow, 0.8, ("0205-07J04 0309-02J12", 0.98)),
            ],
            Grammars);
        Assert.Equal("0205-07J03 0309-02J40", lines[0].Line.Readings[0].Label);
        Assert.InRange(lines[0].Line.Readings[0].Probability, 0.7, 1);
        Assert.Equal("0205-07J02 0309-02J31", lines[1].Line.Readings[0].Label);
    }

    [Fact]
    public void Lines_of_other_photos_and_lines_apart_have_no_say()
    {
        var alone = Line(true, 0.5, ("0205-07J08 0309-02J40", 0.5), ("0205-07J03 0309-02J40", 0.45));
        var apart = Line(true, 0.2, ("0205-07J02 0309-02J31", 0.98));
        var lines = PhotoRows.Weighed(
            [alone, apart with { Photo = PhotoNamed("P-2") }, apart with { Box = new ImageBox(0.8, 0.9, 0.1, 0.05) }], Grammars);
        Assert.Equal(alone.Line.Readings.ToArray(), lines[0].Line.Readings.ToArray());
    }

    private static LineInPhoto Line(bool isRow, double at, params (string Label, double Probability)[] readings)
    {
        var (x, y) = isRow ? (at, 0.5) : (0.5, at);
        var line = new PhotoLine(
            x, y, 0.1, 0.05, 0, 0, "", [.. readings.Select(one => new LineReading("jacket-print", one.Label, one.Probability))]);
        return new LineInPhoto(PhotoNamed("P-1"), line, new ImageBox(x - 0.05, y - 0.025, 0.1, 0.05), null);
    }

    private static Photo PhotoNamed(string id) => new() { Id = id, IdSpan = default, Span = default };
}

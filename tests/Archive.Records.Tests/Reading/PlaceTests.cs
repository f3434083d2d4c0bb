using Archive.Records.Model;
using Xunit;

namespace Archive.Records.Tests.Reading;

/// <summary>Every value knows where it stands, whatever line ends, tabs and letters come before it.</summary>
public class PlaceTests
{
    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    [InlineData("\r")]
    public void Line_ends_of_every_sort(string end)
    {
        var text = string.Join(
            end,
            "# 😀 a comment",
            "",
            "- id: F-1",
            "  name: \"😀 é\"",
            "  note: 'it''s'",
            "  about: |",
            "    one",
            "",
            "    two",
            "",
            "- id: F-2 # c",
            "  name:\tTabbed",
            "  weight:   [1]",
            "");
        var parsed = Archives.Read("frames/a.yaml", text);
        Assert.Equal(["frames/a.yaml:13:13 AF0203"], parsed.Places());
        var (one, two) = ((Frame)parsed.Records[0], (Frame)parsed.Records[1]);
        Assert.Equal(("F-1", "F-2", "Tabbed"), (one.IdSpan.Text, two.IdSpan.Text, two.Name!.Value.Span.Text));
        Assert.Equal(("\"😀 é\"", "'it''s'"), (one.Name!.Value.Span.Text, one.Note!.Value.Span.Text));
        Assert.Equal($"|{end}    one{end}{end}    two", one.About!.Value.Span.Text);
        Assert.Equal((10, 6), (two.IdSpan.From.Line, two.IdSpan.From.Column));
    }

    [Fact]
    public void Separators_that_are_no_line_ends_in_yaml()
    {
        var parsed = Archives.Read("frames/a.yaml", "- id: F-1\n  name: a\u2028b\u2029c\u0085d\ue000\n  nmae: x\n");
        Assert.Equal("a\u2028b\u2029c\u0085d\ue000", parsed.Records[0].Name?.Value);
        Assert.Equal(["frames/a.yaml:3:3 AF0201"], parsed.Places());
    }

    [Fact]
    public void Control_characters_are_told_and_the_record_is_kept()
    {
        var parsed = Archives.Read("frames/a.yaml", "- id: F-1\n  name: a\0b\u0007\n- {id: F-2, name: x}\n");
        Assert.Equal(["frames/a.yaml:2:10 AF0101", "frames/a.yaml:2:12 AF0101"], parsed.Places());
        Assert.Equal(["F-1", "F-2"], parsed.Records.Select(record => record.Id));
        Assert.Equal([null, "x"], parsed.Records.Select(record => record.Name?.Value));
    }

    [Fact]
    public void A_byte_order_mark_is_no_letter()
    {
        byte[] bytes = [0xef, 0xbb, 0xbf, .. "id: F-1\nname: x\nwieght: x\n"u8];
        Assert.Equal(["frames/a.yaml:3:1 AF0201"], Archives.Bare.With("frames/a.yaml", bytes).Read().Places());
        byte[] csv = [0xef, 0xbb, 0xbf, .. "id,kind\r\nC-1,k\r\nC 2,k\r\n"u8];
        Assert.Equal(["cables/a.csv:3:1 AF0301"], Archives.Bare.With("cables/a.csv", csv).Read().Places());
    }

    [Fact]
    public void Bytes_that_are_not_utf8()
    {
        byte[] bytes = [.. "- id: F-1\n  name: \u00e9t"u8, 0xe9, .. "\n- {id: F-2, name: x}\n"u8];
        var parsed = Archives.Bare.With("frames/a.yaml", bytes).Read();
        Assert.Equal(["frames/a.yaml:2:11 AF0005"], parsed.Places());
        Assert.Equal("byte 0xE9 is not UTF-8 text", parsed.Diagnostics[0].Message);
        Assert.Equal(2, parsed.Records.Length);
        Assert.Equal(
            ["frames/a.yaml:1:1 AF0005"], Archives.Bare.With("frames/a.yaml", System.Text.Encoding.Unicode.GetPreamble()).Read().Places());
    }

    [Fact]
    public void Spans_of_collections_end_at_their_brackets()
    {
        var parsed = Archives.Read(
            "cables/a.yaml",
            "- {id: C-1, kind: k, ends: [ {at: R1 , # a } b\n  label: x}  ,{at: R2,}] , }\n- id: C-2\n  kind: k\n  lies_in:\n  - T-1\n  - T-2\n");
        Assert.Empty(parsed.Diagnostics);
        var cable = (Cable)parsed.Records[0];
        Assert.Equal("{at: R1 , # a } b\n  label: x}", cable.Ends[0].Span.Text);
        Assert.Equal("{at: R2,}", cable.Ends[1].Span.Text);
        Assert.EndsWith("] , }", cable.Span.Text, StringComparison.Ordinal);
        Assert.Equal("id: C-2\n  kind: k\n  lies_in:\n  - T-1\n  - T-2", parsed.Records[1].Span.Text);
    }

    [Fact]
    public void Parts_of_a_quoted_value_are_told_inside_the_quotes()
    {
        Assert.Equal(["frames/a.yaml:1:35 AF0205"], Archives.Read("frames/a.yaml", "- {id: F-1, name: N, weight: \"310 kgg\"}").Places());
        Assert.Equal(["frames/a.yaml:1:35 AF0205"], Archives.Read("frames/a.yaml", "- {id: F-1, name: N, weight:  310 kgg}").Places());
    }

    [Fact]
    public void Cells_of_a_table_over_several_lines()
    {
        var parsed = Archives.Read(
            "cables/a.csv",
            "id,kind,label,note\r\n\r\nC-1,k,\"two\r\nlines, \"\"😀\"\"\",n\r\n\"C 2\" ,k,,\r\nC-3,k,,\"a\nb\"\r\n C-4 , k , l , n \r\nC 5,k,,");
        Assert.Equal(["cables/a.csv:5:6 AF0106", "cables/a.csv:9:1 AF0301"], parsed.Places());
        var cable = (Cable)parsed.Records[0];
        Assert.Equal(("two\r\nlines, \"😀\"", "two\r\nlines, \"\"😀\"\""), (cable.Label?.Value, cable.Label?.Span.Text));
        Assert.Equal(("n", 3), (cable.Note?.Span.Text, cable.Note?.Span.From.Line));
        var last = (Cable)parsed.Records[2];
        Assert.Equal(("C-4", "C-4", "k", "l", "n"), (last.Id, last.IdSpan.Text, last.Kind?.Value, last.Label?.Value, last.Note?.Span.Text));
    }
}

using System.Collections.Immutable;
using Archive.Diagnostics.Descriptors;
using Archive.Diagnostics.Rendering;
using Xunit;

namespace Archive.Diagnostics.Tests.Rendering;

public sealed class TextReportTests
{
    [Fact]
    public void Colour_is_written_only_where_it_is_asked_for()
    {
        Assert.Contains(
            "\e[31merror AF0204\e[0m", Told(new TextStyle(Colour: true, Width: 80), SampleFaults.All), StringComparison.Ordinal);
        Assert.DoesNotContain("\e", Told(TextStyle.Plain, SampleFaults.All), StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_of_a_hostile_record_reaches_the_terminal_as_a_command()
    {
        // Every character of the basic plane, lone surrogates among them.
        var text =
            new string([.. Enumerable.Range(0, 0x10000).Select(value => (char)value).Where(letter => letter is not '\n' and not '\r')]);
        var source = new SourceText(text[..200], text);
        var faults = Enumerable.Range(0, 200).Select(i => DiagnosticDescriptors.RawHtml.At(
            new SourceSpan(source, i * 300, 20), text.Substring(i * 300, 300), text.Substring(i * 300, 300)));
        var told = Told(TextStyle.Plain, RenderedDiagnostic.FromAll(faults, ""));
        Assert.All(told, letter => Assert.False(char.IsControl(letter) && letter != '\n', $"U+{(int)letter:X4}"));
        Assert.DoesNotContain('\u202e', told);
        Assert.DoesNotContain('\u2028', told);
    }

    [Theory]
    [InlineData("\t\tx: bad", "bad", "        x: bad", 11)]
    [InlineData("a\tbad", "bad", "a   bad", 4)]
    [InlineData("名: bad", "bad", "名: bad", 4)]
    [InlineData("e\u0301: bad", "bad", "e\u0301: bad", 3)]
    [InlineData("\U0001F4FB bad", "bad", "\U0001F4FB bad", 3)]
    [InlineData("\u001b bad", "bad", "␛ bad", 2)]
    [InlineData("\u202e bad", "bad", "<U+202E> bad", 9)]
    public void The_mark_stands_under_the_span(string line, string wrong, string shown, int column)
    {
        var source = new SourceText("f.yaml", line);
        var span = new SourceSpan(source, line.IndexOf(wrong, StringComparison.Ordinal), wrong.Length);
        var lines = Told(TextStyle.Plain, [RenderedDiagnostic.From(DiagnosticDescriptors.BareNumber.At(span, "m", "h"), "")]).Split('\n');
        Assert.Equal($"  1 | {shown}", lines[1]);
        Assert.Equal($"    | {new string(' ', column)}^^^", lines[2]);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(700)]
    [InlineData(4999)]
    [InlineData(5000)]
    public void A_point_anywhere_in_a_long_line_is_marked_once_and_within_the_width(int at)
    {
        var source = new SourceText("f.yaml", new string('x', 5000));
        var lines = Told(
            new TextStyle(Colour: false, Width: 60),
            [RenderedDiagnostic.From(DiagnosticDescriptors.BareNumber.At(new SourceSpan(source, at, 0), "m", "h"), "")]).Split('\n');
        Assert.InRange(lines[1].Length, 1, 60);
        Assert.InRange(lines[2].Length, 1, 60);
        Assert.Single(lines[2], '^');
    }

    [Fact]
    public void The_same_fault_is_told_once()
    {
        var source = new SourceText("f.yaml", "x: 1");
        var diagnostic = DiagnosticDescriptors.BareNumber.At(new SourceSpan(source, 3, 1), "m", "h");
        Assert.Single(RenderedDiagnostic.FromAll([diagnostic, diagnostic with { Help = "another check's help" }], ""));
    }

    private static string Told(TextStyle style, ImmutableArray<RenderedDiagnostic> diagnostics)
    {
        using var to = new StringWriter();
        TextReport.Write(to, diagnostics, style);
        return to.ToString();
    }
}

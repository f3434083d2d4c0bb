using System.Text;
using Archive.Diagnostics;
using Archive.Records.Model;
using Archive.Records.Reading;
using CsCheck;
using Xunit;

namespace Archive.Records.Tests.Reading;

/// <summary>Laws of reading that hold for every file, however broken.</summary>
public class ReadingProperties
{
    private static readonly (string Path, byte[] Bytes)[] Seeds = [.. SeedFiles()];

    // A cut, a change or a repetition somewhere in a file of the golden cases.
    private static readonly Gen<(string Path, byte[] Bytes)> Broken =
        from seed in Gen.OneOf(Seeds)
        from wounds in Gen.Select(Gen.Double.Unit, Gen.Double.Unit, Gen.Int[0, 6], Gen.OneOf(Shrapnel)).Array[1, 4]
        select (
            seed.Path, wounds.Aggregate(seed.Bytes, (bytes, wound) => Wound(bytes, wound.Item1, wound.Item2, wound.Item3, wound.Item4)));

    // What tends to upset readers of YAML, CSV and UTF-8.
    private static byte[][] Shrapnel =>
    [
        .. new[]
        {
            "[",
                "]",
                "{",
                "}",
                "\"",
                "'",
                "- ",
                ": ",
                "\n",
                "\r",
                "\t",
                "#",
                "&a ",
                "*a",
                "!!x ",
                "|",
                ">",
                "%",
                "@",
                "`",
                "---\n",
                "...\n",
                "? ",
                ",",
                "\0",
                "\u0085",
                "\u2028",
                "\ufeff",
                "😀",
                "\\",
                "<<: ",
                "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[",
                "\n- ",
                "\r\n",
                "~",
                "is: ",
                "1e999",
                "..",
                "../",
            }.Select(text => Encoding.UTF8.GetBytes(text)),
        [0xff], [0xc3], [0xed, 0xa0, 0x80], [0xf4, 0x90, 0x80, 0x80],
    ];

    [Fact]
    public void Reading_never_throws_and_every_place_lies_within_its_file() => Broken.Sample(
        file =>
        {
            var parsed = Archives.Bare.With(file.Path, file.Bytes).Read();
            foreach (var told in parsed.Diagnostics)
            {
                AssertWithin(told.Span);
                Assert.DoesNotContain('\n', told.Message);
                foreach (var related in told.Related) AssertWithin(related.Span);
            }

            foreach (var record in parsed.Records)
            {
                AssertWithin(record.Span);
                AssertWithin(record.IdSpan);
            }

            Assert.Equal(parsed.Diagnostics.Order(Diagnostic.Order), parsed.Diagnostics);
        },
        iter: 1000);

    [Fact]
    public void A_plain_value_stands_letter_for_letter_at_its_place() => Broken.Sample(
        file =>
        {
            foreach (var record in Archives.Bare.With(file.Path, file.Bytes).Read().Records)
            {
                foreach (var said in new[]
                {
                    record.Name,
                    record.Note,
                    record.Condition,
                    (record as Cable)?.Kind,
                    (record as Frame)?.Module
                })
                {
                    if (said is { } fact && fact.Span.Text.IndexOfAny(['"', '\'', '\n', '\r', '|', '>', '!', '&']) < 0)
                        Assert.Equal(fact.Span.Text, fact.Value);
                }
            }
        },
        iter: 500);

    [Fact]
    public void Any_text_in_double_quotes_comes_back_as_it_was() =>
        Gen.String.Where(text => !string.IsNullOrWhiteSpace(text) && IsWhole(text)).Sample(
            text =>
            {
                var frame = Archives.ReadOnly<Frame>(
                    "frames/a.yaml", $"- {{id: F-1, name: {System.Text.Json.JsonSerializer.Serialize(text)}}}");
                Assert.Equal(text, frame.Name?.Value);
            },
            iter: 1000);

    [Fact]
    public void Any_text_in_a_quoted_cell_comes_back_as_it_was() =>
        Gen.String.Where(text => !string.IsNullOrWhiteSpace(text) && IsWhole(text)).Sample(
            text =>
            {
                var cable = Archives.ReadOnly<Cable>("cables/a.csv", $"id,label,kind\r\nC-1,\"{text.Replace("\"", "\"\"")}\",k\r\n");
                Assert.Equal(text, cable.Label?.Value);
            },
            iter: 1000);

    [Fact]
    public void Records_come_in_file_order_whatever_order_they_were_read_in()
    {
        var folder = Enumerable.Range(0, 200).Aggregate(Archives.Bare, (folder, i) =>
            folder.With($"frames/{i:000}.yaml", $"- {{id: F-{i:000}a, name: x}}\n- {{id: F-{i:000}b, nmae: x}}\n"));
        var first = folder.Read();
        Assert.Equal(first.Records.Select(record => record.Id).Order(StringComparer.Ordinal), first.Records.Select(record => record.Id));
        Assert.Equal(400, first.Records.Length);
        for (var i = 0; i < 5; i++) Assert.Equal(first.Places(), folder.Read().Places());
    }

    [Fact]
    public void A_very_large_list_is_read_in_parts_as_if_it_were_one()
    {
        var text = new StringBuilder("# a long list\n");
        const int Count = 60_000;
        for (var i = 0; i < Count; i++) text.Append("- id: C-")
            .Append(i)
            .Append("\n  kind: coax-75\n  note: |\n    some words that take up room in the file and some more of them so that it is long enough and a dash\n    - here\n")
            .Append(i % 10_000 == 0 ? "  knid: x\n" : "");
        Assert.True(text.Length > 8 << 20);
        var parsed = Archives.Read("cables/a.yaml", text.ToString());
        Assert.Equal(Enumerable.Range(0, Count).Select(i => "C-" + i), parsed.Records.Select(record => record.Id));
        Assert.Equal(
            Enumerable.Range(0, Count / 10_000).Select(i => $"cables/a.yaml:{(i * 50_001) + 7}:3 AF0201"),
            parsed.Diagnostics.Select(told => $"{told.Span} {told.Code}"));
    }

    private static void AssertWithin(SourceSpan span) =>
        Assert.True(
            span.Start >= 0 && span.Length >= 0 && span.End <= span.Source.Text.Length,
            $"{span.Path} {span.Start}+{span.Length} of {span.Source.Text.Length}");

    private static bool IsWhole(string text) => !text.EnumerateRunes().Any(rune => rune == Rune.ReplacementChar);

    private static byte[] Wound(byte[] bytes, double from, double to, int sort, byte[] shrapnel)
    {
        var (a, b) = ((int)(from * (bytes.Length + 1)), (int)(to * (bytes.Length + 1)));
        if (a > b) (a, b) = (b, a);
        b = Math.Min(b, a + 60);
        return sort switch
        {
            0 => bytes[..a],
            1 => [.. bytes[..a], .. bytes[b..]],
            2 => [.. bytes[..b], .. bytes[a..b], .. bytes[b..]],
            3 =>
                [
                    .. bytes[..a],
                    .. Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(bytes[a..]).Replace("\n", "\r\n", StringComparison.Ordinal))
                ],
            _ => [.. bytes[..a], .. shrapnel, .. bytes[a..]],
        };
    }

    private static IEnumerable<(string Path, byte[] Bytes)> SeedFiles()
    {
        foreach (var name in new[] { "all-kinds", "csv", "yaml-syntax", "values-frame" })
        {
            var root = Path.Combine(CaseTests.Cases, name, "archive");
            foreach (var path in new ArchiveFolder(root).Files)
            {
                if (!path.EndsWith(".jpg", StringComparison.Ordinal)) yield return (path, File.ReadAllBytes(Path.Combine(root, path)));
            }
        }
    }
}

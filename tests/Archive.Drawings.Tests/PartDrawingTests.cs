using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Archive.Drawings.Halls;
using Archive.Drawings.QrCodes;
using Archive.Drawings.Svg;
using Archive.Drawings.Trays;
using Archive.Halls.Layout;
using Archive.Halls.Trays;
using Archive.Markup.Text;
using Archive.Records.Model;
using CsCheck;
using Xunit;
using ZXing;
using ZXing.Common;
using ZXing.QrCode;
using static Archive.Testing.RecordSketch;

namespace Archive.Drawings.Tests;

public partial class PartDrawingTests
{
    [Fact]
    public void Cables_of_a_heap_do_not_overlap_do_not_float_and_stay_within_the_walls() =>
        Gen.Select(Gen.Select(Gen.Int[3, 40], Gen.Int[0, 3]).Array[1, 60], Gen.Int[50, 600]).Sample((cables, width) =>
        {
            var lying = cables.OrderBy(cable => cable.Item2)
                .Select((cable, i) => new LyingCable(Cable($"C{i}", "k", []), Kind("k", cable.Item1, 1, 1), cable.Item2))
                .ToImmutableArray();
            var heap = CableHeap.Compute(lying, width);

            Assert.Equal(lying, heap.Select(circle => circle.Lying));
            for (var i = 0; i < heap.Length; i++)
            {
                var circle = heap[i];
                Assert.InRange(circle.X, circle.Radius - 1e-6, width - circle.Radius + 1e-6);
                var gaps = heap.Where((_, j) => j != i)
                    .Select(other => double.Hypot(circle.X - other.X, circle.Y - other.Y) - circle.Radius - other.Radius)
                    .ToList();
                Assert.All(gaps, gap => Assert.True(gap > -1e-4));
                Assert.True(circle.Y - circle.Radius < 1e-6 || gaps.Min() < 1e-4);
            }
        });

    [Fact]
    public void Thin_layers_do_not_peak_in_the_middle()
    {
        // Six layers of five cables of 10 mm in a tray of 300 mm: 30 lie side by side on its bottom.
        var lying = Enumerable.Range(0, 30)
            .Select(i => new LyingCable(Cable($"C{i:00}", "k", []), Kind("k", 10, 1, 1), i / 5))
            .ToImmutableArray();
        Assert.All(CableHeap.Compute(lying, 300), circle => Assert.Equal(5, circle.Y, 6));
    }

    [Fact]
    public void A_section_says_how_full_the_tray_is()
    {
        var contents = TrayContents.Compute(RecordOf([
            Tray("T", "origin", new(0, 0), new(1, 0)),
            Kind("pairs", 12.4, 190, 8),
            .. Enumerable.Range(0, 20).Select(i => Cable($"C{i:00}", "pairs", ["T"])),
            Cable("X", null, ["T"])
        ]))["T"];
        var drawn = new Drawn(
            TraySection.Draw(contents, new TraySectionOptions { Href = Drawn.Href, Limit = UnitsNet.Ratio.FromPercent(50) }));

        // 20 x 120.763 mm2 of 45,000 are 5.367 %.
        Assert.Contains("at least 5.4 % filled, limit 50 %", drawn.Description, StringComparison.Ordinal);
        Assert.Contains("not drawn (diameter not recorded): 1", drawn.Description, StringComparison.Ordinal);
        Assert.Equal(20, drawn.All("circle").Count());
        Assert.Equal(20, drawn.Links.Distinct().Count());
    }

    [Fact]
    public void Hatching_covers_a_figure()
    {
        // Cavalieri: length of the lines x their pitch is the area, the closer the finer. An L of 100 x 100 less 50 x 50, and a triangle.
        PaperPoint[] corner = [new(0, 0), new(100, 0), new(100, 50), new(50, 50), new(50, 100), new(0, 100)];
        PaperPoint[] triangle = [new(10, 10), new(90, 30), new(40, 120)];
        Assert.Equal(7500, LengthOf(Hatching.Create(corner, 0.25)) * 0.25, 30.0);
        Assert.Equal(4100, LengthOf(Hatching.Create(triangle, 0.25)) * 0.25, 20.0);
        Assert.True(Hatching.Create([new(0, 0), new(1e9, 0), new(1e9, 1e9)], 3).IsEmpty);
    }

    [Theory] // One who faces a front that looks south has the row's east at the right hand; at one that looks north, its west.
    [InlineData(Compass.East, Compass.South, "A, B, C")]
    [InlineData(Compass.East, Compass.North, "C, B, A")]
    [InlineData(Compass.South, Compass.East, "C, B, A")]
    [InlineData(Compass.South, Compass.West, "A, B, C")]
    public void A_strip_shows_a_row_as_it_is_seen(Compass runs, Compass faces, string seen)
    {
        var layouts = HallLayouts.Create(RecordOf(
            HallOf("origin", Row("r", new(3000, 3000), runs, faces, "A", "B", "C")), Frame("A"), Frame("B"), Frame("C", width: 1200)));
        var drawn = new Drawn(RowStrip.Draw(layouts.PlacementsOf("B")[0], Drawn.Href));

        Assert.EndsWith(seen + ".", drawn.Description, StringComparison.Ordinal);
        var byPlace = drawn.All("a")
            .OrderBy(link => Drawn.Number(link.Elements().First(one => one.Name.LocalName == "rect"), "x"))
            .Select(link => (string)link.Attribute("aria-label")!);
        Assert.Equal(seen, string.Join(", ", byPlace));
        Assert.Equal("B", drawn.All("a").Single(link => (string?)link.Attribute("class") == "marked").Attribute("aria-label")!.Value);
    }

    [Theory]
    [InlineData("R2-", "R2-01", "R2-02", "R2-11")]
    [InlineData("TM", "TM1", "TM12")]
    [InlineData("", "A1", "B1")]
    [InlineData("", "R2-01")]
    [InlineData("X-", "X-1", "X-1A")]
    [InlineData("", "ABC", "ABD")]
    public void Ids_of_a_row_share_a_head(string head, params string[] ids) => Assert.Equal(head, IdSuffixes.Head(ids));

    [Theory]
    [InlineData("https://archive.example/marrow-point/frames/R2-05/")]
    [InlineData("HTTPS://ARCHIVE.EXAMPLE/F/1")]
    [InlineData("https://archive.example/é?&<>")]
    public void A_code_is_read_back_by_another_library(string text)
    {
        var drawn = new Drawn(QrDrawing.Draw(text));
        var side = (int)Drawn.Number(drawn.All("svg").Single(), "width");
        var light = new byte[side * side];
        Array.Fill(light, (byte)255);
        var uprights = Uprights((string)drawn.All("path").Single().Attribute("d")!);
        for (var row = 0; row < side; row++)
        {
            int[] edges = [.. uprights.Where(edge => edge.From <= row && row < edge.To).Select(edge => edge.X).Order()];
            for (var i = 0; i < edges.Length; i += 2) light.AsSpan((row * side) + edges[i], edges[i + 1] - edges[i]).Clear();
        }

        var read = new QRCodeReader().decode(
            new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(light, side, side, RGBLuminanceSource.BitmapFormat.Gray8))));
        Assert.Equal(text, read?.Text);
        var quiet = QrDrawing.QuietZone * 4;
        Assert.All(Enumerable.Range(0, side * side).Where(i => light[i] == 0), i =>
            Assert.True(i % side >= quiet && i % side < side - quiet && i / side >= quiet && i / side < side - quiet));
    }

    [Fact]
    public void A_text_too_long_for_a_code_is_not_drawn() => Assert.Equal(HtmlFragment.None, QrDrawing.Draw(new string('x', 5000)));

    private static double LengthOf(SvgPath path) => Lines().Matches(path.ToString()).Sum(line =>
        double.Hypot(Double(line, 1) - Double(line, 3), Double(line, 2) - Double(line, 4)));

    // The upright edges of outlines: between the first and second across, the third and fourth and so on, it is dark.
    private static List<(int X, int From, int To)> Uprights(string path)
    {
        var uprights = new List<(int X, int From, int To)>();
        foreach (var figure in path.Split('z', StringSplitOptions.RemoveEmptyEntries))
        {
            var begin = Begin().Match(figure);
            var (x, y) = (Int(begin, 1), Int(begin, 2));
            foreach (Match line in Straight().Matches(figure))
            {
                if (line.Groups[1].Value == "h") x += Int(line, 2);
                else uprights.Add((x, Math.Min(y, y + Int(line, 2)), Math.Max(y, y += Int(line, 2))));
            }

            Assert.Equal(Int(begin, 1), x);
            uprights.Add((x, Math.Min(y, Int(begin, 2)), Math.Max(y, Int(begin, 2))));
        }

        return uprights;
    }

    private static int Int(Match match, int group) => int.Parse(match.Groups[group].ValueSpan, CultureInfo.InvariantCulture);

    private static double Double(Match match, int group) => double.Parse(match.Groups[group].ValueSpan, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^M(\d+) (\d+)")]
    private static partial Regex Begin();

    [GeneratedRegex(@"([hv])(-?\d+)")]
    private static partial Regex Straight();

    [GeneratedRegex(@"M([\d.-]+) ([\d.-]+)L([\d.-]+) ([\d.-]+)")]
    private static partial Regex Lines();
}

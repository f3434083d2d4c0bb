using System.Xml.Linq;
using Archive.Drawings.QrCodes;
using Archive.Records.Model;
using Archive.Records.Wording;
using Xunit;

namespace Archive.LabelSheets.Tests;

public class LabelDesignTests
{
    private const string Address = "https://archive.example/marrow-point/frames/R2-05/";

    // ISO/IEC 18004, byte mode: bytes that fit into versions 1 to 10 at each level; side = 17 + 4 x version.
    [Theory]
    [InlineData(ErrorCorrectionLevel.L, 17, 32, 53, 78, 106, 134, 154, 192, 230, 271)]
    [InlineData(ErrorCorrectionLevel.M, 14, 26, 42, 62, 84, 106, 122, 152, 180, 213)]
    [InlineData(ErrorCorrectionLevel.Q, 11, 20, 32, 46, 60, 74, 86, 108, 130, 151)]
    [InlineData(ErrorCorrectionLevel.H, 7, 14, 24, 34, 44, 58, 64, 84, 98, 119)]
    public void A_code_holds_what_the_standard_says(ErrorCorrectionLevel level, params int[] bytes)
    {
        for (var i = 0; i < bytes.Length; i++)
        {
            Assert.Equal(17 + (4 * (i + 1)), QrMatrix.Encode(new string('a', bytes[i]), level)!.Side);
            Assert.Equal(17 + (4 * (i + 2)), QrMatrix.Encode(new string('a', bytes[i] + 1), level)!.Side);
        }

        Assert.Null(QrMatrix.Encode(new string('a', 3000), level));
    }

    [Theory]
    [InlineData("63.5x38.1", 3, 7, 9.75, 15.15)]
    [InlineData("70x37", 2, 7, 35, 19)]
    [InlineData("99x57", 1, 4, 55.5, 34.5)]
    public void Labels_stand_in_the_middle_of_the_sheet(string size, int columns, int rows, double left, double top)
    {
        var stock = LabelStock.Find(size, PaperSize.A4)!;
        Assert.Equal((columns, rows), (stock.Columns, stock.Rows));
        Assert.Equal(left, stock.Left, 6);
        Assert.Equal(top, stock.Top, 6);
    }

    [Theory]
    [InlineData("63.5")]
    [InlineData("63.5x")]
    [InlineData("5x5")]
    [InlineData("250x250")]
    [InlineData("-20x20")]
    [InlineData("1e1x20")]
    public void What_is_no_label_is_none(string size) => Assert.Null(LabelStock.Find(size, PaperSize.A4));

    [Fact]
    public void A_code_is_as_sure_as_its_size_and_the_distance_allow()
    {
        var large = LabelDesign.For(Address, LabelStock.Find("140x70", PaperSize.A4)!, 500)!;
        Assert.Equal(ErrorCorrectionLevel.H, large.Level);
        var small = LabelDesign.For(Address, LabelStock.Find("48x30", PaperSize.A4)!, 150)!;
        Assert.True(small.Level < ErrorCorrectionLevel.H && small.Module >= LabelDesign.LeastModule - 1e-9);
        Assert.Null(LabelDesign.For(Address, LabelStock.Find("48x30", PaperSize.A4)!, 400));
        foreach (var distance in (double[])[100, 250, 400, 700])
        {
            var height = LabelDesign.HeightFor(Address, distance);
            var stock = new LabelStock(PaperSize.A4, 1.5 * height, height);
            var design = LabelDesign.For(Address, stock, distance);
            Assert.True(design is not null && design.Distance >= distance && design.Box <= height, $"{distance}: {design}");
        }
    }

    [Fact]
    public void A_label_is_an_SVG_to_size_with_its_quiet_zone_kept()
    {
        var stock = LabelStock.Find("63.5x38.1", PaperSize.A4)!;
        var design = LabelDesign.For(Address, stock, 250)!;
        var svg = XDocument.Parse(new LabelDrawing(stock, design).Alone(
            new LabelText("R2-05", "Receiver <5> & a long name that goes over several lines", "Station", Address),
            QrMatrix.Encode(Address, design.Level)!));
        Assert.Equal(
            ("63.5mm", "38.1mm", "0 0 63.5 38.1"),
            (svg.Root!.Attribute("width")!.Value, svg.Root.Attribute("height")!.Value, svg.Root.Attribute("viewBox")!.Value));
        var texts = svg.Descendants().Where(element => element.Name.LocalName == "text").ToList();
        Assert.Equal("R2-05", texts[0].Value);
        Assert.Contains(texts, text => text.Value.Contains("<5>", StringComparison.Ordinal));

        // Nothing but the code stands within four modules of it.
        Assert.All(texts, text =>
            Assert.True(double.Parse(text.Attribute("x")!.Value, System.Globalization.CultureInfo.InvariantCulture) >= design.Box));
        Assert.True(design.Box + (2 * 0.5) <= stock.Height + 1e-9);
    }

    /// <summary>Every hazard, on every form of label: neither it nor where the end goes is cut; on the smallest its first words.</summary>
    [Theory]
    [InlineData(LabelForm.Tag)]
    [InlineData(LabelForm.Flag)]
    [InlineData(LabelForm.Wrap)]
    public void What_can_hurt_stands_on_a_label_above_where_the_end_goes(LabelForm form)
    {
        var (size, around) = PreparedLabels.Usual(form);
        var stock = LabelStock.Find(size, PaperSize.A4, form, around)!;
        var design = LabelDesign.For(Address, stock.Panel, 100)!;
        string[] lines = ["here R2-05/S11/J12", "to R3-01/S10/J08"];
        foreach (var hazard in Enum.GetValues<Hazard>())
        {
            var sign = HazardText.For(hazard).Sign;
            var svg = XDocument.Parse(new LabelDrawing(stock, design).Alone(
                new LabelText("C-0424", "label: 0205-02J03 0301-02J11", "", Address)
                {
                    Signs = LabelText.SignsOf([new Stated<Hazard>(hazard, default)]),
                    Lines = [.. lines],
                },
                QrMatrix.Encode(Address, design.Level)!));
            var texts = svg.Descendants().Where(element => element.Name.LocalName == "text").Select(text => text.Value).ToList();
            var said = string.Concat(texts.Skip(1)).Replace(" ", "", StringComparison.Ordinal);
            Assert.Contains(
                form == LabelForm.Tag ? [sign] : (string[])[sign, sign.Split(':')[0]],
                each => said.StartsWith(
                    string.Concat((string[])[each, .. lines]).Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Of_many_hazards_a_label_says_the_first_words_of_each()
    {
        Hazard[] many = [Hazard.Asbestos, Hazard.Pcb, Hazard.LoneWork];
        Assert.Equal(
            ["ASBESTOS, PCB OIL, NEVER ALONE"], LabelText.SignsOf([.. many.Select(hazard => new Stated<Hazard>(hazard, default))]));
    }
}

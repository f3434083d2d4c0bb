using System.IO.Compression;
using System.Text;
using Archive.Documents.Pdf;
using Xunit;

namespace Archive.Documents.Tests;

public class PdfTextTests
{
    [Fact]
    public void Each_page_has_its_text_and_a_scan_has_none()
    {
        var read = PdfTextReader.Read(TinyPdf.OfPages("Feeder list, hall one", "", "Audio pairs"));
        Assert.Null(read.Unread);
        Assert.Equal(["Feeder list, hall one", "", "Audio pairs"], read.Pages);
    }

    /// <summary>A hundred kilobytes that unpack to a hundred megabytes, and a filter of a filter.</summary>
    [Theory]
    [InlineData("/FlateDecode", 1)]
    [InlineData("[/FlateDecode /FlateDecode]", 2)]
    public void What_would_fill_the_memory_is_not_unpacked(string filter, int times)
    {
        var packed = Packed(new byte[PdfLimits.Stream + 1]);
        if (times == 2) packed = Packed(packed);
        var before = GC.GetTotalAllocatedBytes();
        var read = PdfTextReader.Read(TinyPdf.OfStream(filter, packed));
        Assert.True(read.Unread is not null || read.Pages is [""]);
        Assert.InRange(GC.GetTotalAllocatedBytes() - before, 0, PdfLimits.Stream / 2);
    }

    [Fact]
    public void Objects_nested_without_end_do_not_overflow_the_stack()
    {
        const int Deep = 200_000;
        var nested = new string('[', Deep) + new string(']', Deep);
        foreach (var pdf in new[]
        {
            new TinyPdf().Add($"<< /Type /Catalog /Pages 2 0 R /X {nested} >>").Add("<< /Type /Pages /Kids [] /Count 0 >>").Write(),
            TinyPdf.OfStream("/FlateDecode", Packed(Encoding.Latin1.GetBytes($"BT /F1 12 Tf {nested} TJ ET"))),
        })
        {
            var read = PdfTextReader.Read(pdf);
            Assert.True(read.Unread is not null || read.Pages.All(page => page.Length == 0));
        }
    }

    [Theory]
    [InlineData("<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [2 0 R] /Count 1 >>")]
    [InlineData("<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [] /Count 2000000000 >>")]
    [InlineData("<< /Type /Catalog /Pages 9 0 R >>", "<< >>")]
    [InlineData("1 0 R", "2 0 R")]
    public void Circles_and_lies_are_damage(string catalogue, string pages)
    {
        var read = PdfTextReader.Read(new TinyPdf().Add(catalogue).Add(pages).Write());
        Assert.True(read.Unread is not null || read.Pages.Length <= 1);
    }

    /// <summary>Whatever is cut off or changed, reading ends, and no exception comes of it.</summary>
    [Fact]
    public void A_damaged_file_is_read_as_far_as_it_goes()
    {
        var whole = TinyPdf.OfPages("One page", "Another page");
        var chance = new Random(20);
        for (var i = 0; i < 150; i++)
        {
            var bytes = whole[..chance.Next(whole.Length)];
            for (var j = 0; j < 5 && bytes.Length > 0; j++) bytes[chance.Next(bytes.Length)] = (byte)chance.Next(256);
            Assert.InRange(PdfTextReader.Read(bytes).Pages.Length, 0, 100);
        }
    }

    private static byte[] Packed(byte[] bytes)
    {
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.SmallestSize)) zlib.Write(bytes);
        return packed.ToArray();
    }
}

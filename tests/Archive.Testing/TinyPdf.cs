using System.Globalization;
using System.Text;

namespace Archive.Testing;

/// <summary>Writes PDFs by hand (ISO 32000-1, 7.5), so that a test knows every byte of them.</summary>
public sealed class TinyPdf
{
    private readonly List<byte[]> _objects = [];

    /// <summary>Adds an object; the first has the number 1.</summary>
    public TinyPdf Add(string body) => Add(Encoding.Latin1.GetBytes(body));

    public TinyPdf Add(byte[] body)
    {
        _objects.Add(body);
        return this;
    }

    public TinyPdf AddStream(string entries, byte[] packed) => Add(
        [
            .. Encoding.Latin1.GetBytes(string.Create(CultureInfo.InvariantCulture, $"<< /Length {packed.Length} {entries} >>\nstream\n")),
            .. packed, .. "\nendstream"u8
        ]);

    public byte[] Write(string trailer = "")
    {
        var bytes = new MemoryStream();
        bytes.Write("%PDF-1.4\n"u8);
        var offsets = new List<long>();
        for (var i = 0; i < _objects.Count; i++)
        {
            offsets.Add(bytes.Position);
            bytes.Write(Encoding.Latin1.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{i + 1} 0 obj\n")));
            bytes.Write(_objects[i]);
            bytes.Write("\nendobj\n"u8);
        }

        var table = bytes.Position;
        var text = new StringBuilder(string.Create(CultureInfo.InvariantCulture, $"xref\n0 {_objects.Count + 1}\n0000000000 65535 f \n"));
        foreach (var offset in offsets) text.Append(CultureInfo.InvariantCulture, $"{offset:D10} 00000 n \n");
        text.Append(
            CultureInfo.InvariantCulture,
            $"trailer\n<< /Size {_objects.Count + 1} /Root 1 0 R {trailer} >>\nstartxref\n{table}\n%%EOF\n");
        bytes.Write(Encoding.Latin1.GetBytes(text.ToString()));
        return bytes.ToArray();
    }

    /// <summary>A PDF with a page for each text; an empty text is a page without any.</summary>
    public static byte[] OfPages(params ReadOnlySpan<string> texts)
    {
        var kids = string.Join(' ', Enumerable.Range(0, texts.Length).Select(i => $"{4 + (2 * i)} 0 R"));
        var pdf = new TinyPdf()
            .Add("<< /Type /Catalog /Pages 2 0 R >>")
            .Add($"<< /Type /Pages /Kids [{kids}] /Count {texts.Length} >>")
            .Add("<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>");
        for (var i = 0; i < texts.Length; i++)
        {
            pdf.Add($"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Resources << /Font << /F1 3 0 R >> >> /Contents {5 + (2 * i)} 0 R >>");
            pdf.AddStream("", Encoding.Latin1.GetBytes(texts[i].Length == 0 ? "" : $"BT /F1 12 Tf 72 720 Td ({texts[i]}) Tj ET"));
        }

        return pdf.Write();
    }

    /// <summary>A PDF of one page whose content is packed.</summary>
    public static byte[] OfStream(string filter, byte[] packed) => new TinyPdf()
        .Add("<< /Type /Catalog /Pages 2 0 R >>")
        .Add("<< /Type /Pages /Kids [4 0 R] /Count 1 >>")
        .Add("<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>")
        .Add("<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Resources << /Font << /F1 3 0 R >> >> /Contents 5 0 R >>")
        .AddStream($"/Filter {filter}", packed)
        .Write();
}

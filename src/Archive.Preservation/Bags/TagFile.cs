using System.Text;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Preservation.Bags;

/// <summary>A tag file as text, and its lines: ended by LF, CR or CRLF (RFC 8493, 2.3).</summary>
/// <param name="Source">Its path in the bag, and its text.</param>
public sealed record TagFile(SourceText Source)
{
    private static readonly string[] LineEnds = ["\r\n", "\n", "\r"];

    /// <summary>Its lines, without their ends; what follows the last end only if it is not empty.</summary>
    public IEnumerable<SourceSpan> Lines
    {
        get
        {
            var text = Source.Text;
            for (var start = 0; start < text.Length;)
            {
                var length = text.AsSpan(start).IndexOfAny('\r', '\n');
                if (length < 0) length = text.Length - start;
                yield return new SourceSpan(Source, start, length);
                start += length;
                start += Array.Find(LineEnds, end => text.AsSpan(start).StartsWith(end))?.Length ?? 0;
            }
        }
    }

    /// <param name="encoding">In what it is written.</param>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    internal static TagFile Read(BagContents bag, string path, Encoding encoding, List<Diagnostic> diagnostics)
    {
        var bytes = bag.Bytes(path);
        var strict = (Encoding)encoding.Clone();
        strict.DecoderFallback = DecoderFallback.ExceptionFallback;
        var mark = strict.Preamble.Length > 0 && bytes.AsSpan().StartsWith(strict.Preamble) ? strict.Preamble.Length : 0;
        try
        {
            if (strict.CodePage is Utf16 or Utf16Reversed) return new TagFile(new SourceText(path, Utf16Text(bytes, strict)));
            var tag = new TagFile(new SourceText(path, strict.GetString(bytes, mark, bytes.Length - mark)));
            if (mark > 0) diagnostics.Add(DiagnosticDescriptors.TagEncoding.At(
                new SourceSpan(tag.Source, 0, 0), $"{path} starts with a byte order mark", "remove it: UTF-8 text in a bag has none"));
            return tag;
        }
        catch (DecoderFallbackException)
        {
            var tag = new TagFile(new SourceText(path, ""));
            diagnostics.Add(DiagnosticDescriptors.TagEncoding.At(
                tag.Source.Whole, $"{path} is not written in {encoding.WebName}", "it is damaged, or bagit.txt names the wrong encoding"));
            return tag;
        }
    }

    private const int Utf16 = 1200, Utf16Reversed = 1201;

    // "UTF-16" says nothing of the order of bytes: the mark does, and without one the greater comes first (RFC 2781, 4.3).
    private static string Utf16Text(byte[] bytes, Encoding named)
    {
        var isMarked = bytes is [0xFE, 0xFF, ..] or [0xFF, 0xFE, ..];
        var isLittle = isMarked ? bytes[0] == 0xFF : named.WebName == "utf-16le";
        return new UnicodeEncoding(!isLittle, byteOrderMark: false, throwOnInvalidBytes: true).GetString(
            bytes, isMarked ? 2 : 0, bytes.Length - (isMarked ? 2 : 0));
    }
}

using System.Text;
using System.Text.Unicode;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Reading.Syntax;

namespace Archive.Records.Reading;

/// <summary>Turns a file's bytes into text: strictly UTF-8, with or without a byte order mark.</summary>
internal static class FileText
{
    /// <summary>Largest file of records, in bytes.</summary>
    public const long Largest = 64 << 20;

    /// <summary>Decodes a file.</summary>
    /// <param name="path">Its path, for the source.</param>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    /// <returns>Its text; wrong bytes stand as U+FFFD. Null for another encoding, of which nothing can be read.</returns>
    public static SourceText? Decode(string path, ReadOnlySpan<byte> bytes, DiagnosticBag diagnostics)
    {
        if (bytes is [0xff, 0xfe, ..] or [0xfe, 0xff, ..] or [0, not 0, 0, not 0, ..] or [not 0, 0, not 0, 0, ..])
        {
            diagnostics.Add(DiagnosticDescriptors.NotUtf8.At(
                new SourceSpan(new SourceText(path, string.Empty), 0, 0), "this file is UTF-16 text", "save it as UTF-8"));
            return null;
        }

        if (bytes.StartsWith(Encoding.UTF8.Preamble)) bytes = bytes[Encoding.UTF8.Preamble.Length..];
        var source = new SourceText(path, Encoding.UTF8.GetString(bytes));
        if (Utf8.IsValid(bytes)) return source;

        var letters = new char[bytes.Length];
        _ = Utf8.ToUtf16(bytes, letters, out var read, out var written, replaceInvalidSequences: false);
        diagnostics.Add(DiagnosticDescriptors.NotUtf8.At(
            new SourceSpan(source, written, 1),
            $"byte 0x{bytes[read]:X2} is not UTF-8 text",
            "save the file as UTF-8, and check this character"));
        return source;
    }
}

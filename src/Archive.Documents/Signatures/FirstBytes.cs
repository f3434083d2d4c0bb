using Archive.Records.Model;

namespace Archive.Documents.Signatures;

/// <summary>Kinds of files by their first bytes.</summary>
internal static class FirstBytes
{
    /// <summary>Bytes that are enough to know a file by.</summary>
    public const int Length = 1024;

    /// <summary>Whether a file begins as its name says. Text and data may begin in any way.</summary>
    /// <param name="name">Its name or path.</param>
    /// <param name="start">Its first bytes.</param>
    public static bool Fits(string name, ReadOnlySpan<byte> start) => DocumentFileKinds.Extension(name) switch
    {
        ".png" => Begins(start, 0x89, (byte)'P', (byte)'N', (byte)'G'),
        ".jpg" or ".jpeg" => Begins(start, 0xFF, 0xD8, 0xFF),
        ".tif" or ".tiff" => start.StartsWith("II"u8) || start.StartsWith("MM"u8),
        ".webp" => IsRiff(start, "WEBP"u8),

        // Readers look for the mark in the first kilobyte (ISO 32000-1, annex H, implementation note 13).
        ".pdf" => start.IndexOf("%PDF-"u8) >= 0,
        ".mp4" => start.Length >= 12 && start[4..].StartsWith("ftyp"u8),
        ".webm" => Begins(start, 0x1A, 0x45, 0xDF, 0xA3) && start.IndexOf("webm"u8) > 0,
        ".mp3" => start.StartsWith("ID3"u8) || (start.Length > 2 && start[0] == 0xFF && (start[1] & 0xE0) == 0xE0),
        ".opus" => start.StartsWith("OggS"u8) && start.IndexOf("OpusHead"u8) > 0,
        ".wav" => IsRiff(start, "WAVE"u8),
        _ => true,
    };

    private static bool IsRiff(ReadOnlySpan<byte> start, ReadOnlySpan<byte> form) =>
        start.Length >= 12 && start.StartsWith("RIFF"u8) && start[8..].StartsWith(form);

    private static bool Begins(ReadOnlySpan<byte> start, params ReadOnlySpan<byte> with) => start.StartsWith(with);
}

using System.Collections.Immutable;

namespace Archive.Documents.Pdf;

/// <summary>What was read of a PDF.</summary>
/// <param name="Pages">The text of each page, empty where a page has none, such as a scan.</param>
public sealed record PdfText(ImmutableArray<string> Pages)
{
    /// <summary>Why it, or the rest of it, could not be read; null where it could.</summary>
    public string? Unread { get; init; }
}

/// <summary>How much is read of a PDF. Each is far above what drawings and manuals need.</summary>
internal static class PdfLimits
{
    public const int Bytes = 200_000_000;

    public const int Pages = 5_000;

    /// <summary>Characters of text, of all pages together.</summary>
    public const int Characters = 5_000_000;

    /// <summary>What one stream may unpack to.</summary>
    public const int Stream = 100_000_000;

    /// <summary>What all streams together may unpack to.</summary>
    public const long Streams = 1_000_000_000;

    /// <summary>Packed bytes of a stream whose filter cannot be counted before it is unpacked.</summary>
    public const int Uncounted = 500_000;

    /// <summary>Objects in objects.</summary>
    public const int Depth = 128;

    /// <summary>The last resort, for what no count stops.</summary>
    public static readonly TimeSpan Time = TimeSpan.FromMinutes(2);
}

using System.Collections.Immutable;
using UglyToad.PdfPig;
using UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor;

namespace Archive.Documents.Pdf;

/// <summary>Reads the text of a PDF, page by page, within limits.</summary>
internal static class PdfTextReader
{
    // Far more than the nesting that is allowed needs.
    private const int StackBytes = 64 * 1024 * 1024;

    /// <summary>Reads a PDF. Never throws on what is in it.</summary>
    public static PdfText Read(byte[] bytes)
    {
        if (bytes.Length > PdfLimits.Bytes) return new PdfText([]) { Unread = $"it has more than {PdfLimits.Bytes / 1_000_000} MB" };
        var pages = ImmutableArray.CreateBuilder<string>();
        string? unread = null;
        var filters = new CountingFilters();
        var reader = new Thread(() => unread = Read(bytes, pages, filters), StackBytes) { IsBackground = true };
        reader.Start();
        if (reader.Join(PdfLimits.Time)) return new PdfText(pages.ToImmutable()) { Unread = unread };

        // It stops at the next stream or page; what it has found by then may be changed while it is looked at, so nothing is taken.
        filters.Stop();
        return new PdfText([]) { Unread = $"reading it takes longer than {PdfLimits.Time.TotalMinutes:0} minutes" };
    }

    private static string? Read(byte[] bytes, ImmutableArray<string>.Builder pages, CountingFilters filters)
    {
        try
        {
            using var document = PdfDocument.Open(bytes, new ParsingOptions
            {
                UseLenientParsing = true,
                SkipMissingFonts = true,
                MaxStackDepth = PdfLimits.Depth,
                FilterProvider = filters,
            });
            var characters = 0;
            var count = document.NumberOfPages;
            for (var i = 1; i <= count; i++)
            {
                filters.ThrowIfStopped();
                if (i > PdfLimits.Pages) return $"it has more than {PdfLimits.Pages} pages";
                var text = TextOf(document, i);
                characters += text.Length;
                if (characters > PdfLimits.Characters) return $"it has more than {PdfLimits.Characters / 1_000_000} million letters";
                pages.Add(text);
            }

            return null;
        }
        catch (PdfLimitException limit)
        {
            return limit.Message;
        }
        catch (Exception exception) when (exception is not OutOfMemoryException)
        {
            // PdfPig throws exceptions of many types on broken files, and none of them says more than this.
            return exception.GetType().Name.Contains("Encrypt", StringComparison.Ordinal) ? "it is encrypted" : "it is damaged";
        }
    }

    // A page that cannot be read costs its own text only.
    private static string TextOf(PdfDocument document, int page)
    {
        try
        {
            return ContentOrderTextExtractor.GetText(document.GetPage(page)).ReplaceLineEndings("\n").Trim();
        }
        catch (Exception exception) when (exception is not (OutOfMemoryException or PdfLimitException))
        {
            return "";
        }
    }
}

/// <summary>A PDF is over a limit.</summary>
internal sealed class PdfLimitException(string message) : Exception(message);

using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Documents.Pdf;
using Archive.Documents.Signatures;
using Archive.Documents.Transcripts;
using Archive.Records.Model;

namespace Archive.Documents.Inspection;

/// <summary>What was found in the files of all documents, and what is wrong with them.</summary>
/// <param name="Documents">By id; withdrawn ones are left out.</param>
/// <param name="Diagnostics">In <see cref="Diagnostic.Order"/>.</param>
public sealed record DocumentInspection(FrozenDictionary<string, InspectedDocument> Documents, ImmutableArray<Diagnostic> Diagnostics)
{
    private const int MostText = 2_000_000;

    /// <summary>Nothing was looked at.</summary>
    public static DocumentInspection None { get; } = new(FrozenDictionary<string, InspectedDocument>.Empty, []);

    /// <summary>Looks into the files of all documents, in parallel. Linear in their bytes.</summary>
    /// <param name="memory">What is known from before; null for nothing.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    public static DocumentInspection Inspect(
        ArchiveModel record, IArchiveFolder folder, DocumentMemory? memory, CancellationToken cancellation)
    {
        var documents = record.Documents.Where(document => !document.IsWithdrawn).ToArray();
        var (found, told) = (new InspectedDocument[documents.Length], new List<Diagnostic>[documents.Length]);
        Parallel.For(0, documents.Length, new ParallelOptions { CancellationToken = cancellation }, i =>
            found[i] = Inspect(documents[i], folder, memory, told[i] = []));
        return new DocumentInspection(
            found.ToFrozenDictionary(document => document.Document.Id, StringComparer.Ordinal),
            [.. told.SelectMany(each => each).Order(Diagnostic.Order)]);
    }

    private static InspectedDocument Inspect(Document document, IArchiveFolder folder, DocumentMemory? memory, List<Diagnostic> told)
    {
        var files = ImmutableArray.CreateBuilder<InspectedFile>();
        var next = 1;
        var isWhole = true;
        foreach (var file in document.Files)
        {
            var inspected = Inspect(file, next, folder, memory, told);
            isWhole &= inspected is { Pdf: null or { Unread: null } };
            next += inspected?.PageCount ?? (file.Kind == DocumentFileKind.Picture ? 1 : 0);
            if (inspected is not null) files.Add(inspected);
        }

        var whole = new InspectedDocument(document, files.DrainToImmutable());
        told.AddRange(PageErrors(whole, next - 1, isWhole));
        return whole;
    }

    private static IEnumerable<Diagnostic> PageErrors(InspectedDocument document, int inFiles, bool isWhole)
    {
        var stated = document.Document.Pages;
        if (stated is { } pages && inFiles > pages.Value)
        {
            yield return DiagnosticDescriptors.MorePagesThanStated.At(
                pages.Span,
                $"document `{document.Document.Id}` has {pages.Value} pages, but its files have {inFiles}",
                "count the pages of the original, or leave out the files that are not pages of it");
        }

        // A file that could not be read may have any page.
        var last = Math.Max(stated?.Value ?? 0, inFiles);
        if (stated is null && !isWhole) yield break;
        foreach (var page in document.Document.PagesExplain)
        {
            if (page.Page.Value <= last) continue;
            yield return DiagnosticDescriptors.UnknownPage.At(
                page.Page.Span,
                last == 0
                    ? $"document `{document.Document.Id}` has no pages"
                    : $"document `{document.Document.Id}` has no page {page.Page.Value}: its last page is {last}",
                "pages are counted from 1, over all files in their order; if the files do not have them all, say how many the original has: `pages: …`");
        }
    }

    private static InspectedFile? Inspect(
        DocumentFile file, int firstPage, IArchiveFolder folder, DocumentMemory? memory, List<Diagnostic> told)
    {
        if (file.FilePath is not { } path || file.Kind == DocumentFileKind.Unsupported) return null;
        if (!IsThere(folder, file.File, path, told)) return null;
        if (Look(folder, path, memory) is not var (size, start, sha256))
        {
            told.Add(DiagnosticDescriptors.MissingDocumentFile.At(file.File.Span, $"`{path}` cannot be read", "check its permissions"));
            return null;
        }

        if (file.Sha256 is { } stated && stated.Value != sha256)
        {
            told.Add(DiagnosticDescriptors.AlteredDocumentFile.At(
                stated.Span,
                $"`{path}` is not the file that was recorded: its checksum is `{sha256}`",
                "restore the file from a copy; if it was changed on purpose, write the new checksum and say why in `note`"));
            return null;
        }

        if (!FirstBytes.Fits(path, start))
        {
            told.Add(DiagnosticDescriptors.WrongDocumentFile.At(
                file.File.Span,
                size == 0 ? $"`{path}` is empty" : $"`{path}` does not begin as a `{DocumentFileKinds.Extension(path)}` file does",
                "give the file the name of what it is, or copy it again"));
            return null;
        }

        var inspected = new InspectedFile(file, size, sha256, firstPage, file.Kind == DocumentFileKind.Picture ? 1 : 0)
        {
            FullPath = folder.FullPath(path),
            Text = file.Kind == DocumentFileKind.Text ? TextOf(folder, path) ?? "" : "",
            Transcript = TranscriptOf(folder, file, told),
        };
        if (file.Kind != DocumentFileKind.Pdf) return inspected;
        var pdf = memory?.Find(sha256) ?? ReadPdf(folder, path, sha256, memory);
        if (pdf.Unread is { } why)
        {
            told.Add(DiagnosticDescriptors.UnreadablePdf.At(
                file.File.Span,
                pdf.Pages.IsEmpty
                    ? $"the text of `{path}` cannot be read: {why}"
                    : $"only the first {pdf.Pages.Length} pages of `{path}` are searched: {why}",
                "it is published as it is; to have it searched, save it again with another program, or add a `transcript`"));
        }

        return inspected with { Pdf = pdf, PageCount = pdf.Pages.Length };
    }

    private static bool IsThere(IArchiveFolder folder, Stated<string> written, string path, List<Diagnostic> told)
    {
        if (folder.Follow(written.Span.Path, written.Value).Outcome == PathStatus.Exists) return true;
        var near = folder.Files.FirstOrDefault(other => string.Equals(other, path, StringComparison.OrdinalIgnoreCase))
            ?? NearestName.Find(path, folder.Files.Where(other => other.StartsWith("documents/", StringComparison.Ordinal)));
        told.Add(DiagnosticDescriptors.MissingDocumentFile.At(
            written.Span,
            $"there is no file `{path}`",
            near is null
                ? "write the path of the file, relative to this one"
                : $"did you mean `{near}`? Letter case counts in the names of files"));
        return false;
    }

    private static (long Size, byte[] Start, string Sha256)? Look(IArchiveFolder folder, string path, DocumentMemory? memory)
    {
        try
        {
            using var stream = Open(folder, path);
            if (stream is null) return null;
            var start = new byte[(int)Math.Min(FirstBytes.Length, stream.Length)];
            stream.ReadExactly(start);
            var known = memory is not null && folder.FullPath(path) is { } full ? memory.Checksum(full) : null;
            if (known is not null) return (stream.Length, start, known);
            stream.Position = 0;
            return (stream.Length, start, Convert.ToHexStringLower(SHA256.HashData(stream)));
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private static Stream? Open(IArchiveFolder folder, string path)
    {
        if (folder.FullPath(path) is { } full)
            return new FileStream(full, FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 0, FileOptions.SequentialScan);
        return folder.Read(path, PdfLimits.Bytes).Bytes is { } bytes ? new MemoryStream(bytes, writable: false) : null;
    }

    private static PdfText ReadPdf(IArchiveFolder folder, string path, string sha256, DocumentMemory? memory)
    {
        var text = folder.Read(path, PdfLimits.Bytes).Bytes is { } bytes
            ? PdfTextReader.Read(bytes)
            : new PdfText([]) { Unread = $"it has more than {PdfLimits.Bytes / 1_000_000} MB" };
        memory?.Keep(sha256, text);
        return text;
    }

    private static string? TextOf(IArchiveFolder folder, string path) =>
        folder.Read(path, MostText).Bytes is { } bytes && !bytes.AsSpan().Contains((byte)0)
            ? Encoding.UTF8.GetString(bytes).TrimStart('\uFEFF')
            : null;

    private static Transcript? TranscriptOf(IArchiveFolder folder, DocumentFile file, List<Diagnostic> told)
    {
        if (file is not { Transcript: { } written, TranscriptPath: { } path } || !IsThere(folder, written, path, told)) return null;
        if (TextOf(folder, path) is not { } text)
        {
            told.Add(DiagnosticDescriptors.UnreadableTranscript.At(
                written.Span, $"`{path}` is no text, or larger than {MostText / 1_000_000} MB", "save it as UTF-8 text"));
            return null;
        }

        var extension = DocumentFileKinds.Extension(path);
        if (extension != ".vtt") return new Transcript([], text, extension == ".md");
        if (WebVtt.TryRead(text, out var cues, out var error)) return new Transcript(cues, "", IsMarkdown: false);
        var source = new SourceText(path, text);
        told.Add(DiagnosticDescriptors.UnreadableTranscript.At(
            LineOf(source, error!.Value.Line),
            error.Value.What,
            "correct this line; a cue is its times, such as `00:12.000 --> 00:15.500`, then what is said, then an empty line"));
        return null;
    }

    private static SourceSpan LineOf(SourceText source, int line)
    {
        var start = source.OffsetOf(Math.Min(line, source.LineCount - 1), 0);
        return new SourceSpan(source, start, source.Line(Math.Min(line, source.LineCount - 1)).TrimEnd().Length);
    }
}

using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>Files of documents are of kinds that can be shown or given safely, and each is named once.</summary>
internal static class DocumentChecks
{
    public static IEnumerable<Diagnostic> FilesAreSupported(CheckContext context) =>
        from document in context.Draft.Records.OfType<Document>()
        from told in document.Files.SelectMany(Unsupported)
        select told;

    public static IEnumerable<Diagnostic> FilesAreNamedOnce(CheckContext context)
    {
        var first = new Dictionary<string, (Document Document, Stated<string> File)>(StringComparer.Ordinal);
        foreach (var document in context.Draft.Records.OfType<Document>().Where(context.IsPresent))
        {
            foreach (var file in document.Files)
            {
                if (file.FilePath is not { } path || first.TryAdd(path, (document, file.File))) continue;
                var earlier = first[path];
                yield return DiagnosticDescriptors.DocumentFileNamedTwice.At(
                    file.File.Span,
                    earlier.Document.Id == document.Id
                        ? $"document `{document.Id}` names this file twice"
                        : $"document `{document.Id}` names the same file as `{earlier.Document.Id}`",
                    "put everything that the file explains in one record, or write the file that was meant",
                    new Related(earlier.File.Span, "first named here"));
            }
        }
    }

    private static IEnumerable<Diagnostic> Unsupported(DocumentFile file)
    {
        if (file.Kind == DocumentFileKind.Unsupported)
        {
            yield return DiagnosticDescriptors.UnsupportedDocumentFile.At(
                file.File.Span,
                DocumentFileKinds.Extension(file.File.Value) is { Length: > 0 } extension
                    ? $"a document cannot have a `{extension}` file"
                    : "a document cannot have a file without a kind at the end of its name",
                $"save it as one of {DocumentFileKinds.Listed}; or pack it: a `.zip` can hold anything");
        }

        if (file.Transcript is not { } transcript || DocumentFileKinds.Extension(transcript.Value) is ".md" or ".txt") yield break;
        var isRecording = file.Kind is DocumentFileKind.Video or DocumentFileKind.Audio;
        if (isRecording && DocumentFileKinds.Extension(transcript.Value) == ".vtt") yield break;
        yield return DiagnosticDescriptors.UnsupportedDocumentFile.At(
            transcript.Span,
            $"this is no transcript of {(isRecording ? "a recording" : "a picture, text or data")}",
            isRecording
                ? "write it as WebVTT (`.vtt`), Markdown (`.md`) or plain text (`.txt`)"
                : "write it as Markdown (`.md`) or plain text (`.txt`)");
    }
}

using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading;

namespace Archive.Records.Checks;

/// <summary>
/// AF1817: a file in <c>documents/</c> that no record names is on no page, and is lost when nobody remembers what it is.
/// </summary>
public static class DocumentFileChecks
{
    /// <summary>Linear in files and documents.</summary>
    /// <param name="files">The files of the archive.</param>
    /// <param name="losses">What could not be read: a record of documents that is broken may name any of them.</param>
    public static IEnumerable<Diagnostic> Check(ImmutableArray<string> files, ArchiveModel record, ReadFailures losses)
    {
        if (losses.Touch(RecordKind.Document)) return [];
        var named = record.Documents.SelectMany(document => document.Files)
            .SelectMany(file => new[] { file.FilePath, file.TranscriptPath })
            .OfType<string>()
            .ToHashSet(StringComparer.Ordinal);
        return
            from path in files
            where path.StartsWith(RecordKind.Document.Folder() + "/", StringComparison.Ordinal)
            where FileRole.IsPlainFile(path) && !named.Contains(path)
            select DiagnosticDescriptors.DocumentWithoutRecord.At(
                new SourceText(path, string.Empty).Whole,
                "no document names this file",
                "write a record that says what it is; or put a dot at the start of its name");
    }
}

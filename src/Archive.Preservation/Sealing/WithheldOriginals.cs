using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Publishing.Building;
using Archive.Records.Model;

namespace Archive.Preservation.Sealing;

/// <summary>
/// Originals that show what <c>redact</c> hides, and files of documents that are withheld, by path in the archive: any record of the same
/// bytes, withdrawn ones too, speaks for all of them.
/// </summary>
/// <param name="ByPath">What says so.</param>
internal sealed record WithheldOriginals(FrozenDictionary<string, WithheldReason> ByPath)
{
    /// <summary>Finds them.</summary>
    internal static WithheldOriginals Find(ParseResult parsed)
    {
        var errors = new ErrorPlaces([.. parsed.Diagnostics]);
        var all = parsed.Records.OfType<Photo>().SelectMany(photo => OfPhoto(photo, Unread(photo, errors)))
            .Concat(parsed.Records.OfType<Document>().SelectMany(document => OfDocument(document, Unread(document, errors))))
            .ToList();
        var sums = all.Where(file => file is { Why: not null, Sha256: not null })
            .ToLookup(file => file.Sha256!.Value.Value, file => file.Why!.Value, StringComparer.Ordinal);
        return new WithheldOriginals(all
            .Select(file => (file.Path, Why: file.Why
                ?? (file.Sha256 is { } sum && sums.Contains(sum.Value) ? sums[sum.Value].First() : null)))
            .Where(file => file.Why is not null)
            .DistinctBy(file => file.Path, StringComparer.Ordinal)
            .ToFrozenDictionary(file => file.Path, file => file.Why!.Value, StringComparer.Ordinal));
    }

    private static IEnumerable<(string Path, Stated<string>? Sha256, WithheldReason? Why)> OfPhoto(Photo photo, WithheldReason? unread)
    {
        if (photo.FilePath is { } path) yield return (path, photo.Sha256, Reason(path));
        if (photo.RawPath is { } raw) yield return (raw, photo.RawSha256, Reason(raw));

        WithheldReason? Reason(string path) => photo.Redact.IsEmpty
            ? unread
            : new WithheldReason(photo.Redact[0].Box.Span, $"the original `{path}` shows what `redact` hides");
    }

    private static IEnumerable<(string Path, Stated<string>? Sha256, WithheldReason? Why)> OfDocument(
        Document document, WithheldReason? unread)
    {
        foreach (var file in document.Files)
        {
            if (file.FilePath is { } path) yield return (path, file.Sha256, Reason(path));
            if (file.TranscriptPath is { } transcript) yield return (transcript, null, Reason(transcript));
        }

        WithheldReason? Reason(string path) => document.Withheld is { } withheld
            ? new WithheldReason(withheld.Span, $"`{path}` is of document `{document.Id}`, which is withheld")
            : unread;
    }

    // What could not be read of a record may be what hides or withholds its files.
    private static WithheldReason? Unread(ArchiveRecord record, ErrorPlaces errors) => errors.IsIn(record.Span)
        ? new WithheldReason(record.IdSpan, $"what could not be read of `{record.Id}` may be what withholds its files")
        : null;

    /// <summary>
    /// Files of the bag's site that are originals which the bag withholds: those of a theme, for a photo's own files are made without what
    /// is hidden.
    /// </summary>
    /// <param name="contents">What went into the bag.</param>
    internal ImmutableArray<Diagnostic> In(SealedContents contents)
    {
        var withheld = contents.Withheld
            .Where(file => ByPath.ContainsKey(PathOf(file)))
            .ToLookup(file => file.Sha256, PathOf, StringComparer.Ordinal);
        return
        [
            .. from file in contents.Payload
               where file.Path.StartsWith(Sealer.Site, StringComparison.Ordinal) && withheld.Contains(file.Sha256)
               let original = withheld[file.Sha256].First()
               select DiagnosticDescriptors.WithheldInSite.At(
                   ByPath[original].Span,
                   $"`{file.Path[Sealer.Site.Length..]}` of the site is the original `{original}`, which is withheld from the bag",
                   "remove it from the theme, or seal with `--withheld include`"),
        ];
    }

    private static string PathOf(SealedFile file) => file.Path[Sealer.Record.Length..];

    /// <summary>Asks what is to become of them.</summary>
    internal IEnumerable<Diagnostic> Ask() =>
        ByPath.OrderBy(pair => pair.Key, StringComparer.Ordinal).Select(pair => DiagnosticDescriptors.WithheldUndecided.At(
            pair.Value.Span, $"{pair.Value.Says}, and --withheld is missing",
            "seal with `--withheld leave-out`, `--withheld apart` (a separate bag) or `--withheld include`"));
}

/// <summary>Why a file is withheld.</summary>
/// <param name="Span">Where the record says so.</param>
/// <param name="Says">The reason as the beginning of a sentence.</param>
internal readonly record struct WithheldReason(SourceSpan Span, string Says);

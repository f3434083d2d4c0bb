using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Preservation.Sealing;

/// <summary>
/// Originals that show what <c>redact</c> hides, by path in the archive: any record of a picture, withdrawn ones too, speaks for all of
/// them.
/// </summary>
/// <param name="ByPath">The redaction that says so.</param>
internal sealed record WithheldOriginals(FrozenDictionary<string, Redaction> ByPath)
{
    /// <summary>Finds them.</summary>
    internal static WithheldOriginals Find(ParseResult parsed)
    {
        var photos = parsed.Records.OfType<Photo>().Where(photo => photo.FilePath is not null).ToList();
        var hiding = photos.Where(photo => !photo.Redact.IsEmpty).ToList();
        var sums = hiding.Where(photo => photo.Sha256 is not null)
            .ToLookup(photo => photo.Sha256!.Value.Value, photo => photo.Redact[0], StringComparer.Ordinal);
        return new WithheldOriginals(hiding.Select(photo => (FilePath: photo.FilePath!, Redaction: photo.Redact[0]))
            .Concat(photos.Where(photo => photo.Sha256 is { } sum && sums.Contains(sum.Value))
                .Select(photo => (FilePath: photo.FilePath!, Redaction: sums[photo.Sha256!.Value.Value].First())))
            .DistinctBy(pair => pair.FilePath, StringComparer.Ordinal)
            .ToFrozenDictionary(pair => pair.FilePath, pair => pair.Redaction, StringComparer.Ordinal));
    }

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
                   ByPath[original].Box.Span,
                   $"`{file.Path[Sealer.Site.Length..]}` of the site is the original `{original}`, which is withheld from the bag",
                   "remove it from the theme, or seal with `--withheld include`"),
        ];
    }

    private static string PathOf(SealedFile file) => file.Path[Sealer.Record.Length..];

    /// <summary>Asks what is to become of them.</summary>
    internal IEnumerable<Diagnostic> Ask() =>
        ByPath.OrderBy(pair => pair.Key, StringComparer.Ordinal).Select(pair => DiagnosticDescriptors.WithheldUndecided.At(
            pair.Value.Box.Span, $"the original `{pair.Key}` shows what `redact` hides, and --withheld is missing",
            "seal with `--withheld leave-out`, `--withheld apart` (a separate bag) or `--withheld include`"));
}

using Archive.Diagnostics;
using Archive.Site;

namespace Archive.Preservation;

/// <summary>
/// Holds a bag against its standard: RFC 8493, or the drafts before it where <c>bagit.txt</c> says so. First what can be told from names and
/// lists (is it complete), then every checksum (is it valid).
/// </summary>
internal static class BagAudit
{
    /// <summary>Audits a bag.</summary>
    /// <param name="root">Full path of its folder.</param>
    /// <param name="progress">Is told how far it is.</param>
    /// <param name="cancellation">Gives up.</param>
    internal static AuditOutcome Of(string root, IProgress<BuildProgress>? progress, CancellationToken cancellation) => Of(root, ofPayload: true, progress, cancellation);

    /// <summary>Audits a bag.</summary>
    /// <param name="root">Full path of its folder.</param>
    /// <param name="ofPayload">Whether the payload is read; without it names, sizes, and the lists' own checksums are held against what is written.</param>
    /// <param name="progress">Is told how far it is.</param>
    /// <param name="cancellation">Gives up.</param>
    internal static AuditOutcome Of(string root, bool ofPayload, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var faults = new List<Diagnostic>();
        var (bag, lists) = Survey(root, faults);
        var sums = lists.All
            .Where(manifest => manifest.Algorithm is not null && (ofPayload || manifest.IsOfTags))
            .SelectMany(manifest => manifest.Lines.Select(line => (Path: lists.FileOf(bag, line.Path), Sum: new WrittenSum(manifest.Algorithm!, line.Digest, line.DigestSpan))))
            .Where(pair => pair.Path is not null)
            .ToLookup(pair => pair.Path!, pair => pair.Sum, StringComparer.Ordinal);
        var (differing, bytes) = Verification.Of(bag, sums, progress, cancellation);
        return new AuditOutcome(AuditSubject.Bag, lists.Declaration.IsSaid ? $"bag of BagIt {lists.Declaration.Version.Name}" : "bag of no known version", [.. faults.Concat(differing).Order(Diagnostic.Order)])
        {
            Files = sums.Count,
            Bytes = bytes,
            Algorithms = [.. lists.All.Select(manifest => manifest.Algorithm?.Name).OfType<string>().Distinct().Order(StringComparer.Ordinal)],
        };
    }

    private static (BagFolder Bag, BagLists Lists) Survey(string root, List<Diagnostic> faults)
    {
        var bag = BagFolder.Of(root);
        faults.AddRange(bag.Links.Select(link => Faults.BagLink.At(
            new SourceText(link, "").Whole, $"{link} is a link, and a bag holds files", "put the file that it leads to in its place; it was not followed")));
        var lists = BagLists.Read(bag, faults);
        faults.AddRange(BagInfo.Check(lists.Info, bag));
        faults.AddRange(BagCompleteness.Check(bag, lists));
        faults.AddRange(BagNames.Check(lists));
        return (bag, lists);
    }
}

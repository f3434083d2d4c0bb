using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Preservation.Bags;
using Archive.Publishing.Requests;

namespace Archive.Preservation.Audits;

/// <summary>
/// Compares a bag with its standard: RFC 8493, or the drafts before it where <c>bagit.txt</c> says so. First what can be seen from names
/// and lists (is it complete), then every checksum (is it valid).
/// </summary>
internal static class BagAudit
{
    /// <summary>Audits a bag.</summary>
    /// <param name="root">Full path of its folder.</param>
    internal static AuditOutcome Run(string root, IProgress<BuildProgress>? progress, CancellationToken cancellation) =>
        Run(root, ofPayload: true, progress, cancellation);

    /// <summary>Audits a bag in a ZIP file, where it lies.</summary>
    /// <param name="zip">Full path of the file.</param>
    internal static AuditOutcome OfPacked(string zip, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        try
        {
            using var list = ZipReader.Read(zip);
            cancellation.ThrowIfCancellationRequested();
            if (list.Refusal() is { } refusal) return Unread(refusal);
            var root = list.Root();
            var bag = ZippedBag.In(list, root);
            List<Diagnostic> diagnostics = [.. list.Problems(root)];
            return Run(bag, "packed bag", diagnostics, ofPayload: true, progress, cancellation);
        }
        catch (PackedDataException broken)
        {
            return Unread(ChecksumVerification.Broken(broken, new SourceText(broken.Name, "").Whole));
        }
        catch (Exception exception) when (exception is InvalidDataException or EndOfStreamException)
        {
            return Unread(DiagnosticDescriptors.PackedUnreadable.At(
                new SourceText("", "").Whole,
                $"it is not a readable ZIP file: {exception.Message.TrimEnd('.')}",
                "it was truncated or damaged, or is something else; get it again from another copy"));
        }
    }

    /// <summary>What is wrong with a packed bag as its list and headers show it; its files are not read.</summary>
    /// <param name="zip">Full path of the file.</param>
    internal static Diagnostic? FirstWrong(string zip)
    {
        using var list = ZipReader.Read(zip);
        return list.Refusal() ?? list.Problems(list.Root()).FirstOrDefault();
    }

    private static AuditOutcome Unread(Diagnostic why) => new(AuditSubject.Bag, "packed bag", [why]);

    /// <summary>Audits a bag.</summary>
    /// <param name="root">Full path of its folder.</param>
    /// <param name="ofPayload">Whether the payload is read; without it names, sizes, and the lists' own checksums are compared with what is
    /// written.</param>
    internal static AuditOutcome Run(string root, bool ofPayload, IProgress<BuildProgress>? progress, CancellationToken cancellation) =>
        Run(BagFolder.List(root), "bag", [], ofPayload, progress, cancellation);

    private static AuditOutcome Run(
        BagContents bag,
        string noun,
        List<Diagnostic> diagnostics,
        bool ofPayload,
        IProgress<BuildProgress>? progress,
        CancellationToken cancellation)
    {
        var lists = Survey(bag, diagnostics, cancellation);
        var sums = lists.All
            .Where(manifest => manifest.Algorithm is not null && (ofPayload || manifest.IsOfTags))
            .SelectMany(manifest => manifest.Lines.Select(line =>
                (Path: lists.FileOf(bag, line.Path), Sum: new RecordedChecksum(manifest.Algorithm!, line.Digest, line.DigestSpan))))
            .Where(pair => pair.Path is not null)
            .ToLookup(pair => pair.Path!, pair => pair.Sum, StringComparer.Ordinal);
        var (differing, bytes) = ChecksumVerification.Verify(bag, sums, progress, cancellation);
        if (bag is ZippedBag)
            diagnostics.AddRange(ChecksumVerification.OfUnlisted(bag, bag.Files.Where(file => !sums.Contains(file)), cancellation));
        return new AuditOutcome(
            AuditSubject.Bag,
            lists.Declaration.IsSaid ? $"{noun} of BagIt {lists.Declaration.Version.Name}" : $"{noun} of no known version",
            [.. diagnostics.Concat(differing).Order(Diagnostic.Order)])
        {
            Files = sums.Count,
            Bytes = bytes,
            Algorithms = [.. lists.All
                .Select(manifest => manifest.Algorithm?.Name)
                .OfType<string>()
                .Distinct()
                .Order(StringComparer.Ordinal)],
        };
    }

    /// <summary>Reports what is in a folder and is not a file.</summary>
    internal static IEnumerable<Diagnostic> OfSpecial(BagFolder folder) =>
        folder.Special.Select(file => DiagnosticDescriptors.AuditedSpecialFile.At(
            new SourceText(file.Path, "").Whole,
            $"{file.Path} is {file.Kind}; only files can be verified",
            "remove it, and restore the file of that name if one is listed; it was not opened"));

    private static BagLists Survey(BagContents bag, List<Diagnostic> diagnostics, CancellationToken cancellation)
    {
        diagnostics.AddRange(bag.Links.Select(link => DiagnosticDescriptors.BagLink.At(
            new SourceText(link, "").Whole,
            $"{link} is a link; a bag contains only files",
            "replace it with the file that it leads to; it was not followed")));
        if (bag is BagFolder folder) diagnostics.AddRange(OfSpecial(folder));
        var lists = BagLists.Read(bag, diagnostics);
        foreach (var check in new Func<IEnumerable<Diagnostic>>[]
        {
            () => BagInfo.Check(lists.Info, bag),
            () => BagCompleteness.Check(bag, lists),
            () => BagNames.Check(lists),
        })
        {
            cancellation.ThrowIfCancellationRequested();
            diagnostics.AddRange(check());
        }

        return lists;
    }
}

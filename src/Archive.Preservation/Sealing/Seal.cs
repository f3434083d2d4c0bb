using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records;
using Archive.Site;

namespace Archive.Preservation;

/// <summary>
/// Seals a record: it is checked, its site is made, and both go with the originals into a bag (RFC 8493) that grows in a folder beside its place and gets
/// its name in one step. Whoever looks sees no bag or a whole one.
/// </summary>
public static class Seal
{
    private const string Record = "data/record/", Site = "data/site/", Description = "data/format/record-format.md";

    /// <summary>Seals a record.</summary>
    /// <param name="order">Which, and where to.</param>
    /// <param name="progress">Is told how far it is.</param>
    /// <param name="cancellation">Gives up; what is done is kept for the next run.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">Something cannot be read or written; what is done is kept for the next run.</exception>
    public static SealOutcome Run(SealOrder order, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        if (Path.Exists(order.Target)) return new SealOutcome.Refused([], SealFaults.Taken(order.Target));
        Directory.CreateDirectory(Path.GetDirectoryName(order.To)!);
        using var work = SealingFolder.Take(order.To);
        if (work is null) return new SealOutcome.Refused([], SealFaults.Busy(order.To));

        var folder = new ArchiveFolder(order.Build.Content);
        var draft = RecordReader.Read(folder, cancellation);
        var hidden = WithheldOriginals.Of(draft);
        if (hidden.ByPath.Count > 0 && order.Withheld is null) return new SealOutcome.Withheld(Telling.All(hidden.Ask(), order.Build.Prefix));

        var built = SiteBuild.Publish(order.Build, work.Site, "the site to be sealed", progress, cancellation);
        if (built.Ending is BuildEnding.Refused refused) return new SealOutcome.Refused(built.Faults, refused.Why);
        if (built.Ending is BuildEnding.Withheld) return new SealOutcome.Withheld(built.Faults);

        using var journal = new SealJournal(work.Journal);
        using var packing = new Packing(journal, progress, cancellation);
        var contents = Pack(order, work, folder, hidden, packing);
        var papers = new SealPapers(order, draft, built, GitState.Of(order.Build.Content), contents);
        Directory.Move(work.Site, Path.Combine(work.Bag, "data", "site"));
        papers.Write(work.Bag);
        if (!contents.Apart.IsEmpty) papers.WriteApart(work.Apart);
        ImmutableArray<(string Bag, string Target)> bags = contents.Apart.IsEmpty ? [(work.Bag, order.Target)] : [(work.Apart, order.ApartTarget), (work.Bag, order.Target)];
        foreach (var (bag, target) in bags)
        {
            if (ReadBack(bag, cancellation) is { } alike && order.Zip) return new SealOutcome.Refused(built.Faults, SealFaults.NotToBePacked(target, alike));
        }

        foreach (var (bag, target) in bags) Finish(order, work, bag, target, cancellation);
        work.Clear();
        var all = contents.Payload.Concat(contents.Apart).ToList();
        return new SealOutcome.Done(built.Faults, [.. bags.Select(bag => bag.Target).Reverse()], all.Count, all.Sum(file => file.Length), packing.Kept);
    }

    private static SealedContents Pack(SealOrder order, SealingFolder work, ArchiveFolder folder, WithheldOriginals hidden, Packing packing)
    {
        PayloadFile Of(string path, string? bag) => new(Record + path, folder.FullPath(path), bag is null ? null : Path.Combine(bag, Record + path));
        var withheld = order.Withheld is Withholding.LeaveOut or Withholding.Apart ? hidden.ByPath.Keys.Where(path => folder.Files.Contains(path)).ToHashSet(StringComparer.Ordinal) : [];
        var without = packing.Take([.. withheld.Select(path => Of(path, order.Withheld == Withholding.Apart ? work.Apart : null))]);

        var description = Path.Combine(work.Bag, Description);
        Directory.CreateDirectory(Path.GetDirectoryName(description)!);
        using (var from = typeof(Seal).Assembly.GetManifestResourceStream("record-format.md")!)
        using (var to = File.Create(description)) from.CopyTo(to);
        var site = BagFolder.Of(work.Site).Files.Select(path => new PayloadFile(Site + path, Path.Combine(work.Site, path), null));
        var taken = packing.Take(
            [.. folder.Files.Where(path => !withheld.Contains(path)).Select(path => Of(path, work.Bag)), .. site, new PayloadFile(Description, description, null)]);

        // A second copy of a picture that is withheld, under another name, is withheld too.
        var sums = without.Select(file => file.Sha256).ToHashSet(StringComparer.Ordinal);
        var copies = taken.Where(file => file.Path.StartsWith(Record + "photos/", StringComparison.Ordinal) && sums.Contains(file.Sha256)).ToList();
        foreach (var copy in copies) File.Delete(Path.Combine(work.Bag, copy.Path));
        return new SealedContents([.. taken.Except(copies)], [.. without.Concat(copies).OrderBy(file => file.Path, StringComparer.Ordinal)], order.Withheld == Withholding.Apart ? without : []);
    }

    // What must last is read back: names, sizes, and the checksums of the lists. Every byte of the payload is read by `asfound audit`.
    private static Diagnostic? ReadBack(string bag, CancellationToken cancellation)
    {
        var told = BagAudit.Of(bag, ofPayload: false, null, cancellation).Diagnostics;
        return told.FirstOrDefault(diagnostic => diagnostic.Severity == Severity.Error) is { } fault
            ? throw new IOException($"the bag does not read back as it was written: {fault.Message}")
            : told.FirstOrDefault(diagnostic => diagnostic.Kind == Faults.NamesAlike);
    }

    private static void Finish(SealOrder order, SealingFolder work, string bag, string target, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        if (!order.Zip)
        {
            Directory.Move(bag, target);
            return;
        }

        var unfinished = work.Unfinished(target);
        BagZip.Write(bag, Path.GetFileNameWithoutExtension(target), unfinished, order.Now, cancellation);
        File.Move(unfinished, target);
    }
}

/// <summary>What went into a bag.</summary>
/// <param name="Payload">Its files, ordinal by path.</param>
/// <param name="Withheld">Originals that did not go into it.</param>
/// <param name="Apart">Those of them that went into a bag of their own.</param>
internal sealed record SealedContents(ImmutableArray<SealedFile> Payload, ImmutableArray<SealedFile> Withheld, ImmutableArray<SealedFile> Apart);

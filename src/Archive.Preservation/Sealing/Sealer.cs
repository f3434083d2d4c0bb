using System.Collections.Immutable;
using System.Text;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Diagnostics.Rendering;
using Archive.Git;
using Archive.Preservation.Audits;
using Archive.Preservation.Bags;
using Archive.Publishing.Building;
using Archive.Publishing.Requests;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Reference;
using Archive.Storage;

namespace Archive.Preservation.Sealing;

/// <summary>
/// Seals a record: it is checked, its site is made, and both go with the originals into a bag (RFC 8493) that grows in a folder beside its
/// place and gets its name in one step. Anyone who looks sees no bag or a whole one.
/// </summary>
public static class Sealer
{
    public const string Record = "data/record/", Site = "data/site/";
    private const string Format = "data/format/";

    /// <summary>Seals a record.</summary>
    /// <param name="options">Which, and where to.</param>
    /// <param name="cancellation">Gives up; what is done is kept for the next run.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">Something cannot be read or written; what is done is kept for the next run.</exception>
    public static SealResult Run(SealOptions options, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        if (Path.Exists(options.Target))
        {
            SealingFolder.ClearFinished(options.To);
            return new SealResult.Refused([], SealDiagnostics.Taken(options.Target));
        }

        if (SealLocation.Problem(options) is { } unfit) return new SealResult.Refused([], unfit);
        var folder = new ArchiveFolder(options.Build.Content);
        var parsed = RecordReader.Read(folder, cancellation);
        var hidden = WithheldOriginals.Find(parsed);
        if (hidden.ByPath.Count > 0 && options.Withheld is null)
            return new SealResult.Withheld(RenderedDiagnostic.FromAll(hidden.Ask(), options.Build.Prefix));
        var (originals, diagnostics) = SealedOriginals.Find(folder, options.Zip);
        if (!diagnostics.IsEmpty) return new SealResult.Withheld(RenderedDiagnostic.FromAll(diagnostics, options.Build.Prefix));

        Directory.CreateDirectory(Path.GetDirectoryName(options.To)!);
        using var work = SealingFolder.Take(options.To);
        if (work is null) return new SealResult.Refused([], SealDiagnostics.Busy(options.To));
        if (hidden.ByPath.Count > 0 && options.Withheld == Withholding.Apart && Path.Exists(options.ApartTarget))
            return new SealResult.Refused([], SealDiagnostics.Taken(options.ApartTarget));

        var built = SiteBuild.Publish(options.Build, work.Site, "the site to be sealed", progress, cancellation);
        if (built.Status is BuildStatus.Refused && Directory.Exists(work.Site))
        {
            // A power cut took the list of the site that an earlier run had made here, or files of it.
            PrivateFolder.Delete(work.Site);
            built = SiteBuild.Publish(options.Build, work.Site, "the site to be sealed", progress, cancellation);
        }

        if (built.Status is BuildStatus.Refused refused) return new SealResult.Refused(built.Diagnostics, refused.Why);
        if (built.Status is BuildStatus.Withheld) return new SealResult.Withheld(built.Diagnostics);
        return Make(options, work, new SealedRecord(parsed, built, originals, hidden), progress, cancellation);
    }

    private static SealResult Make(
        SealOptions options, SealingFolder work, SealedRecord record, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        using var journal = new SealJournal(work.Journal, work.Settle);
        using var packing = new PayloadPacker(journal, progress, cancellation);
        var contents = Pack(options, work, record, packing);
        if (Spoiled(work, record, contents) is { IsEmpty: false } spoiled)
        {
            // What was copied of them must not be resumed.
            work.Clear();
            return new SealResult.Withheld([.. record.Built.Diagnostics, .. RenderedDiagnostic.FromAll(spoiled, options.Build.Prefix)]);
        }

        cancellation.ThrowIfCancellationRequested();
        var papers = new SealDocuments(options, record.Draft, record.Built, GitState.Read(options.Build.Content, cancellation), contents);
        Directory.Move(work.Site, Path.Combine(work.Bag, "data", "site"));
        papers.Write(work.Bag);
        if (!contents.Apart.IsEmpty) papers.WriteApart(work.Apart);

        // The bag itself comes last: that it is there says that all is done.
        ImmutableArray<(string Bag, string Target)> bags = contents.Apart.IsEmpty
            ? [(work.Bag, options.Target)]
            : [(work.Apart, options.ApartTarget), (work.Bag, options.Target)];
        foreach (var (bag, target) in bags)
        {
            if (ReadBack(bag, cancellation) is { } alike && options.Zip)
                return new SealResult.Refused(record.Built.Diagnostics, SealDiagnostics.NotToBePacked(target, alike));
        }

        var named = bags.Select(each => (From: options.Zip ? Packed(options, work, each, cancellation) : each.Bag, each.Target)).ToList();
        foreach (var (from, target) in named)
        {
            if (options.Zip && BagAudit.FirstWrong(from) is { } wrong)
                return new SealResult.Refused(record.Built.Diagnostics, SealDiagnostics.NotToBePacked(target, wrong));
        }

        // From here on it is done sooner than it is undone.
        cancellation.ThrowIfCancellationRequested();
        work.Name(named);
        work.Clear();
        var all = contents.Payload.Concat(contents.Apart).ToList();
        return new SealResult.Done(
            record.Built.Diagnostics, [.. bags.Select(bag => bag.Target).Reverse()], all.Count, all.Sum(file => file.Length), packing.Kept);
    }

    private static SealedContents Pack(SealOptions options, SealingFolder work, SealedRecord record, PayloadPacker packing)
    {
        PayloadFile Of(Original original, string? bag) =>
            new(Record + original.Path, original.From, bag is null ? null : Path.Combine(bag, Record + original.Path));
        bool IsWithheld(Original original) =>
            options.Withheld is Withholding.LeaveOut or Withholding.Apart && record.Hidden.ByPath.ContainsKey(original.Path);
        var without = packing.Take([.. record.Originals
            .Where(IsWithheld)
            .Select(original => Of(original, options.Withheld == Withholding.Apart ? work.Apart : null))]);

        var format = FormatFiles.All.Select(file => Describe(work, file.Name, file.Text)).ToList();
        var site = BagFolder.List(work.Site).Files.Select(path => new PayloadFile(Site + path, Path.Combine(work.Site, path), null));
        var taken = packing.Take([
            .. record.Originals.Where(original => !IsWithheld(original)).Select(original => Of(original, work.Bag)),
            .. site,
            .. format
        ]);

        // A second copy of a picture that is withheld, under another name and wherever it lies, is withheld too.
        var sums = without.Select(file => file.Sha256).ToHashSet(StringComparer.Ordinal);
        var copies = taken.Where(file => file.Path.StartsWith(Record, StringComparison.Ordinal) && sums.Contains(file.Sha256)).ToList();
        foreach (var copy in copies) File.Delete(Path.Combine(work.Bag, copy.Path));
        return new SealedContents(
            [.. taken.Except(copies)],
            [.. without.Concat(copies).OrderBy(file => file.Path, StringComparer.Ordinal)],
            options.Withheld == Withholding.Apart ? without : []);
    }

    private static PayloadFile Describe(SealingFolder work, string name, string text)
    {
        var path = Path.Combine(work.Bag, Format + name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        using var to = File.Create(path);
        to.Write(Encoding.UTF8.GetBytes(text));
        DiskSync.Flush(to);
        return new PayloadFile(Format + name, path, null);
    }

    private static ImmutableArray<Diagnostic> Spoiled(SealingFolder work, SealedRecord record, SealedContents contents)
    {
        var originals = RecordedChecksums.Originals(record.Draft, contents.Payload.Concat(contents.Withheld));
        if (!originals.IsEmpty) return originals;
        if (record.Hidden.In(contents) is { IsEmpty: false } shown) return shown;
        if (RecordedChecksums.Site(work.Site, contents.Payload) is not { } page) return [];
        work.Clear();
        throw new IOException($"{page} of the site to be sealed has changed since it was written");
    }

    // What must last is read back: names, sizes, and the checksums of the lists. Every byte of the payload is read by `asfound audit`.
    private static Diagnostic? ReadBack(string bag, CancellationToken cancellation)
    {
        var told = BagAudit.Run(bag, ofPayload: false, null, cancellation).Diagnostics;
        return told.FirstOrDefault(diagnostic => diagnostic.Severity == Severity.Error) is { } fault
            ? throw new IOException($"the bag does not read back as it was written: {fault.Message}")
            : told.FirstOrDefault(diagnostic => diagnostic.Descriptor == DiagnosticDescriptors.NamesAlike);
    }

    private static string Packed(SealOptions options, SealingFolder work, (string Bag, string Target) each, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        var unfinished = work.Unfinished(each.Target);
        BagZip.Write(each.Bag, Path.GetFileNameWithoutExtension(each.Target), unfinished, options.Now, cancellation);
        return unfinished;
    }
}

/// <summary>What is sealed.</summary>
/// <param name="Built">What came of its check and its site.</param>
/// <param name="Originals">Its files.</param>
/// <param name="Hidden">Those that show what it hides.</param>
internal sealed record SealedRecord(ParseResult Draft, BuildResult Built, ImmutableArray<Original> Originals, WithheldOriginals Hidden);

/// <summary>What went into a bag.</summary>
/// <param name="Payload">Its files, ordinal by path.</param>
/// <param name="Withheld">Originals that did not go into it.</param>
/// <param name="Apart">Those of them that went into a bag of their own.</param>
internal sealed record SealedContents(
    ImmutableArray<SealedFile> Payload, ImmutableArray<SealedFile> Withheld, ImmutableArray<SealedFile> Apart);

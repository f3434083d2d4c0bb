using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Rendering;
using Archive.Documents.Inspection;
using Archive.Markup.Templates;
using Archive.Photos.Processing;
using Archive.Plans;
using Archive.Plans.Survey;
using Archive.Publishing.Caching;
using Archive.Publishing.Incremental;
using Archive.Publishing.Publication;
using Archive.Publishing.Requests;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Site.Data;

namespace Archive.Publishing.Building;

/// <summary>
/// The whole way: files are read (Records), the record is compared with every rule (Records, Wiring, Hall), photos are looked at or
/// developed (Photos), pages are made of what came of it, and the finished site is put in place. This is the one place where the rooms
/// meet.
/// </summary>
public static class SiteBuild
{
    /// <summary>Checks a record; writes nothing but the cache.</summary>
    /// <param name="today">The day on which this is asked: dates after it are reported. Nothing that is published depends on it.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static BuildResult Check(
        BuildOptions options, DateOnly today, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var folder = new ArchiveFolder(options.Content);
        var found = Examine(options, folder, progress, cancellation, today);
        var processor = new PhotoProcessor(options.Cache.Photos);
        var errors = new ErrorPlaces(found.Diagnostics);
        var inspected = Inspect(options, folder, found.Record, cancellation);
        var originals = new Originals(
            found.Record, folder, errors, new DocumentsToPublish(inspected, errors), processor, cancellation);
        var photos = processor.InspectAll(originals.Sources, StepProgress.Photos(progress, BuildStep.Inspect), cancellation);
        return Result(
            options,
            found.Record,
            [.. found.Diagnostics, .. inspected.Diagnostics, .. originals.Diagnostics(photos)],
            new BuildStatus.Checked());
    }

    /// <summary>Looks into the files of documents.</summary>
    internal static DocumentInspection Inspect(
        BuildOptions options, ArchiveFolder folder, ArchiveModel record, CancellationToken cancellation)
    {
        if (record.Documents.IsEmpty) return DocumentInspection.None;
        var cache = new DocumentCache(options.Cache);
        var inspected = DocumentInspection.Inspect(record, folder, cache, cancellation);
        cache.Keep();
        return inspected;
    }

    /// <summary>
    /// Checks a record, looks at the pixels of its photos, and finds what the survey still needs; writes nothing but the cache.
    /// </summary>
    /// <returns>The outcome of the check, and what is to be done at each place, as one walks past it.</returns>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static (BuildResult Outcome, ImmutableArray<SurveyStop> ToDo) Survey(
        BuildOptions options, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var folder = new ArchiveFolder(options.Content);
        var found = Examine(options, folder, progress, cancellation);
        var processor = new PhotoProcessor(options.Cache.Photos);
        var originals = new Originals(
            found.Record, folder, new ErrorPlaces(found.Diagnostics), DocumentsToPublish.None, processor, cancellation);
        var photos = processor.MeasureAll(originals.Sources, StepProgress.Photos(progress, BuildStep.Inspect), cancellation);
        var outcome = Result(options, found.Record, [.. found.Diagnostics, .. originals.Diagnostics(photos)], new BuildStatus.Checked());
        return (outcome, SurveyList.Compute(found.Basis, originals.Findings(photos)));
    }

    /// <summary>Checks a record and puts its site in place, unless errors prevent it.</summary>
    /// <param name="path">The site's folder.</param>
    /// <param name="shownAs">The folder as its owner names it.</param>
    /// <param name="cancellation">Gives up; the site is as it was.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static BuildResult Publish(
        BuildOptions options, string path, string shownAs, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var publisher = new Publisher(path, shownAs);
        var folder = new ArchiveFolder(options.Content);

        // The fingerprint is taken before anything is read: an input that changes in between shows at the next run.
        var stamps = InputStamps.Open(options.Cache, TimeProvider.System);
        var fingerprint = Fingerprint.Compute(options, folder, stamps, cancellation);
        stamps.Keep();
        var last = LastPublication.Read(options.Cache, path);
        if (last.Fingerprint == fingerprint.Whole && publisher.IsUnchanged(last.Files))
        {
            return new BuildResult(
                last.Count, [.. last.Faults.Select(fault => fault.Below(options.Prefix))], new BuildStatus.Unchanged(last.Files));
        }

        var site = PreparedSite.Prepare(options, folder, fingerprint, new BuildMemory(), isWhole: true, progress, cancellation);
        if (site.Parts is not { } parts) return Result(options, site.Record, site.Diagnostics, new BuildStatus.Withheld());
        publisher = new Publisher(path, shownAs)
        {
            Replace = options.Replace,
            Offline = site.Offline,
            Spare = options.Cache.SpareOf(path)
        };
        var outcome = publisher.Publish(parts.SelectMany(part => part.All()), last.Files, StepProgress.Files(progress), cancellation);
        switch (outcome)
        {
            case PublicationResult.Faulty faulty:
                return Result(options, site.Record, [.. site.Diagnostics, .. faulty.Faults], new BuildStatus.Withheld());
            case PublicationResult.Refused refused:
                return Result(options, site.Record, site.Diagnostics, new BuildStatus.Refused(refused.Why));
            case PublicationResult.Done done:
                var told = Result(
                    options, site.Record, site.Diagnostics, new BuildStatus.Published(done.Files, done.Written, done.Removed));
                new LastPublication(
                    fingerprint.Whole, done.Files, RenderedDiagnostic.FromAll(site.Diagnostics, ""), told.Count).Keep(options.Cache, path);
                return told;
            default:
                throw new InvalidOperationException($"{outcome} is not an outcome");
        }
    }

    /// <summary>Checks a record and opens its photos for work on their pixels; writes nothing but the cache.</summary>
    /// <returns>The outcome of the check, and the photos; null where errors of the record prevent it.</returns>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static (BuildResult Outcome, OpenedPhotos? Photos) OpenPhotos(
        BuildOptions options, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var folder = new ArchiveFolder(options.Content);
        var found = Examine(options, folder, progress, cancellation);
        var outcome = Result(options, found.Record, found.Diagnostics, new BuildStatus.Checked());
        if (found.HasErrors) return (outcome, null);
        var processor = new PhotoProcessor(options.Cache.Photos);
        var originals = new Originals(
            found.Record, folder, new ErrorPlaces(found.Diagnostics), DocumentsToPublish.None, processor, cancellation);
        return (outcome, new OpenedPhotos(found.Record, originals.WithHiddenParts, processor));
    }

    /// <summary>Calculates something from a record; writes nothing but the cache.</summary>
    /// <param name="options">Of which record.</param>
    /// <param name="work">Calculates it, once the record is found to be sound.</param>
    /// <returns>The outcome of the check, and the result; null if errors of the record prevent it. Photos are not looked at: nothing that
    /// is calculated this way rests on their files.</returns>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static (BuildResult Outcome, T? Result) Compute<T>(
        BuildOptions options, Func<PlanContext, T> work, IProgress<BuildProgress>? progress, CancellationToken cancellation)
        where T : class
    {
        var found = Examine(options, new ArchiveFolder(options.Content), progress, cancellation);
        var outcome = Result(options, found.Record, found.Diagnostics, new BuildStatus.Checked());
        return (outcome, found.HasErrors && !options.WithErrors ? null : work(found.Basis));
    }

    /// <summary>Writes the record and its plans as one spreadsheet (xlsx).</summary>
    /// <param name="to">Gets the whole file; nothing if errors of the record prevent it.</param>
    /// <returns>The outcome of the check, and the number of sheets; null if errors of the record prevent it.</returns>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static (BuildResult Outcome, int? Sheets) Export(
        BuildOptions options, Stream to, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var (outcome, context) = Compute(options, context => context, progress, cancellation);
        return (outcome, context is null ? null : WorkbookFile.Write(to, context));
    }

    private static CheckedArchive Examine(
        BuildOptions options,
        ArchiveFolder folder,
        IProgress<BuildProgress>? progress,
        CancellationToken cancellation,
        DateOnly? today = null) =>
        CheckedArchive.Check(folder, new ThemeLoader(options.Themes), known: null, today, progress, cancellation);

    private static BuildResult Result(BuildOptions options, ArchiveModel record, IEnumerable<Diagnostic> diagnostics, BuildStatus status) =>
        new(RecordCount.From(record), RenderedDiagnostic.FromAll(diagnostics, options.PrefixFor), status);
}

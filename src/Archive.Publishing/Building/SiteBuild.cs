using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Rendering;
using Archive.Markup.Templates;
using Archive.Photos.Images;
using Archive.Photos.Processing;
using Archive.Plans;
using Archive.Plans.Catalog;
using Archive.Plans.Survey;
using Archive.Publishing.Caching;
using Archive.Publishing.Incremental;
using Archive.Publishing.Publication;
using Archive.Publishing.Requests;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Search;
using Archive.Search.Documents;
using Archive.Site;
using Archive.Site.Contents;
using Archive.Site.Data;
using Archive.Site.Permanence;
using Archive.Storage.Output;

namespace Archive.Publishing.Building;

/// <summary>
/// The whole way: files are read (Records), the record is compared with every rule (Records, Wiring, Hall), photos are looked at or
/// developed (Photos), pages are made of what came of it, and the finished site is put in place. This is the one place where the rooms
/// meet.
/// </summary>
public static class SiteBuild
{
    // Pixels: what devices keep of a photo for a hall without network.
    private const int SmallPicture = 480;

    /// <summary>Checks a record; writes nothing but the cache.</summary>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static BuildResult Check(BuildOptions options, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var folder = new ArchiveFolder(options.Content);
        var found = Examine(options, folder, progress, cancellation);
        var processor = new PhotoProcessor(options.Cache.Photos);
        var originals = new Originals(found.Record, folder, found.Diagnostics, processor, cancellation);
        var photos = processor.InspectAll(originals.Sources, At(progress, BuildStep.Inspect), cancellation);
        return Result(options, found.Record, [.. found.Diagnostics, .. originals.Diagnostics(photos)], new BuildStatus.Checked());
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
        var originals = new Originals(found.Record, folder, found.Diagnostics, processor, cancellation);
        var photos = processor.MeasureAll(originals.Sources, At(progress, BuildStep.Inspect), cancellation);
        var outcome = Result(options, found.Record, [.. found.Diagnostics, .. originals.Diagnostics(photos)], new BuildStatus.Checked());
        return (outcome, SurveyList.Compute(new PlanContext(found.Record, found.HallLayouts), originals.Findings(photos)));
    }

    /// <summary>Checks a record and puts its site in place, unless errors prevent it.</summary>
    /// <param name="site">The site's folder.</param>
    /// <param name="shownAs">The folder as its owner names it.</param>
    /// <param name="cancellation">Gives up; the site is as it was.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static BuildResult Publish(
        BuildOptions options, string site, string shownAs, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var publisher = new Publisher(site, shownAs);
        var folder = new ArchiveFolder(options.Content);

        // The fingerprint is taken before anything is read: an input that changes in between shows at the next run.
        var stamps = InputStamps.Open(options.Cache, TimeProvider.System);
        var fingerprint = Fingerprint.Compute(options, folder, stamps, cancellation);
        stamps.Keep();
        var last = LastPublication.Read(options.Cache, site);
        if (last.Fingerprint == fingerprint && publisher.IsUnchanged(last.Files))
        {
            return new BuildResult(
                last.Count, [.. last.Faults.Select(fault => fault.Below(options.Prefix))], new BuildStatus.Unchanged(last.Files));
        }

        var found = Examine(options, folder, progress, cancellation);
        var processor = new PhotoProcessor(options.Cache.Photos);
        var originals = new Originals(found.Record, folder, found.Diagnostics, processor, cancellation);
        var isWithheld = found.Theme is null || ((found.HasErrors || !originals.CopyErrors.IsEmpty) && !options.WithErrors);
        var context = new PlanContext(found.Record, found.HallLayouts);

        // What rests on no picture is calculated beside the pictures: neither fills two cores from its beginning to its end.
        var plans = isWithheld ? null : Task.Run(() => PlanCatalog.ComputeAll(context), cancellation);
        var search = isWithheld ? null : Task.Run(
            () => SearchIndex.Create(SearchDocuments.Create(found.Record), found.Record.Statement.Language?.Value), cancellation);
        var photos = isWithheld
            ? processor.InspectAll(originals.Sources, At(progress, BuildStep.Inspect), cancellation)
            : processor.DevelopAll(originals.Orders, At(progress, BuildStep.Develop), cancellation);
        ImmutableArray<Diagnostic> diagnostics = [.. found.Diagnostics, .. originals.Diagnostics(photos)];
        var errors = diagnostics.Count(diagnostic => diagnostic.Severity == Severity.Error);
        if (found.Theme is not { } theme || (errors > 0 && !options.WithErrors))
            return Result(options, found.Record, diagnostics, new BuildStatus.Withheld());

        var contents = new SiteContents
        {
            Basis = context,
            Plans = Wait(plans!, cancellation),
            Theme = theme,
            Photos = originals.Published(photos),
            Findings = originals.Findings(photos),
            Errors = errors,
        };
        var small = contents.Photos.Values
            .SelectMany(photo => photo.Derivatives)
            .Where(picture => picture.Width <= SmallPicture)
            .Select(picture => picture.Path);
        publisher =
            new Publisher(site, shownAs)
            {
                Replace = options.Replace,
                Offline = new OfflineList(small.ToFrozenSet(StringComparer.Ordinal))
            };
        var outcome = publisher.Publish(
            Files(contents, search!, originals.Files(photos), cancellation), last.Files, Making(progress), cancellation);
        switch (outcome)
        {
            case PublicationResult.Faulty faulty:
                return Result(options, found.Record, [.. diagnostics, .. faulty.Faults], new BuildStatus.Withheld());
            case PublicationResult.Refused refused:
                return Result(options, found.Record, diagnostics, new BuildStatus.Refused(refused.Why));
            case PublicationResult.Done done:
                var told = Result(options, found.Record, diagnostics, new BuildStatus.Published(done.Files, done.Written, done.Removed));
                new LastPublication(
                    fingerprint, done.Files, RenderedDiagnostic.FromAll(diagnostics, ""), told.Count).Keep(options.Cache, site);
                return told;
            default:
                throw new InvalidOperationException($"{outcome} is not an outcome");
        }
    }

    /// <summary>Works one plan out; writes nothing but the cache.</summary>
    /// <param name="options">Of which record.</param>
    /// <param name="work">Works it out, once the record is found to be sound.</param>
    /// <returns>The outcome of the check, and the plan; null if errors of the record prevent it. Photos are not looked at: no plan rests on
    /// their files.</returns>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static (BuildResult Outcome, Plan? Plan) Plan(
        BuildOptions options, Func<PlanContext, Plan> work, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var found = Examine(options, new ArchiveFolder(options.Content), progress, cancellation);
        var outcome = Result(options, found.Record, found.Diagnostics, new BuildStatus.Checked());
        return (outcome, found.HasErrors && !options.WithErrors ? null : work(new PlanContext(found.Record, found.HallLayouts)));
    }

    // All that the site will have, made one by one as the publisher asks for it. What lists the whole record (data, search) is gathered
    // beside the pages, and asked for last.
    private static IEnumerable<OutputFile> Files(
        SiteContents contents,
        Task<ImmutableArray<OutputFile>> search,
        IEnumerable<OutputFile> pictures,
        CancellationToken cancellation)
    {
        var gathered = Task.Run(() => DataFiles.Create(contents.Basis, contents.Plans).ToList(), cancellation);
        foreach (var page in SitePages.All(contents)) yield return page;
        foreach (var picture in pictures) yield return picture;
        var data = Wait(gathered, cancellation);
        foreach (var file in data) yield return file;
        foreach (var file in PermanenceFiles.Create(contents.Record, data.Select(file => file.Path))) yield return file;
        foreach (var file in Wait(search, cancellation)) yield return file;
    }

    // Who is asked to stop does not wait for what is still calculated: it writes nothing.
    private static T Wait<T>(Task<T> work, CancellationToken cancellation) => work.WaitAsync(cancellation).GetAwaiter().GetResult();

    private static CheckedArchive Examine(
        BuildOptions options, ArchiveFolder folder, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        progress?.Report(new BuildProgress(BuildStep.Check, 0, 0));
        var found = CheckedArchive.Check(folder, new ThemeLoader(options.Themes), cancellation);
        progress?.Report(new BuildProgress(BuildStep.Check, 1, 1));
        return found;
    }

    private static BuildResult Result(BuildOptions options, ArchiveModel record, IEnumerable<Diagnostic> diagnostics, BuildStatus status) =>
        new(RecordCount.From(record), RenderedDiagnostic.FromAll(diagnostics, options.PrefixFor), status);

    private static Relay<PhotoProgress>? At(IProgress<BuildProgress>? progress, BuildStep step) =>
        progress is null ? null : new Relay<PhotoProgress>(photos => progress.Report(new BuildProgress(step, photos.Done, photos.Total)));

    private static Relay<int>? Making(IProgress<BuildProgress>? progress) =>
        progress is null ? null : new Relay<int>(made => progress.Report(new BuildProgress(BuildStep.Make, made, 0)));

    // Reported at once and on the same thread, where System.Progress would queue.
    private sealed class Relay<T>(Action<T> report) : IProgress<T>
    {
        public void Report(T value) => report(value);
    }
}

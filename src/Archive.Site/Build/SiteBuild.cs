using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Photos;
using Archive.Records;

namespace Archive.Site;

/// <summary>
/// The whole way: files are read (Records), the record is compared with every rule (Records, Wiring, Hall), photos are looked at or developed (Photos),
/// pages are made of what came of it, and the finished site is put in place. This is the one place where the rooms meet.
/// </summary>
public static class SiteBuild
{
    // Pixels: what devices keep of a photo for a hall without network.
    private const int SmallPicture = 480;

    /// <summary>Checks a record; writes nothing but the cache.</summary>
    /// <param name="order">Which record.</param>
    /// <param name="progress">Is told how far it is.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static BuildOutcome Check(BuildOrder order, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var folder = new ArchiveFolder(order.Content);
        var found = Examine(order, folder, progress, cancellation);
        var darkroom = new Darkroom(order.Cache.Photos);
        var originals = new Originals(found.Record, folder, found.Diagnostics, darkroom, cancellation);
        var photos = darkroom.InspectAll(originals.Sources, At(progress, BuildStep.Inspect), cancellation);
        return Told(order, found.Record, [.. found.Diagnostics, .. originals.Faults(photos)], new BuildEnding.Checked());
    }

    /// <summary>Checks a record, looks at the pixels of its photos, and finds what the survey still owes; writes nothing but the cache.</summary>
    /// <param name="order">Which record.</param>
    /// <param name="progress">Is told how far it is.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>The outcome of the check, and what is to be done at each place, as one walks past it.</returns>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static (BuildOutcome Outcome, ImmutableArray<SurveyStop> ToDo) Survey(BuildOrder order, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var folder = new ArchiveFolder(order.Content);
        var found = Examine(order, folder, progress, cancellation);
        var darkroom = new Darkroom(order.Cache.Photos);
        var originals = new Originals(found.Record, folder, found.Diagnostics, darkroom, cancellation);
        var photos = darkroom.MeasureAll(originals.Sources, At(progress, BuildStep.Inspect), cancellation);
        var outcome = Told(order, found.Record, [.. found.Diagnostics, .. originals.Faults(photos)], new BuildEnding.Checked());
        return (outcome, SurveyList.Of(new PlanBasis(found.Record, found.Standings), originals.Findings(photos)));
    }

    /// <summary>Checks a record and puts its site in place, unless faults stand in the way.</summary>
    /// <param name="order">Which record.</param>
    /// <param name="site">The site's folder.</param>
    /// <param name="shownAs">The folder as its owner names it.</param>
    /// <param name="progress">Is told how far it is.</param>
    /// <param name="cancellation">Gives up; the site stands as it was.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static BuildOutcome Publish(BuildOrder order, string site, string shownAs, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var publisher = new Publisher(site, shownAs);
        var folder = new ArchiveFolder(order.Content);

        // The fingerprint is taken before anything is read: an input that changes in between shows at the next run.
        var stamps = InputStamps.Open(order.Cache, TimeProvider.System);
        var fingerprint = Fingerprint.Of(order, folder, stamps);
        stamps.Keep();
        var last = LastPublication.Read(order.Cache, site);
        if (last.Fingerprint == fingerprint && publisher.Stands(last.Files))
        {
            return new BuildOutcome(last.Count, [.. last.Faults.Select(fault => fault.Below(order.Prefix))], new BuildEnding.Unchanged(last.Files));
        }

        var found = Examine(order, folder, progress, cancellation);
        var darkroom = new Darkroom(order.Cache.Photos);
        var originals = new Originals(found.Record, folder, found.Diagnostics, darkroom, cancellation);
        var isWithheld = found.Theme is null || ((found.HasErrors || !originals.CopyErrors.IsEmpty) && !order.WithErrors);
        var basis = new PlanBasis(found.Record, found.Standings);

        // What rests on no picture is worked out beside the pictures: neither fills two cores from its beginning to its end.
        var plans = isWithheld ? null : Task.Run(() => PlanKinds.WorkAll(basis), cancellation);
        var search = isWithheld ? null : Task.Run(() => SearchIndex.Of(SearchDocuments.Of(found.Record), found.Record.Statement.Language?.Value), cancellation);
        var photos = isWithheld ? darkroom.InspectAll(originals.Sources, At(progress, BuildStep.Inspect), cancellation) : darkroom.DevelopAll(originals.Orders, At(progress, BuildStep.Develop), cancellation);
        ImmutableArray<Diagnostic> diagnostics = [.. found.Diagnostics, .. originals.Faults(photos)];
        var errors = diagnostics.Count(diagnostic => diagnostic.Severity == Severity.Error);
        if (found.Theme is not { } theme || (errors > 0 && !order.WithErrors)) return Told(order, found.Record, diagnostics, new BuildEnding.Withheld());

        var contents = new SiteContents
        {
            Basis = basis,
            Plans = plans!.GetAwaiter().GetResult(),
            Theme = theme,
            Photos = originals.Published(photos),
            Findings = originals.Findings(photos),
            Errors = errors,
        };
        var small = contents.Photos.Values.SelectMany(photo => photo.Derivatives).Where(picture => picture.Width <= SmallPicture).Select(picture => picture.Path);
        publisher = new Publisher(site, shownAs) { Replace = order.Replace, Offline = new OfflineList(small.ToFrozenSet(StringComparer.Ordinal)) };
        var outcome = publisher.Publish(Files(contents, search!, originals.Files(photos)), last.Files, Making(progress), cancellation);
        switch (outcome)
        {
            case PublicationOutcome.Faulty faulty:
                return Told(order, found.Record, [.. diagnostics, .. faulty.Faults], new BuildEnding.Withheld());
            case PublicationOutcome.Refused refused:
                return Told(order, found.Record, diagnostics, new BuildEnding.Refused(refused.Why));
            case PublicationOutcome.Done done:
                var told = Told(order, found.Record, diagnostics, new BuildEnding.Published(done.Files, done.Written, done.Removed));
                new LastPublication(fingerprint, done.Files, Telling.All(diagnostics, ""), told.Count).Keep(order.Cache, site);
                return told;
            default:
                throw new InvalidOperationException($"{outcome} is not an outcome");
        }
    }

    /// <summary>Works one plan out; writes nothing but the cache.</summary>
    /// <param name="order">Of which record.</param>
    /// <param name="work">Works it out, once the record is found to be sound.</param>
    /// <param name="progress">Is told how far it is.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>The outcome of the check, and the plan; null where errors of the record stand in its way. Photos are not looked at: no plan rests on their files.</returns>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static (BuildOutcome Outcome, Plan? Plan) Plan(BuildOrder order, Func<PlanBasis, Plan> work, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var found = Examine(order, new ArchiveFolder(order.Content), progress, cancellation);
        var outcome = Told(order, found.Record, found.Diagnostics, new BuildEnding.Checked());
        return (outcome, found.HasErrors && !order.WithErrors ? null : work(new PlanBasis(found.Record, found.Standings)));
    }

    // All that the site will have, made one by one as the publisher asks for it. What lists the whole record (data, search) is gathered beside the pages, and asked for last.
    private static IEnumerable<SiteFile> Files(SiteContents contents, Task<ImmutableArray<SiteFile>> search, IEnumerable<SiteFile> pictures)
    {
        var gathered = Task.Run(() => DataFiles.Of(contents.Basis, contents.Plans).ToList());
        foreach (var page in SitePages.Of(contents)) yield return page;
        foreach (var picture in pictures) yield return picture;
        var data = gathered.GetAwaiter().GetResult();
        foreach (var file in data) yield return file;
        foreach (var file in PermanenceFiles.Of(contents.Record, data.Select(file => file.Path))) yield return file;
        foreach (var file in search.GetAwaiter().GetResult()) yield return file;
    }

    private static CheckedRecord Examine(BuildOrder order, ArchiveFolder folder, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        progress?.Report(new BuildProgress(BuildStep.Check, 0, 0));
        var found = CheckedRecord.Of(folder, new ThemeShelf(order.Themes), cancellation);
        progress?.Report(new BuildProgress(BuildStep.Check, 1, 1));
        return found;
    }

    private static BuildOutcome Told(BuildOrder order, AsFound record, IEnumerable<Diagnostic> diagnostics, BuildEnding ending) =>
        new(RecordCount.Of(record), Telling.All(diagnostics, order.PrefixFor), ending);

    private static Relay<PhotoProgress>? At(IProgress<BuildProgress>? progress, BuildStep step) =>
        progress is null ? null : new Relay<PhotoProgress>(photos => progress.Report(new BuildProgress(step, photos.Done, photos.Total)));

    private static Relay<int>? Making(IProgress<BuildProgress>? progress) =>
        progress is null ? null : new Relay<int>(made => progress.Report(new BuildProgress(BuildStep.Make, made, 0)));

    // Told at once and on the same thread, where System.Progress would queue.
    private sealed class Relay<T>(Action<T> report) : IProgress<T>
    {
        public void Report(T value) => report(value);
    }
}

using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Markup.Templates;
using Archive.Photos.Processing;
using Archive.Plans.Catalog;
using Archive.Publishing.Incremental;
using Archive.Publishing.Publication;
using Archive.Publishing.Requests;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Site;
using Archive.Site.Contents;
using Archive.Site.Data;
using Archive.Site.Permanence;

namespace Archive.Publishing.Building;

/// <summary>A record that was read and checked, and its site, of which nothing is made yet.</summary>
/// <param name="Record">What was read.</param>
/// <param name="Diagnostics">What is wrong with record, theme and photos.</param>
/// <param name="Parts">The parts of its site; none if errors prevent one.</param>
/// <param name="Offline">What devices keep of the site.</param>
internal sealed record PreparedSite(
    ArchiveModel Record, ImmutableArray<Diagnostic> Diagnostics, ImmutableArray<SitePart>? Parts, OfflineList? Offline)
{
    // Pixels: what devices keep of a photo for a hall without network.
    private const int SmallPicture = 480;

    /// <summary>Reads and checks a record, and develops its photos.</summary>
    /// <param name="fingerprint">Of the inputs.</param>
    /// <param name="memory">What is known from the build before.</param>
    /// <param name="isWhole">Whether all of the site will be made: what that needs is then calculated beside the photos.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    internal static PreparedSite Prepare(
        BuildOptions options,
        ArchiveFolder folder,
        Fingerprint fingerprint,
        BuildMemory memory,
        bool isWhole,
        IProgress<BuildProgress>? progress,
        CancellationToken cancellation)
    {
        var found = CheckedArchive.Check(
            folder, new ThemeLoader(options.Themes), (fingerprint, memory), today: null, progress, cancellation);
        var processor = new PhotoProcessor(options.Cache.Photos, memory: memory.Photos);
        var inspected = SiteBuild.Inspect(options, folder, found.Record, cancellation);
        found = found with { Diagnostics = [.. found.Diagnostics.Concat(inspected.Diagnostics).Order(Diagnostic.Order)] };
        var errorPlaces = new ErrorPlaces(found.Diagnostics);
        var documents = new DocumentsToPublish(inspected, errorPlaces);
        var originals = new Originals(found.Record, folder, errorPlaces, documents, processor, cancellation);
        var isWithheld = found.Theme is null || ((found.HasErrors || !originals.CopyErrors.IsEmpty) && !options.WithErrors);
        var context = found.Basis;
        var plans = new PlanSet(context);

        // What rests on no picture is calculated beside the pictures: neither fills two cores from its beginning to its end.
        var search = Later(() => SearchFiles.Create(found.Record, documents.TextOf, isWhole));
        var allPlans = Later(() => plans.All);
        if (isWhole && !isWithheld) (_, _) = (search.Value, allPlans.Value);
        var photos = isWithheld
            ? processor.InspectAll(originals.Sources, StepProgress.Photos(progress, BuildStep.Inspect), cancellation)
            : processor.DevelopAll(originals.Orders, StepProgress.Photos(progress, BuildStep.Develop), cancellation);
        ImmutableArray<Diagnostic> diagnostics = [.. found.Diagnostics, .. originals.Diagnostics(photos)];
        var errors = diagnostics.Count(diagnostic => diagnostic.Severity == Severity.Error);
        if (found.Theme is not { } theme || (errors > 0 && !options.WithErrors))
            return new PreparedSite(found.Record, diagnostics, null, null);

        if (isWhole) Wait(allPlans);
        var contents = new SiteContents
        {
            Basis = context,
            Plans = plans,
            Theme = theme,
            Photos = originals.Published(photos),
            Documents = documents.Given,
            Findings = originals.Findings(photos),
            Errors = errors,
        };
        var small = contents.Photos.Values
            .SelectMany(photo => photo.Derivatives)
            .Where(picture => picture.Width <= SmallPicture)
            .Select(picture => picture.Path);

        // What lists the whole record (data, search) is gathered beside the pages, and asked for last.
        var data = Later(() => DataFiles.Create(context, plans).ToList());
        if (isWhole) _ = data.Value;
        return new PreparedSite(
            found.Record,
            diagnostics,
            [
                .. SitePages.Parts(contents),
                originals.Files(photos),
                SitePart.Below(() => Wait(data), "data/"),
                SitePart.Below(
                    () => PermanenceFiles.Create(found.Record, Wait(data).Select(file => file.Path)),
                    "ro-crate-metadata.json", "sitemap", PermanenceFiles.Feed),
                SitePart.Below(() => Wait(search).All(Thumb), "search/"),
            ],
            new OfflineList(small.ToFrozenSet(StringComparer.Ordinal)));

        string? Thumb(string photo) => contents.Photos.TryGetValue(photo, out var published)
            ? published.Derivatives.MinBy(picture => picture.Width)?.Path
            : null;

        Lazy<Task<T>> Later<T>(Func<T> work) => new(() => Task.Run(work, cancellation));

        // Who is asked to stop does not wait for what is still calculated: it writes nothing.
        T Wait<T>(Lazy<Task<T>> work) => work.Value.WaitAsync(cancellation).GetAwaiter().GetResult();
    }
}

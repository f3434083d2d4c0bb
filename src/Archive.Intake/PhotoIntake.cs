using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Rendering;
using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Photos.Processing;
using Archive.Proposals;
using Archive.Publishing.Publication;
using Archive.Publishing.Requests;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Storage;

namespace Archive.Intake;

/// <summary>What a curator chooses for an intake.</summary>
/// <param name="Gap">A pause longer than this begins a new group.</param>
/// <param name="By">Who took the photos; null if that is unknown.</param>
/// <param name="View">The view of photos that say nothing of it; null if it is unknown.</param>
public sealed record IntakeChoices(TimeSpan Gap, string? By = null, string? View = null);

/// <summary>What an intake proposes.</summary>
/// <param name="Groups">The new photos, as they were taken.</param>
/// <param name="Left">Files that are left alone.</param>
/// <param name="Target">Where the photos and their sidecars stand: a folder of the archive, separated by <c>/</c>.</param>
/// <param name="IsCopied">Whether the photos come from outside the archive and are copied there.</param>
/// <param name="Faults">Why nothing can be taken in: errors of the sidecars that stand.</param>
public sealed record IntakeOutcome(
    ImmutableArray<IntakeGroup> Groups,
    ImmutableArray<SkippedPhoto> Left,
    string Target,
    bool IsCopied,
    ImmutableArray<RenderedDiagnostic> Faults)
{
    /// <summary>Frames whose labels were perhaps not read.</summary>
    public ImmutableArray<MissedLabel> Missed { get; init; } = [];

    /// <summary>The records of the photos, fact by fact.</summary>
    public ImmutableArray<Proposal> Proposals { get; init; } = [];

    /// <summary>The people of the archive, if it lists any and the photographer is none of them: then nothing was looked at.</summary>
    public ImmutableArray<string> OtherPeople { get; init; } = [];

    /// <summary>The archive, as it was looked at.</summary>
    public required ArchiveFolder Folder { get; init; }
}

/// <summary>
/// Takes new photos into an archive: finds what the record does not know, guesses what it shows, and proposes a record for each. Never
/// writes to a file that stands.
/// </summary>
public static class PhotoIntake
{
    private const string Unnameable = "has a name that a record cannot hold: give it a simpler one";

    /// <summary>Whether photos can be taken in from a folder: it is outside the archive, or in its <c>photos</c>.</summary>
    /// <param name="options">Which archive.</param>
    /// <param name="from">Full path of the folder.</param>
    public static bool IsPlace(BuildOptions options, string from) => IntakePlace.Find(options.Content, from) is not null;

    /// <summary>Looks at a folder. Nothing is written.</summary>
    /// <param name="options">Which archive.</param>
    /// <param name="from">Full path of the folder with the photos, for which <see cref="IsPlace"/> holds.</param>
    /// <exception cref="ArgumentException">The folder is no place for photos.</exception>
    /// <exception cref="IOException">A folder cannot be read.</exception>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    public static IntakeOutcome Look(
        BuildOptions options, string from, IntakeChoices choices, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var folder = new ArchiveFolder(options.Content);
        var parsed = RecordReader.Read(folder, cancellation);
        var place = IntakePlace.Find(options.Content, from)
            ?? throw new ArgumentException("an archive's photos belong in its photos folder", nameof(from));

        // What cannot be read may be the record of one of these photos: it would be recorded twice.
        var diagnostics = parsed.Diagnostics
            .Where(diagnostic => diagnostic.Severity == Severity.Error
                && diagnostic.Span.Source.Path.StartsWith("photos/", StringComparison.Ordinal))
            .ToList();
        if (diagnostics.Count > 0)
            return None(RenderedDiagnostic.FromAll(diagnostics, options.PrefixFor));
        if (choices.By is { } by && parsed.Statement?.People is { Count: > 0 } people && !people.ContainsKey(by))
            return None([]) with { OtherPeople = [.. people.Keys.Order(StringComparer.Ordinal)] };
        var (rejections, wrong) = Rejections.Read(folder);
        if (wrong.Any(diagnostic => diagnostic.Severity == Severity.Error))
            return None(RenderedDiagnostic.FromAll(wrong, options.PrefixFor));

        var record = ArchiveModel.From(
            parsed.Statement ?? new ArchiveStatement { Span = new SourceText("archive.yaml", "").Whole }, parsed.Records);
        var left = new List<SkippedPhoto>();
        var photos = Find(options, place, record, left, progress, cancellation);
        left.AddRange(photos.Where(IsRejected).Select(photo => new SkippedPhoto(photo.Path, "was rejected before")));
        photos.RemoveAll(IsRejected);
        var groups = new IntakeGrouping(new SubjectNames(record), NewIds.OfPhotos(record), choices.Gap, choices.View).Group(photos);
        var claimed = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        var taken = groups.Select(group =>
            group with
            {
                Photos = [.. group.Photos.Select(photo => Placed(photo, place, choices.By, claimed, left)).OfType<IntakePhoto>()],
            })
            .Where(group => group.Photos.Length > 0).ToImmutableArray();

        // The ids are free, so all of it is new.
        var facts = taken.SelectMany(group => group.Photos).SelectMany(photo => Proposed(photo, place, choices.By));
        return new IntakeOutcome(taken, [.. left.OrderBy(file => file.Path, StringComparer.Ordinal)], place.Target, place.IsCopied, [])
        {
            Missed = new MissedLabels(record).Find(taken),
            Proposals = ProposalFinder.Find(new CurrentRecords([]), facts),
            Folder = folder,
        };

        bool IsRejected(IncomingPhoto photo) => rejections.HasPicture(photo.Sha256);

        IntakeOutcome None(ImmutableArray<RenderedDiagnostic> faults) =>
            new([], [], place.Target, place.IsCopied, faults) { Folder = folder };
    }

    /// <summary>Copies the accepted photos if they come from outside, and writes their records, one photo after the other.</summary>
    /// <param name="options">Which archive.</param>
    /// <param name="from">The folder that was looked at.</param>
    /// <param name="changes">What the accepted proposals make of the record's files.</param>
    /// <exception cref="IOException">A folder cannot be written, or a photo changed meanwhile.</exception>
    /// <exception cref="OperationCanceledException">It was given up; what was written stands.</exception>
    public static FileChangeOutcome Write(
        BuildOptions options, string from, IntakeOutcome outcome, ProposedChanges changes, CancellationToken cancellation)
    {
        var place = IntakePlace.Find(options.Content, from)!;
        var photos = outcome.Groups.SelectMany(group => group.Photos)
            .ToDictionary(photo => $"{place.Target}/{photo.Sidecar}", StringComparer.Ordinal);
        var written = ImmutableArray.CreateBuilder<string>();
        foreach (var file in changes.Files)
        {
            cancellation.ThrowIfCancellationRequested();
            IntakeWriter.Copy(photos[file.Path], place);
            var one = FileChanges.Write(options.Content, [file]);
            written.AddRange(one.Written);
            if (!one.Refused.IsEmpty) return new FileChangeOutcome(written.ToImmutable(), one.Refused);
        }

        return new FileChangeOutcome(written.ToImmutable(), []);
    }

    private static IEnumerable<ProposedFact> Proposed(IntakePhoto photo, IntakePlace place, string? by) =>
        Sidecar.Facts(photo, by).Select(fact => new ProposedFact
        {
            RecordKind = RecordKind.Photo,
            RecordId = photo.Id,
            Key = fact.Key,
            Value = fact.Value,
            Comment = fact.Comment,
            File = $"{place.Target}/{photo.Sidecar}",
            Origin = new ProposalOrigin(photo.Path) { Sha256 = photo.Photo.Sha256 },
        });

    private static List<IncomingPhoto> Find(
        BuildOptions options,
        IntakePlace place,
        ArchiveModel record,
        List<SkippedPhoto> left,
        IProgress<BuildProgress>? progress,
        CancellationToken cancellation)
    {
        var recorded = record.Photos.Where(photo => photo.FilePath is not null).ToLookup(photo => photo.FilePath!, StringComparer.Ordinal);
        var sources = new List<PhotoSource>();
        foreach (var path in place.Files)
        {
            if (recorded[$"{place.Target}/{path}"].FirstOrDefault() is { } known && !place.IsCopied)
                left.Add(new SkippedPhoto(path, $"is already recorded as {known.Id}"));
            else sources.Add(new PhotoSource(place.FullPath(path), path));
        }

        var processor = new PhotoProcessor(options.Cache.Photos);
        var outcomes = processor.ScanAll(sources, progress is null ? null : new Steps(progress), cancellation);
        var bySum = Recorded(options, record, processor);
        var incoming = new List<IncomingPhoto>();
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);
        var raws = new List<string>();
        foreach (var (source, outcome) in sources.Zip(outcomes))
        {
            if (outcome is UnusablePhoto { Fault: PhotoError.Raw }) raws.Add(source.Path);
            else if (outcome is not ScannedPhoto photo)
                left.Add(new SkippedPhoto(source.Path, (outcome as UnusablePhoto)?.Reason ?? "cannot be used"));
            else if (bySum[photo.Sha256].FirstOrDefault() is { } copy)
                left.Add(new SkippedPhoto(source.Path, $"is the same picture as {copy}, which is already recorded"));
            else if (seen.TryAdd(photo.Sha256, incoming.Count))
                incoming.Add(new IncomingPhoto(source.Path, photo.Sha256, photo.Reading, photo.Codes));
            else if (seen[photo.Sha256] is var first && (Sidecar.CanName(incoming[first].FileName) || !Sidecar.CanName(
                Path.GetFileName(source.Path)))) left.Add(new SkippedPhoto(source.Path, $"is the same picture as {incoming[first].Path}"));
            else
            {
                left.Add(new SkippedPhoto(incoming[first].Path, $"{Unnameable}; {source.Path} is the same picture"));
                incoming[first] = incoming[first] with { Path = source.Path };
            }
        }

        AddRaw(incoming, raws, place, left);
        return incoming;
    }

    // A camera names what it writes of one picture alike: IMG_0012.JPG and IMG_0012.DNG.
    private static void AddRaw(List<IncomingPhoto> photos, List<string> raws, IntakePlace place, List<SkippedPhoto> left)
    {
        var byName = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        for (var at = 0; at < photos.Count; at++) byName.TryAdd(Path.ChangeExtension(photos[at].Path, null), at);
        foreach (var path in raws)
        {
            if (byName.TryGetValue(Path.ChangeExtension(path, null), out var at) && photos[at].Raw is null)
                photos[at] = photos[at] with { Raw = new RawFile(path, SiteTree.Sha256Of(place.FullPath(path))) };
            else left.Add(new SkippedPhoto(path, "is a RAW picture, which is not developed: no new photo of the same name is beside it"));
        }
    }

    // Ids of recorded photos by checksum; of those that state none it is taken.
    private static ILookup<string, string> Recorded(BuildOptions options, ArchiveModel record, PhotoProcessor processor)
    {
        var unstated = record.Photos.Where(photo => photo.Sha256 is null && photo.FilePath is not null).ToList();
        var seen = processor.InspectAll(
            [.. unstated.Select(photo => new PhotoSource(Path.Combine(options.Content, photo.FilePath!), photo.FilePath!))]);
        return record.Photos.Where(photo => photo.Sha256 is not null).Select(photo => (Sum: photo.Sha256!.Value.Value, photo.Id))
            .Concat(unstated
                .Zip(seen)
                .Where(pair => pair.Second is InspectedPhoto)
                .Select(pair => (Sum: ((InspectedPhoto)pair.Second).Sha256, pair.First.Id)))
            .ToLookup(pair => pair.Sum, pair => pair.Id, StringComparer.Ordinal);
    }

    private static IntakePhoto? Placed(
        IntakePhoto photo, IntakePlace place, string? by, HashSet<string> claimed, List<SkippedPhoto> left)
    {
        string[] names = [Path.ChangeExtension(photo.Path, ".yaml"), photo.Path + ".yaml"];
        var sidecar = Array.Find(names, name => !Path.Exists(place.TargetOf(name))
            && !Path.Exists(Path.ChangeExtension(place.TargetOf(name), ".yml"))
            && claimed.Add(name));
        var why = sidecar is null ? "has a file with its sidecar's name beside it, about something else; existing text is never overwritten"
            : place.IsCopied && IsTaken(photo.Path, photo.Photo.Sha256)
            ? "has the same name as another file in the archive"
            : place.IsCopied && photo.Photo.Raw is { } raw && IsTaken(raw.Path, raw.Sha256)
            ? $"has a RAW file, {raw.Path}, with the same name as another file in the archive"
            : !Sidecar.IsSound(Sidecar.Text(photo, by), photo.Photo.FileName)
            ? Unnameable
            : null;
        if (why is null) return photo with { Sidecar = sidecar! };
        left.Add(new SkippedPhoto(photo.Path, why));
        return null;

        bool IsTaken(string path, string sha256) => Path.Exists(place.TargetOf(path)) && !IntakeWriter.IsCopied(path, sha256, place);
    }

    private sealed class Steps(IProgress<BuildProgress> progress) : IProgress<PhotoProgress>
    {
        public void Report(PhotoProgress value) => progress.Report(new BuildProgress(BuildStep.Inspect, value.Done, value.Total));
    }
}

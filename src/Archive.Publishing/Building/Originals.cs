using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using Archive.Diagnostics;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Photos.Measures;
using Archive.Photos.Processing;
using Archive.Photos.Rights;
using Archive.Plans.Survey;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Storage.Output;

namespace Archive.Publishing.Building;

/// <summary>The photos of a record as the darkroom takes them, and what came of them as the record and the pages take it.</summary>
internal sealed class Originals
{
    private readonly ArchiveModel _record;
    private readonly IArchiveFolder _folder;
    private readonly PhotoProcessor _processor;
    private readonly CancellationToken _cancellation;

    private readonly ErrorPlaces _errors;

    // Pages of documents are shown as photos are; which document each is of, by the id of the picture.
    private readonly FrozenDictionary<string, Document> _documents;

    // What is true of a picture is found once, however many records speak of it.
    private readonly ConcurrentDictionary<SourceSpan, (bool HoldsError, ImmutableArray<ImageBox> Hidden)> _pictures = new();

    // Withdrawn photos are not shown; one whose file leaves the archive was reported by its reader.
    private readonly ImmutableArray<Photo> _photos;

    // Records that speak of the same picture, withdrawn ones too: what one of them hides, none may show.
    private readonly SamePictures _same;
    private FrozenDictionary<SourceSpan, SharedOriginal>? _shared;

    /// <summary>The photos of a record.</summary>
    /// <param name="folder">The archive's folder.</param>
    /// <param name="errors">Where errors stand. A photo whose own lines hold one is never shown.</param>
    /// <param name="documents">Documents with pages that are pictures.</param>
    /// <param name="processor">Where the pictures are looked at.</param>
    /// <exception cref="IOException">The cache cannot be written.</exception>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    internal Originals(
        ArchiveModel record,
        IArchiveFolder folder,
        ErrorPlaces errors,
        DocumentsToPublish documents,
        PhotoProcessor processor,
        CancellationToken cancellation)
    {
        (_record, _folder, _processor, _cancellation) = (record, folder, processor, cancellation);
        _errors = errors;
        _documents = documents.Pictures.ToFrozenDictionary(page => page.Picture.Id, page => page.Of, StringComparer.Ordinal);
        var pages = documents.Pictures.Select(page => page.Picture).ToList();
        _photos =
        [
            .. record.Photos.Where(photo => !photo.IsWithdrawn && photo.File is not null && photo.FilePath is not null),
            .. pages
        ];
        _same = SamePictures.Find(
            [.. record.Photos.Where(photo => photo.FilePath is not null), .. pages, .. documents.HiddenPictures],
            photo => Hides(photo) || HoldsErrorItself(photo),
            Source,
            processor,
            cancellation);
        CopyErrors = [.. new HiddenCopies(_photos, _same).Errors()];
    }

    /// <summary>Records that show what another record of the same bytes hides.</summary>
    internal ImmutableArray<Diagnostic> CopyErrors { get; }

    internal ImmutableArray<PhotoSource> Sources => [.. _photos.Select(Source)];

    /// <summary>Each with what must not be shown of it.</summary>
    internal ImmutableArray<OpenedPhoto> WithHiddenParts =>
        [.. _photos.Select(photo => new OpenedPhoto(photo, Source(photo), [.. Hidden(photo).Select(Part)]))];

    /// <summary>What is to be made of each.</summary>
    internal ImmutableArray<PhotoRequest> Orders => [.. _photos.Select(photo => new PhotoRequest(Source(photo), Recipe(photo)))];

    /// <summary>
    /// What is wrong with them, reported at the record's own lines. Where the checksum differs and what is there is no photo at all, both
    /// are reported.
    /// </summary>
    /// <param name="outcomes">What came of each, in the order of <see cref="Sources"/>.</param>
    /// <exception cref="IOException">The cache cannot be written.</exception>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    internal ImmutableArray<Diagnostic> Diagnostics(ImmutableArray<PhotoResult> outcomes)
    {
        var similar = new Lazy<ILookup<string, string>>(() =>
            _folder.Files.ToLookup(path => Path.ChangeExtension(path, null), StringComparer.OrdinalIgnoreCase));
        return Diagnostics(outcomes, similar);
    }

    // Cameras write .JPG, and people .jpg.
    private static Diagnostic Helped(UnusablePhoto photo, Diagnostic told, Lazy<ILookup<string, string>> similar)
    {
        if (photo.Fault != PhotoError.Missing) return told;
        var near = similar.Value[Path.ChangeExtension(photo.Path, null)]
            .FirstOrDefault(path => Path.GetExtension(path) is not (".yaml" or ".yml"));
        if (near is null) return told;
        return told with { Help = $"did you mean `{Path.GetFileName(near)}`? Letter case counts in the names of files" };
    }

    private ImmutableArray<Diagnostic> Diagnostics(ImmutableArray<PhotoResult> outcomes, Lazy<ILookup<string, string>> similar)
    {
        var spoiled = outcomes.Zip(
            _photos).Where(pair => pair.First is UnusablePhoto).Select(pair => ((UnusablePhoto)pair.First, pair.Second)).ToList();
        var altered = spoiled.Where(pair => pair.Item1.Fault == PhotoError.ChecksumMismatch).Select(pair => pair.Item2).ToList();
        var again = _processor.InspectAll([.. altered.Select(photo => Source(photo) with { Sha256 = null })], null, _cancellation);
        return
        [
            .. CopyErrors,
            .. new HiddenCopies(_photos, _same).LookAlikes([.. _photos.Where(Hides), .. HidingUnseen], Measures(outcomes)),
            .. spoiled.Concat(again.Zip(altered)
                .Where(pair => pair.First is UnusablePhoto)
                .Select(pair => ((UnusablePhoto)pair.First, pair.Second)))
                .Select(pair => Helped(pair.Item1, pair.Item1.At(Span(pair.Item1, pair.Item2)), similar)),
            .. outcomes
                .Zip(_photos)
                .Where(pair => pair.First is ReadPhoto { Reading.Pictures: > 1 })
                .Select(pair => FirstOnly(pair.Second, ((ReadPhoto)pair.First).Reading.Pictures)),
            .. Shared(outcomes).Values.Select(shared => shared.Told).OfType<Diagnostic>(),
            .. _photos
                .Where(photo => IsShared(photo) && !Hidden(photo).IsEmpty)
                .Select(photo => Archive.Diagnostics.Descriptors.DiagnosticDescriptors.OriginalWithHiddenParts.At(
                    photo.PublishOriginal!.Value.Span, "this original would show what `redact` hides, so it is not published",
                    "leave out `publish_original`, or use a copy of the picture without the hidden parts")),
        ];
    }

    /// <summary>The developed ones as pages show them, by photo id.</summary>
    /// <param name="outcomes">What came of each, in the order of <see cref="Sources"/>.</param>
    internal FrozenDictionary<string, PublishedPhoto> Published(ImmutableArray<PhotoResult> outcomes) => Developed(outcomes)
        .ToFrozenDictionary(
            pair => pair.Photo.Id,
            pair => Published(pair.Prints, Shared(outcomes).GetValueOrDefault(pair.Photo.Span)?.File),
            StringComparer.Ordinal);

    /// <summary>Their pictures as files of the site. Two photos of the same bytes share theirs.</summary>
    /// <param name="outcomes">What came of each, in the order of <see cref="Sources"/>.</param>
    internal SitePart Files(ImmutableArray<PhotoResult> outcomes)
    {
        // A path leads to the pictures of one photo: its folder, or the original itself, is named by the first three parts.
        var shared = Shared(outcomes);
        var photos = Developed(outcomes).Select(pair => (pair.Prints, Original: shared.GetValueOrDefault(pair.Photo.Span)?.File)).ToList();
        var byFolder = new Lazy<ILookup<string, (DevelopedPhoto Prints, CopiedFile? Original)>>(() => photos
            .SelectMany(photo => photo.Original is { } original
                ? [(FolderOf(photo.Prints), photo), (original.Path, photo)]
                : new[] { (Folder: FolderOf(photo.Prints), photo) })
            .ToLookup(pair => pair.Folder, pair => pair.photo, StringComparer.Ordinal));
        return SitePart.Near(
            () => photos.SelectMany(photo => FilesOf(photo.Prints, photo.Original)).DistinctBy(file => file.Path, StringComparer.Ordinal),
            path => path.StartsWith("images/", StringComparison.Ordinal)
                ? byFolder.Value[string.Join('/', path.Split('/').Take(3))].SelectMany(photo => FilesOf(photo.Prints, photo.Original))
                : []);
    }

    private static IEnumerable<OutputFile> FilesOf(DevelopedPhoto prints, CopiedFile? original) =>
        prints.All.Select(OutputFile (derivative) =>
            new ExcerptFile(PathOf(prints, derivative), derivative.Portfolio, derivative.Offset, derivative.Bytes, derivative.Sha256))
            .Concat(original is null ? [] : [original]);

    /// <summary>What was found of the photos themselves.</summary>
    /// <param name="outcomes">What came of each, in the order of <see cref="Sources"/>.</param>
    internal PhotoFindings Findings(ImmutableArray<PhotoResult> outcomes) =>
        PhotoFindings.Compute([.. outcomes
            .Zip(_photos)
            .Where(pair => MeasuresOf(pair.First) is not null && !_documents.ContainsKey(pair.Second.Id))
            .Select(pair => (pair.Second, ((ReadPhoto)pair.First).Reading, MeasuresOf(pair.First)!))]);

    // What was measured of each, and of withdrawn ones that hide something, which are in no outcome; nothing where no pixel was looked at.
    private Dictionary<SourceSpan, PhotoMeasures> Measures(ImmutableArray<PhotoResult> outcomes)
    {
        var measures = new Dictionary<SourceSpan, PhotoMeasures>();
        Add(_photos, outcomes);
        var withdrawn = measures.Count == 0 ? [] : HidingUnseen.ToList();
        Add(withdrawn, _processor.MeasureAll([.. withdrawn.Select(Source)], null, _cancellation));

        return measures;

        void Add(IEnumerable<Photo> photos, IEnumerable<PhotoResult> found)
        {
            foreach (var (photo, outcome) in photos.Zip(found))
            {
                if (MeasuresOf(outcome) is { } known) measures[photo.Span] = known;
            }
        }
    }

    // Withdrawn photos are not shown, but what they hide is hidden for good.
    private IEnumerable<Photo> HidingUnseen =>
        _record.Photos.Where(photo => photo.IsWithdrawn && photo.FilePath is not null && Hides(photo));

    private static bool Hides(Photo photo) => !photo.Redact.IsEmpty;

    private static PhotoMeasures? MeasuresOf(PhotoResult outcome) => outcome switch
    {
        DevelopedPhoto developed => developed.Measures,
        MeasuredPhoto measured => measured.Measures,
        _ => null,
    };

    private static Diagnostic FirstOnly(Photo photo, int pictures) =>
        Archive.Diagnostics.Descriptors.DiagnosticDescriptors.FirstPictureOnly.At(
            photo.File!.Value.Span,
            $"photo `{photo.FilePath}` holds {(pictures >= PhotoHeader.MostPictures ? "many" : Phrase.Count(pictures))} pictures, and only the first is shown",
            "to show the others, save each as a file with a record of its own");

    private static PublishedPhoto Published(DevelopedPhoto developed, CopiedFile? original) => new(
        developed.Reading.Width,
        developed.Reading.Height,
        developed.Reading.Taken?.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture),
        [.. developed.Derivatives.Select(derivative =>
            new PublishedPicture(derivative.Width, derivative.Height, PathOf(developed, derivative)))])
    {
        LightDerivatives = [.. developed.LightPrints.Select(derivative =>
            new PublishedPicture(derivative.Width, derivative.Height, PathOf(developed, derivative)))],
        Credited = developed.Credited is { } copy ? new PublishedPicture(copy.Width, copy.Height, PathOf(developed, copy)) : null,
        Folder = FolderOf(developed),
        Pyramid = new TilePyramid(developed.Reading.Width, developed.Reading.Height),
        Original = original?.Path,
        IsStripped = original is not null && original.Sha256 != developed.Sha256,
    };

    private static string FolderOf(DevelopedPhoto developed) => $"images/{developed.Folder}";

    private static string PathOf(DevelopedPhoto developed, Derivative derivative) => $"{FolderOf(developed)}/{derivative.Path}";

    // Originals that are published, by where their records stand: looked through, or stripped, once.
    private FrozenDictionary<SourceSpan, SharedOriginal> Shared(ImmutableArray<PhotoResult> outcomes) =>
        _shared ??= SharedOriginals.Find([.. outcomes
            .Zip(_photos)
            .Where(pair => pair.First is ReadPhoto && IsShared(pair.Second) && Hidden(pair.Second).IsEmpty)
            .Select(pair => (pair.Second, Source(pair.Second)))], _processor, _cancellation);

    private static SourceSpan Span(UnusablePhoto spoiled, Photo photo) =>
        spoiled.Fault == PhotoError.ChecksumMismatch && photo.Sha256 is { } stated ? stated.Span : photo.File!.Value.Span;

    private IEnumerable<(Photo Photo, DevelopedPhoto Prints)> Developed(ImmutableArray<PhotoResult> outcomes) =>
        outcomes
            .Zip(_photos)
            .Where(pair => pair.First is DevelopedPhoto && !HoldsError(pair.Second))
            .Select(pair => (pair.Second, (DevelopedPhoto)pair.First));

    private ImmutableArray<ImageBox> Hidden(Photo photo) => PictureOf(photo).Hidden;

    private static bool IsShared(Photo photo) => photo.PublishOriginal is { Value: not OriginalSharing.False };

    private bool HoldsError(Photo photo) => PictureOf(photo).HoldsError;

    private (bool HoldsError, ImmutableArray<ImageBox> Hidden) PictureOf(Photo photo)
    {
        var all = _same.GroupOf(photo);
        return _pictures.GetOrAdd(all[0].Span, _ =>
            (all.Any(HoldsErrorItself), [.. all.SelectMany(other => other.Redact).Select(redaction => redaction.Box.Value).Distinct()]));
    }

    private bool HoldsErrorItself(Photo photo) => _errors.IsIn(photo.Span);

    private PhotoSource Source(Photo photo) =>
        new(_folder.FullPath(photo.FilePath!) ?? photo.FilePath!, photo.FilePath!, photo.Sha256?.Value);

    private PhotoRecipe Recipe(Photo photo)
    {
        if (_documents.TryGetValue(photo.Id, out var document)) return Recipe(photo, document);
        var statement = _record.Statement;
        var creator = photo.By is { } by ? statement.People.GetValueOrDefault(by.Value)?.Name?.Value ?? by.Value : null;
        return new PhotoRecipe
        {
            Watermark = statement.Watermark?.Value is { } line && CreditText.Unfit(line) is null ? line : null,
            Redactions = [.. Hidden(photo).Select(Part)],
            Rights = Rights(photo.Title, creator, statement.Licence?.Value, photo),
        };
    }

    // The mark says the archive's own credit and licence, which a document with others does not have.
    private PhotoRecipe Recipe(Photo page, Document of) => new()
    {
        Watermark = of.Rights is null && _record.Statement.Watermark?.Value is { } line && CreditText.Unfit(line) is null ? line : null,
        Redactions = [.. Hidden(page).Select(Part)],
        Rights = Rights(of.Title, of.Author?.Value, (of.Rights ?? _record.Statement.Licence)?.Value, of),
    };

    private PhotoRights Rights(string title, string? creator, string? licence, ArchiveRecord of) => new(
        title,
        creator,
        _record.Statement.Credit?.Value,
        licence,
        _record.Statement.Base?.Value is { } address ? new Uri(address, PagePaths.For(of)).ToString() : null)
    {
        LicenceAddress = licence is null ? null : LicenceText.AddressOf(licence),
    };

    private static FractionBox Part(ImageBox box) => new(box.Left, box.Top, box.Width, box.Height);
}

using System.Collections.Immutable;
using System.Runtime.ExceptionServices;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Photos.Measures;
using Archive.Photos.Metadata;
using Archive.Photos.QrCodes;
using Archive.Storage;

namespace Archive.Photos.Processing;

/// <summary>Inspects and develops originals, many at a time, and keeps what it made in a folder.</summary>
/// <remarks>
/// One original a worker, each in one stream: memory grows with the workers, not with the photos. Several runs may use one folder at once.
/// An instance holds no state but its folder and may be used from several threads.
/// </remarks>
public sealed class PhotoProcessor
{
    // Above this many pixels photos are developed one at a time, whatever the workers: what one may hold is bounded, what all hold is too.
    private const long GiantPixels = 100_000_000;

    private readonly Lock _giants = new();
    private readonly int _workers;
    private readonly FileStampCache _cards;
    private readonly DerivativeCache _portfolios;
    private readonly ContentCache<PhotoMeasures> _measures;
    private readonly ContentCache<string[]> _codes;
    private readonly ContentCache<PrivateNote[]> _notes;
    private readonly StrippedCopies _stripped;
    private readonly PhotoMemory? _memory;

    /// <summary>A darkroom.</summary>
    /// <param name="cacheFolder">The folder in which prints are kept; it may be shared, and may be deleted between runs.</param>
    /// <param name="workers">Photos in work at once; 0 for one a core.</param>
    /// <param name="clock">Tells how fresh a file is; null for the system's.</param>
    /// <param name="memory">What earlier runs of this process developed; null for nothing.</param>
    public PhotoProcessor(string cacheFolder, int workers = 0, TimeProvider? clock = null, PhotoMemory? memory = null)
    {
        _memory = memory;
        ArgumentOutOfRangeException.ThrowIfNegative(workers);
        var cache = new FileCache(Path.GetFullPath(cacheFolder));
        _workers = workers == 0 ? Environment.ProcessorCount : workers;
        _cards = new FileStampCache(cache, clock ?? TimeProvider.System);
        _portfolios = new DerivativeCache(cache);
        _measures = new ContentCache<PhotoMeasures>(cache, "measures-2", CacheJson.Default.PhotoMeasures);
        _codes = new ContentCache<string[]>(cache, "codes-1", CacheJson.Default.StringArray);
        _notes = new ContentCache<PrivateNote[]>(cache, "notes-1", CacheJson.Default.PrivateNoteArray);
        _stripped = new StrippedCopies(cache);
        cache.Sweep(_cards.Now.UtcDateTime - TimeSpan.FromDays(1));
    }

    /// <summary>Inspects originals without decoding them: are they there, are they the ones the record names, can their headers be
    /// read.</summary>
    /// <param name="progress">Reports after each.</param>
    /// <param name="cancel">Stops the run between two originals.</param>
    /// <returns>An <see cref="InspectedPhoto"/> or a <see cref="UnusablePhoto"/> for each, in the order given.</returns>
    /// <exception cref="IOException">The cache folder cannot be written.</exception>
    /// <exception cref="OperationCanceledException">The run was stopped.</exception>
    public ImmutableArray<PhotoResult> InspectAll(
        IReadOnlyList<PhotoSource> sources, IProgress<PhotoProgress>? progress = null, CancellationToken cancel = default) =>
        RunAll(sources, source => source, source => (Inspect(source).Photo, false), progress, cancel);

    /// <summary>
    /// Checksums of originals that may be copies of each other: sizes are compared first, so that a picture of which there can be no copy
    /// is not read.
    /// </summary>
    /// <param name="sources">The originals; the checksums they state do not matter.</param>
    /// <param name="isSought">Whether copies of an original are sought, by its place in the list.</param>
    /// <param name="cancel">Stops the run between two originals.</param>
    /// <returns>The SHA-256 of each, lower-case hexadecimal, in the order given; null of one that has the size of none that is sought, or
    /// cannot be used.</returns>
    /// <exception cref="IOException">The cache folder cannot be written.</exception>
    /// <exception cref="OperationCanceledException">The run was stopped.</exception>
    public ImmutableArray<string?> ChecksumsOfCopies(
        IReadOnlyList<PhotoSource> sources, Func<int, bool> isSought, CancellationToken cancel = default)
    {
        var found = new string?[sources.Count];
        var sizes = sources.Select(source => SizeOf(source.FullPath)).ToList();
        var concerned = Enumerable.Range(0, sources.Count).Where(i => sizes[i] is not null).GroupBy(i => sizes[i])
            .Where(size => size.DistinctBy(i => sources[i].FullPath, StringComparer.Ordinal).Skip(1).Any() && size.Any(isSought))
            .SelectMany(size => size)
            .ToList();
        var inspected = InspectAll([.. concerned.Select(i => sources[i] with { Sha256 = null })], null, cancel);
        foreach (var (i, outcome) in concerned.Zip(inspected)) found[i] = (outcome as ReadPhoto)?.Sha256;
        return ImmutableCollectionsMarshal.AsImmutableArray(found);
    }

    /// <summary>Measures originals; those that are unchanged since an earlier run, or were developed before, are not decoded.</summary>
    /// <param name="progress">Reports after each.</param>
    /// <param name="cancel">Stops the run between two originals; what was measured is kept.</param>
    /// <returns>A <see cref="MeasuredPhoto"/> or a <see cref="UnusablePhoto"/> for each, in the order given.</returns>
    /// <exception cref="IOException">The cache folder cannot be written.</exception>
    /// <exception cref="OperationCanceledException">The run was stopped.</exception>
    public ImmutableArray<PhotoResult> MeasureAll(
        IReadOnlyList<PhotoSource> sources, IProgress<PhotoProgress>? progress = null, CancellationToken cancel = default) =>
        RunAll(sources, source => source, Measure, progress, cancel);

    /// <summary>Reads the QR codes that stand in originals; those that are unchanged since an earlier run are not decoded.</summary>
    /// <param name="progress">Reports after each.</param>
    /// <param name="cancel">Stops the run between two originals; what was read is kept.</param>
    /// <returns>A <see cref="ScannedPhoto"/> or a <see cref="UnusablePhoto"/> for each, in the order given.</returns>
    /// <exception cref="IOException">The cache folder cannot be written.</exception>
    /// <exception cref="OperationCanceledException">The run was stopped.</exception>
    public ImmutableArray<PhotoResult> ScanAll(
        IReadOnlyList<PhotoSource> sources, IProgress<PhotoProgress>? progress = null, CancellationToken cancel = default) =>
        RunAll(sources, source => source, Scan, progress, cancel);

    /// <summary>
    /// Looks originals through for what they tell beside their pictures; those that are unchanged since an earlier run are not read again.
    /// </summary>
    /// <param name="cancel">Stops the run between two originals.</param>
    /// <returns>A <see cref="NotedPhoto"/> or a <see cref="UnusablePhoto"/> for each, in the order given.</returns>
    /// <exception cref="IOException">The cache folder cannot be written.</exception>
    /// <exception cref="OperationCanceledException">The run was stopped.</exception>
    public ImmutableArray<PhotoResult> FindNotes(IReadOnlyList<PhotoSource> sources, CancellationToken cancel = default) =>
        RunAll(sources, source => source, Note, null, cancel);

    /// <summary>
    /// Makes copies of originals that hold their pictures and nothing beside them, and reads them back; copies that an earlier run made are
    /// read, not made again.
    /// </summary>
    /// <param name="cancel">Stops the run between two originals; copies that were made are kept.</param>
    /// <returns>A <see cref="StrippedPhoto"/> or a <see cref="UnusablePhoto"/> for each, in the order given.</returns>
    /// <exception cref="IOException">The cache folder cannot be written.</exception>
    /// <exception cref="OperationCanceledException">The run was stopped.</exception>
    public ImmutableArray<PhotoResult> StripAll(IReadOnlyList<PhotoSource> sources, CancellationToken cancel = default) =>
        RunAll(sources, source => source, Strip, null, cancel);

    /// <summary>Develops originals; those that are unchanged since an earlier run cost a look and a small read each.</summary>
    /// <param name="orders">What is to be made of which original.</param>
    /// <param name="progress">Reports after each.</param>
    /// <param name="cancel">Stops the run between two originals; what was made is kept.</param>
    /// <returns>A <see cref="DevelopedPhoto"/> or a <see cref="UnusablePhoto"/> for each, in the order given.</returns>
    /// <exception cref="IOException">The cache folder cannot be written, or the watermark's font cannot be used.</exception>
    /// <exception cref="OperationCanceledException">The run was stopped.</exception>
    public ImmutableArray<PhotoResult> DevelopAll(
        IReadOnlyList<PhotoRequest> orders, IProgress<PhotoProgress>? progress = null, CancellationToken cancel = default) =>
        RunAll(orders, request => request.Source, Develop, progress, cancel);

    /// <summary>Decodes one original, for work that needs its pixels; nothing is kept.</summary>
    /// <param name="source">The original.</param>
    /// <param name="hidden">Parts that are painted black.</param>
    /// <param name="mostPixels">A larger picture is made half as large until it has no more.</param>
    /// <returns>A <see cref="DecodedPhoto"/> or a <see cref="UnusablePhoto"/>.</returns>
    /// <exception cref="IOException">The cache folder cannot be written.</exception>
    public PhotoResult Decode(PhotoSource source, IReadOnlyCollection<FractionBox> hidden, long mostPixels) =>
        RunAll([source], one => one, one => Pixels(one, hidden, mostPixels), null, default)[0];

    private (PhotoResult Photo, bool Decoded) Pixels(PhotoSource source, IReadOnlyCollection<FractionBox> hidden, long mostPixels)
    {
        var (photo, mark) = Inspect(source);
        using var alone = Alone(photo.Reading);
        var picture = ImageReader.Decode(source.FullPath, photo.Reading);
        try
        {
            RequireUnchanged(source.FullPath, mark);
            picture.Redact(hidden);
            while ((long)picture.Width * picture.Height > mostPixels)
            {
                var half = picture.Half();
                picture.Dispose();
                picture = half;
            }

            var pixels = new byte[picture.Width * picture.Height * PixelBuffer.Bands];
            for (var y = 0; y < picture.Height; y++) picture.Row(y).CopyTo(pixels.AsSpan(y * picture.Width * PixelBuffer.Bands));
            return (new DecodedPhoto(photo.Sha256, photo.Reading, picture.Width, picture.Height, pixels), true);
        }
        finally
        {
            picture.Dispose();
        }
    }

    private (PhotoResult Photo, bool Decoded) Develop(PhotoRequest request)
    {
        if (_memory?.Find(request) is { } remembered) return (remembered, false);
        var lookedAt = _cards.Now;
        var (photo, mark) = Inspect(request.Source);
        var key = request.Recipe.KeyFor(photo.Sha256);
        if (_portfolios.Find(key) is { } ready)
        {
            var found = new DevelopedPhoto(photo.Sha256, photo.Reading, ready.Measures, ready.Derivatives);
            var isSettled = FileTimes.AreSettled(new DateTime(mark.Changed, DateTimeKind.Utc), lookedAt.UtcDateTime);
            if (isSettled) _memory?.Keep(request, mark, found);
            return (found, false);
        }

        if (_portfolios.FindPixels(key) is var (known, pictures))
        {
            var rights = new RightsWriter(request.Recipe.Rights);
            var restated = _portfolios.Keep(key, known, [.. pictures.Select(picture => rights.Put(RightsWriter.Bare(picture)))]);
            return (new DevelopedPhoto(photo.Sha256, photo.Reading, known, restated.Derivatives), false);
        }

        using var alone = Alone(photo.Reading);
        var prints = new List<Rendition>();
        var measures = DerivativeGenerator.Enlarge(request.Source.FullPath, photo.Reading, request.Recipe, prints.Add);
        RequireUnchanged(request.Source.FullPath, mark);
        _measures.Keep(photo.Sha256, measures);
        return (new DevelopedPhoto(photo.Sha256, photo.Reading, measures, _portfolios.Keep(key, measures, prints).Derivatives), true);
    }

    private (PhotoResult Photo, bool Decoded) Measure(PhotoSource source)
    {
        var (photo, mark) = Inspect(source);
        if (_measures.Find(photo.Sha256) is { } known) return (new MeasuredPhoto(photo.Sha256, photo.Reading, known), false);
        using var alone = Alone(photo.Reading);
        using var pixels = ImageReader.Decode(source.FullPath, photo.Reading);
        var measures = PhotoMeasures.Compute(pixels);
        RequireUnchanged(source.FullPath, mark);
        _measures.Keep(photo.Sha256, measures);
        return (new MeasuredPhoto(photo.Sha256, photo.Reading, measures), true);
    }

    private (PhotoResult Photo, bool Decoded) Scan(PhotoSource source)
    {
        var (photo, mark) = Inspect(source);
        if (_codes.Find(photo.Sha256) is { } known) return (new ScannedPhoto(photo.Sha256, photo.Reading, [.. known]), false);
        using var alone = Alone(photo.Reading);
        var codes = QrCodeReader.Read(source.FullPath, photo.Reading);
        RequireUnchanged(source.FullPath, mark);
        _codes.Keep(photo.Sha256, codes);
        return (new ScannedPhoto(photo.Sha256, photo.Reading, [.. codes]), true);
    }

    private (PhotoResult Photo, bool Decoded) Note(PhotoSource source)
    {
        var (photo, mark) = Inspect(source);
        if (_notes.Find(photo.Sha256) is { } known) return (new NotedPhoto(photo.Sha256, photo.Reading, [.. known]), false);
        var notes = Readable(() => PrivateNotes.In(source.FullPath, photo.Reading.Format));
        RequireUnchanged(source.FullPath, mark);
        _notes.Keep(photo.Sha256, notes);
        return (new NotedPhoto(photo.Sha256, photo.Reading, [.. notes]), false);
    }

    private (PhotoResult Photo, bool Decoded) Strip(PhotoSource source)
    {
        var (photo, mark) = Inspect(source);
        if (_stripped.Find(photo.Sha256) is not { } copy)
        {
            copy = _stripped.Make(photo.Sha256, source.FullPath, photo.Reading, () => RequireUnchanged(source.FullPath, mark));
        }

        return (new StrippedPhoto(photo.Sha256, photo.Reading, copy.Path, copy.Sha256), false);
    }

    private Lock.Scope Alone(PhotoHeader reading) => (long)reading.Width * reading.Height > GiantPixels ? _giants.EnterScope() : default;

    private (InspectedPhoto Photo, FileStamp Mark) Inspect(PhotoSource source)
    {
        var readAt = _cards.Now;
        var mark = FileStamp.Read(source.FullPath);
        var card = _cards.Find(source.FullPath, mark);
        var sha256 = card?.Sha256 ?? Checksum(source.FullPath);
        if (source.Sha256 is { } stated && !string.Equals(stated, sha256, StringComparison.OrdinalIgnoreCase))
        {
            throw new UnusablePhotoException(PhotoError.ChecksumMismatch, $"is not the file that was recorded: its SHA-256 is {sha256}");
        }

        if (card is null)
        {
            card = new CachedOriginal(mark, sha256, ImageReader.Read(source.FullPath));
            RequireUnchanged(source.FullPath, mark);
            _cards.Keep(source.FullPath, card, readAt);
        }

        return (new InspectedPhoto(sha256, card.Reading), mark);
    }

    private static long? SizeOf(string path)
    {
        if (!Path.Exists(path)) return null;
        try
        {
            return FileStamp.Read(path).Size;
        }
        catch (UnusablePhotoException)
        {
            return null;
        }
    }

    private static string Checksum(string path) => Readable(() =>
    {
        using var stream = new FileStream(path, new FileStreamOptions { Options = FileOptions.SequentialScan, BufferSize = 0 });
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    });

    private static T Readable<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new UnusablePhotoException(PhotoError.Unreadable, "cannot be opened");
        }
    }

    // The checksum and the pixels must be of the same bytes.
    private static void RequireUnchanged(string path, FileStamp mark)
    {
        if (FileStamp.Read(path) != mark) throw new UnusablePhotoException(PhotoError.Unreadable, "changed while it was being read");
    }

    /// <summary>Works on a photo and turns whatever is in the way into an outcome.</summary>
    /// <param name="work">What is done.</param>
    internal static (PhotoResult Photo, bool Decoded) Guarded(PhotoSource source, Func<(PhotoResult Photo, bool Decoded)> work)
    {
        try
        {
            return work();
        }
        catch (UnusablePhotoException spoil)
        {
            return (new UnusablePhoto(source.Path, spoil.Error, spoil.Message), false);
        }
        catch (Exception thrown) when (!IsOfTheMachine(thrown))
        {
            // The last net. What the libraries for pictures, metadata and codes throw is not listed anywhere, and each new release may
            // throw more.
            return (new UnusablePhoto(
                source.Path, PhotoError.NotProcessed, $"can be read, but the image library failed on it ({thrown.GetType().Name})"), false);
        }
    }

    // A full disk, a missing library, a run that is stopped: no photo is to blame.
    private static bool IsOfTheMachine(Exception thrown) =>
        thrown is IOException or UnauthorizedAccessException or OperationCanceledException or DllNotFoundException
            or TypeInitializationException or EntryPointNotFoundException;

    private ImmutableArray<PhotoResult> RunAll<T>(IReadOnlyList<T> items, Func<T, PhotoSource> sourceOf,
        Func<T, (PhotoResult Photo, bool Decoded)> work, IProgress<PhotoProgress>? progress, CancellationToken cancel)
    {
        var outcomes = new PhotoResult[items.Count];
        var (done, decoded) = (0, 0);
        try
        {
            Parallel.For(0, items.Count, new ParallelOptions { MaxDegreeOfParallelism = _workers, CancellationToken = cancel }, i =>
            {
                var source = sourceOf(items[i]);

                // Many pictures may be missing at once, and an exception costs more than a look.
                (outcomes[i], var was) = Path.Exists(source.FullPath)
                    ? Guarded(source, () => work(items[i]))
                    : (new UnusablePhoto(source.Path, PhotoError.Missing, FileStamp.Missing), false);
                var decodedNow = was ? Interlocked.Increment(ref decoded) : Volatile.Read(ref decoded);
                progress?.Report(new PhotoProgress(Interlocked.Increment(ref done), items.Count, decodedNow));
            });
        }
        catch (AggregateException faults)
        {
            // Workers fail for the same reason, such as a full disk: one of them is reported.
            ExceptionDispatchInfo.Throw(faults.InnerExceptions[0]);
        }

        return ImmutableCollectionsMarshal.AsImmutableArray(outcomes);
    }
}

using System.Collections.Immutable;
using Archive.Publishing.Building;
using Archive.Publishing.Caching;
using Archive.Publishing.Incremental;
using Archive.Publishing.Requests;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Search.Documents;
using Archive.Search.Finding;
using Archive.Storage;

namespace Archive.Publishing.Finding;

/// <summary>
/// Finds records as the site's search does, from an index that is kept in the cache under the fingerprint of what it was made from.
/// </summary>
public static class RecordFinder
{
    /// <summary>
    /// Opens the index of a record; makes it where the cache has none of this very record. Errors of the record are not reported: what can
    /// be read is found.
    /// </summary>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed.</exception>
    public static RecordIndex Open(BuildOptions options, CancellationToken cancellation)
    {
        var folder = new ArchiveFolder(options.Content);
        var stamps = InputStamps.Open(options.Cache, TimeProvider.System);
        var fingerprint = Fingerprint.Compute(options, folder, stamps, cancellation);
        stamps.Keep();
        var shelf = Path.Combine(options.Cache.Folder, "find");
        var kept = Path.Combine(shelf, fingerprint.Whole[..32]);
        if (RecordIndex.Open(kept) is { } existing) return existing;
        var record = ArchiveModel.From(RecordReader.Read(folder, cancellation));
        cancellation.ThrowIfCancellationRequested();
        var texts = new DocumentsToPublish(SiteBuild.Inspect(options, folder, record, cancellation), new ErrorPlaces([]));
        var (documents, language) = (Findable.In(record, texts.TextOf), record.Statement.Language?.Value);
        try
        {
            Make(documents, language, kept);
            Sweep(shelf, kept);
            if (RecordIndex.Open(kept) is { } made) return made;
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            // A cache that cannot be written is no reason to fail.
        }

        return RecordIndex.InMemory(documents, language);
    }

    // Whole or not at all: made beside, then put in its place.
    private static void Make(ImmutableArray<SearchDocument> documents, string? language, string kept)
    {
        var unfinished = $"{kept}.{Guid.NewGuid():N}.part";
        try
        {
            Directory.CreateDirectory(unfinished);
            RecordIndex.Write(unfinished, documents, language);
            if (Directory.Exists(kept)) Directory.Delete(kept, recursive: true);
            Directory.Move(unfinished, kept);
        }
        finally
        {
            if (Directory.Exists(unfinished)) Directory.Delete(unfinished, recursive: true);
        }
    }

    // Of an archive's indexes only the last is needed.
    private static void Sweep(string shelf, string kept)
    {
        foreach (var folder in Directory.EnumerateDirectories(shelf))
        {
            if (folder != kept && !folder.EndsWith(".part", StringComparison.Ordinal)) Directory.Delete(folder, recursive: true);
        }
    }
}

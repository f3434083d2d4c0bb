using System.Collections.Immutable;
using System.Text.Json;
using Archive.Records;
using Lucene.Net.Index;
using Lucene.Net.Store;

namespace Archive.Site;

/// <summary>A record that was found.</summary>
/// <param name="Document">What is shown of it; what it is searched by is left out.</param>
/// <param name="Score">What it is worth, by BM25 and the fields' weights.</param>
public sealed record FoundRecord(SearchDocument Document, float Score);

/// <summary>What a search came to.</summary>
/// <param name="Total">How many records were found.</param>
/// <param name="Best">The best of them.</param>
/// <param name="IsPartial">Whether no record has all words, and these have some.</param>
/// <param name="Told">Words that were not found as typed.</param>
public sealed record FoundRecords(int Total, ImmutableArray<FoundRecord> Best, bool IsPartial, ImmutableArray<FindRemark> Told);

/// <summary>Finds records as the site's search does, from a Lucene index that is kept in the cache under the fingerprint of what it was made from.</summary>
public sealed class RecordFinder : IDisposable
{
    private readonly Lucene.Net.Store.Directory _directory;
    private readonly DirectoryReader _reader;
    private readonly Finder _finder;

    private RecordFinder(Lucene.Net.Store.Directory directory)
    {
        _directory = directory;
        _reader = DirectoryReader.Open(directory);
        _finder = new Finder(_reader, _reader.IndexCommit.UserData.ContainsKey(LuceneIndex.EnglishKey));
    }

    /// <summary>Opens the index of a record; makes it where the cache has none of this very record. Faults of the record are not told: what can be read is found.</summary>
    /// <param name="order">Which record.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed.</exception>
    public static RecordFinder Open(BuildOrder order, CancellationToken cancellation)
    {
        var folder = new ArchiveFolder(order.Content);
        var stamps = InputStamps.Open(order.Cache, TimeProvider.System);
        var fingerprint = Fingerprint.Of(order, folder, stamps);
        stamps.Keep();
        var shelf = Path.Combine(order.Cache.Folder, "find");
        var kept = Path.Combine(shelf, fingerprint[..32]);
        if (Kept(kept) is { } standing) return standing;
        var record = AsFound.From(RecordReader.Read(folder, cancellation));
        cancellation.ThrowIfCancellationRequested();
        var (documents, language) = (SearchDocuments.Of(record), record.Statement.Language?.Value);
        try
        {
            Make(documents, language, kept);
            Sweep(shelf, kept);
            if (Kept(kept) is { } made) return made;
        }
        catch (Exception exception) when (DiskTrouble.Is(exception))
        {
            // A cache that cannot be written is no reason to fail.
        }

        var memory = new RAMDirectory();
        Write(memory, documents, language);
        return new RecordFinder(memory);
    }

    /// <summary>Finds.</summary>
    /// <param name="typed">What was typed.</param>
    /// <param name="noun">Kind of record that is wanted, such as <c>frame</c>; null for any.</param>
    /// <param name="groups">Groups that it must belong to, all of them.</param>
    /// <param name="most">How many of the best are wanted, at least 1.</param>
    public FoundRecords Find(string typed, string? noun, IEnumerable<SearchFacet> groups, int most)
    {
        var terms = groups.Select(SearchFields.TermOf).ToList();
        if (noun is not null) terms.Add(SearchFields.TermOf(noun));
        var found = _finder.Find(typed, terms, most);
        return new FoundRecords(found.Total, [.. found.Best.Select(hit => new FoundRecord(Shown(hit.Document), hit.Score))], found.IsPartial, found.Told);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _reader.Dispose();
        _directory.Dispose();
    }

    private SearchDocument Shown(int document) => JsonSerializer.Deserialize<SearchDocument>(_reader.Document(document).Get(SearchFields.Shown))!;

    private static RecordFinder? Kept(string folder)
    {
        if (!System.IO.Directory.Exists(folder)) return null;
        try
        {
            return new RecordFinder(FSDirectory.Open(folder));
        }
        catch (Exception exception) when (DiskTrouble.Is(exception) || exception is CorruptIndexException or IndexNotFoundException)
        {
            return null;
        }
    }

    // Whole or not at all: made beside, then put in its place.
    private static void Make(ImmutableArray<SearchDocument> documents, string? language, string kept)
    {
        var unfinished = $"{kept}.{Guid.NewGuid():N}.part";
        try
        {
            System.IO.Directory.CreateDirectory(unfinished);
            using (var directory = FSDirectory.Open(unfinished)) Write(directory, documents, language);
            if (System.IO.Directory.Exists(kept)) System.IO.Directory.Delete(kept, recursive: true);
            System.IO.Directory.Move(unfinished, kept);
        }
        finally
        {
            if (System.IO.Directory.Exists(unfinished)) System.IO.Directory.Delete(unfinished, recursive: true);
        }
    }

    private static void Write(Lucene.Net.Store.Directory into, ImmutableArray<SearchDocument> documents, string? language) =>
        LuceneIndex.Write(into, documents, ProseWords.IsEnglish(language), withShown: true);

    // Of an archive's indexes only the last is wanted.
    private static void Sweep(string shelf, string kept)
    {
        foreach (var folder in System.IO.Directory.EnumerateDirectories(shelf))
        {
            if (folder != kept && !folder.EndsWith(".part", StringComparison.Ordinal)) System.IO.Directory.Delete(folder, recursive: true);
        }
    }
}

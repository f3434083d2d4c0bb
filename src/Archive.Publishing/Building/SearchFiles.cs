using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Search;
using Archive.Storage.Output;

namespace Archive.Publishing.Building;

/// <summary>The files of a site's search, but for the small pictures of photos, which are known when all are developed.</summary>
/// <param name="Index">The index.</param>
/// <param name="Photos">Which photos are shown in which of its rows.</param>
internal sealed record SearchFiles(ImmutableArray<OutputFile> Index, ImmutableArray<ShownPhotos> Photos)
{
    /// <summary>Gathers what is found.</summary>
    /// <param name="textOf">What is written and said in the files of a document, by its id.</param>
    /// <param name="isWhole">
    /// Whether all files will be asked for. They are then made at once: their bytes take less room than what they are made from, and wait
    /// until all pages are made.
    /// </param>
    internal static SearchFiles Create(ArchiveModel record, Func<string, string> textOf, bool isWhole)
    {
        var documents = Findable.In(record, textOf);
        var index = SearchIndex.Create(documents, record.Statement.Language?.Value);
        return new SearchFiles([.. isWhole ? index.Select(Made) : index], SearchIndex.RowsWithPhotos(documents));
    }

    /// <summary>All files.</summary>
    /// <param name="picture">Where the small picture of a photo is, below the site's folder; null where there is none.</param>
    internal IEnumerable<OutputFile> All(Func<string, string?> picture) => Index.Concat(SearchIndex.Thumbs(Photos, picture));

    private static RenderedFile Made(RenderedFile file)
    {
        var made = file.Render();
        return new RenderedFile(file.Path, () => made);
    }
}

using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Search.Documents;
using Archive.Site;

namespace Archive.Publishing.Building;

/// <summary>What is found, on the site as in the terminal: all records, and the pages that are none.</summary>
internal static class Findable
{
    /// <param name="textOf">What is written and said in the files of a document, by its id.</param>
    public static ImmutableArray<SearchDocument> In(ArchiveModel record, Func<string, string> textOf) => SearchDocuments.Create(
        record,
        NamedPages.Of(record).Select(page => new SearchDocument(null, page.Folder)
        {
            Title = page.Title,
            Lead = page.Says,
            Names = [page.Title, page.Words],
            Touches = [page.Says],
        }),
        textOf);
}

using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Markup.Links;
using Archive.Site.Contents;
using Archive.Site.Data;
using Archive.Site.Iiif;
using Archive.Site.Layout;
using Archive.Site.Permanence;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>What programs, spreadsheets and other sites can read of the record.</summary>
public sealed record DataPage(PageHead Head) : PageView(Head)
{
    /// <summary>The record, one line for each kind.</summary>
    public required ImmutableArray<DataLine> Records { get; init; }

    /// <summary>What is calculated from it.</summary>
    public required ImmutableArray<DataLine> Plans { get; init; }

    /// <summary>What each file has, key by key.</summary>
    public required Link Index { get; init; }

    /// <summary>The archive as a whole.</summary>
    public required Link Archive { get; init; }

    /// <summary>The collection of all IIIF manifests; null where there is none.</summary>
    public required Link? Collection { get; init; }

    /// <summary>The web address of the collection, for viewers; empty where there is none.</summary>
    public required string CollectionAddress { get; init; }

    public required Link Checksums { get; init; }

    public required Link Crate { get; init; }

    /// <summary>The feed of events; null for an archive without a base.</summary>
    public required Link? Feed { get; init; }

    /// <summary>The list of addresses for search engines; null for an archive without a base.</summary>
    public required Link? Sitemap { get; init; }

    /// <summary>How the archive as a whole is cited; empty for an archive without a base.</summary>
    public required string Citation { get; init; }
}

/// <summary>Two files of one table.</summary>
/// <param name="Name">Its path below <c>data/</c>, without an extension.</param>
/// <param name="Means">What one entry is.</param>
/// <param name="Count">How many entries it has.</param>
public sealed record DataLine(string Name, string Means, int Count, Link Json, Link Csv);

/// <summary>Makes the page.</summary>
internal sealed class DataPages(SiteContents site, PageFactory pageFactory)
{
    private const string Checksums = "site.sha256";
    private const string Title = "Data";

    /// <summary>The page.</summary>
    public OutputFile Page() => pageFactory.Page(PagePaths.Data, Create);

    /// <summary>What the page says.</summary>
    public DataPage Create(PageLocation location)
    {
        var statement = site.Record.Statement;
        var tables = DataFiles.Tables(site.Basis, site.Plans).Select(table => Line(table, location)).ToLookup(line =>
            line.Name.Contains('/', StringComparison.Ordinal));
        var hasCollection = IiifFiles.HasCollection(site);
        const string Says = "The record as CSV and JSON, its photos for IIIF viewers, checksums.";
        return new DataPage(pageFactory.Head("data", location, Title, Says))
        {
            Records = [.. tables[false]],
            Plans = [.. tables[true]],
            Index = To(DataFiles.Index),
            Archive = To(DataFiles.Archive),
            Collection = hasCollection ? To(IiifFiles.Collection) : null,
            CollectionAddress = hasCollection ? pageFactory.Permalink(IiifFiles.Collection) : "",
            Checksums = To(Checksums),
            Crate = To(PermanenceFiles.Crate),
            Feed = statement.Base is null ? null : To(PermanenceFiles.Feed),
            Sitemap = statement.Base is null ? null : To(PermanenceFiles.Sitemap),
            Citation = statement.Base is null ? "" : Citation.Create(statement, "", pageFactory.Permalink("index.html")).Text,
        };

        Link To(string path) => new(path[(path.LastIndexOf('/') + 1)..], location.To(path));
    }

    private static DataLine Line(DataTable table, PageLocation location) => new(
        table.Path, table.Means, table.Count, new Link("JSON", location.To($"data/{table.Path}.json")),
        new Link("CSV", location.To($"data/{table.Path}.csv")));
}

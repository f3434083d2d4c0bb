using System.Collections.Immutable;
using System.Text;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Records.Reading.Format;
using Archive.Records.Reference;
using Archive.Site.Layout;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>How the record is written: all of it, or the files of one folder.</summary>
public sealed record FormatPage(PageHead Head) : PageView(Head)
{
    public required string Title { get; init; }

    /// <summary>The description.</summary>
    public required HtmlFragment Body { get; init; }

    /// <summary>The JSON Schema; null on the page of the whole format.</summary>
    public required Link? Schema { get; init; }

    /// <summary>The pages of archive.yaml and each folder; empty on those pages.</summary>
    public required ImmutableArray<FormatLine> Documents { get; init; }
}

/// <summary>A folder as a line of a list.</summary>
/// <param name="Meaning">What a record in it is.</param>
public sealed record FormatLine(Link Page, string Meaning);

/// <summary>Makes the pages for those who write the record.</summary>
internal sealed class FormatPages(PageFactory pageFactory, ProseRenderer prose)
{
    /// <summary>Where the pages begin.</summary>
    internal const string Index = "format/index.html";

    private const string Title = "For editors";

    /// <summary>The overview, a page for archive.yaml and each folder, and their schemas.</summary>
    public IEnumerable<OutputFile> Pages()
    {
        yield return pageFactory.Page(Index, Overview);
        foreach (var document in RecordFormats.All)
        {
            yield return pageFactory.Page($"format/{document.Name}/index.html", location => Page(document, location));
            yield return new StreamedFile(Schema(document), stream => stream.Write(Encoding.UTF8.GetBytes(JsonSchemas.Write(document))));
        }
    }

    /// <summary>The page of the whole format.</summary>
    public FormatPage Overview(PageLocation location) =>
        new(pageFactory.Head("format", location, Title, "How the files of this record are written."))
        {
            Title = Title,
            Body = prose.Blocks(Untitled(RecordFormats.Overview), location, below: 1, prefix: "format"),
            Schema = null,
            Documents = [.. RecordFormats.All.Select(document =>
                new FormatLine(new Link(document.Place, location.To($"format/{document.Name}/index.html")), document.Meaning))],
        };

    /// <summary>The page of a folder, or of archive.yaml.</summary>
    public FormatPage Page(DocumentFormat document, PageLocation location) =>
        new(pageFactory.Head("format", location, document.Place, document.Meaning, new Link(Title, location.To(Index))))
        {
            Title = document.Place,
            Body = prose.Blocks(Untitled(FormatText.Page(document)), location, below: 1, prefix: "format"),
            Schema = new Link(JsonSchemas.FileName(document), location.To(Schema(document))),
            Documents = [],
        };

    private static string Schema(DocumentFormat document) => $"format/{JsonSchemas.FileName(document)}";

    // The page has its title already.
    private static string Untitled(string markdown) => markdown[(markdown.IndexOf('\n', StringComparison.Ordinal) + 1)..].TrimStart();
}

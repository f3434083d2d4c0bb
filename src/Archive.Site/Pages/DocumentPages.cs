using System.Collections.Immutable;
using System.Globalization;
using Archive.Documents.Inspection;
using Archive.Documents.Transcripts;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Iiif;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>Makes the pages of documents.</summary>
internal sealed class DocumentPages(
    SiteContents site,
    PageFactory pageFactory,
    ProseRenderer prose,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    ProvenanceBuilder provenances)
{
    private const int ShownWidth = 1280;

    // Letters of a PDF or a text that are on the page; the search finds more.
    private const int MostText = 200_000;

    /// <summary>The page of a document.</summary>
    /// <param name="document">A document that stands.</param>
    public OutputFile Create(Document document) => pageFactory.Page(PagePaths.For(document), location => View(document, location));

    private DocumentPage View(Document document, PageLocation location)
    {
        var inspected = site.Documents.GetValueOrDefault(document.Id);
        var what = DocumentText.Describe(document);
        var pages = inspected is null ? [] : Pages(inspected, location);
        var files = inspected is null ? [] : inspected.Files.Where(IsListed).Select(file => File(file, location)).ToImmutableArray();
        return new DocumentPage(pageFactory.Head(
            "document",
            location,
            $"{document.Title}, {what}",
            $"{Phrase.Sentence(what)[..^1]}: {document.Title}.",
            new Link("Documents", location.To(PagePaths.Index(RecordKind.Document)))))
        {
            Id = document.Id,
            Title = document.Title,
            Kind = Phrase.Heading(what),
            Withheld = document.Withheld is { } why ? prose.Blocks(why.Value, location) : HtmlFragment.None,
            Explains = [.. document.Explains.Select(id => rowBuilder.Record(id.Value, location))],
            Facts = Facts(document, inspected),
            Rights = document.Rights is { } rights ? LicenceText.ToFact(rights.Value) : null,
            Pages = pages,
            Files = files,
            HasZoom = pages.Any(page => page.Closer is not null),
            HasPlayer = files.Any(file => file.Player.Length > 0),
            Manifest = IiifFiles.HasDocument(site, document)
                ? new Link("Pages as IIIF", location.To(IiifFiles.PathOf(document.Id)))
                : null,
            Condition = prose.Blocks(document.Condition?.Value, location, 3, "condition"),
            Note = prose.Blocks(document.Note?.Value, location, 2, "note"),
            Provenance = provenances.Create(
                document, location, "",
                ("Number", document.Number?.Evidence), ("Issue", document.Issue?.Evidence), ("Date", document.Date?.Evidence),
                ("Author", document.Author?.Evidence), ("Where the original is", document.Original?.Evidence)),
        };
    }

    // A picture is shown as its page; it is listed as a file only for its transcript.
    private static bool IsListed(InspectedFile file) => DocumentFiles.IsGiven(file) || file.Transcript is not null;

    private ImmutableArray<FactLine> Facts(Document document, InspectedDocument? inspected)
    {
        var facts = ImmutableArray.CreateBuilder<FactLine>();
        Add("Number", formatter.Format(document.Number), document.Number is not null);
        Add("Issue", formatter.Format(document.Issue), document.Issue is not null);
        Add("Date", document.Date is { } date
            ? new FactText(DateText.Format(date.Value), formatter.Mark(date.Evidence))
            : new FactText("not recorded"), true);
        Add("Author", formatter.Format(document.Author), document.Author is not null);
        var count = inspected?.PageCount ?? document.Pages?.Value ?? 0;
        Add("Pages", new FactText(Phrase.Count(count), formatter.Mark(document.Pages?.Evidence)), count > 0);
        Add("Medium", formatter.Format(document.Medium), document.Medium is not null);
        Add("Format", formatter.Format(document.Format), document.Format is not null);
        Add("Where the original is", formatter.Format(document.Original), document.Original is not null || !IsItsOwnOriginal(document));
        return facts.ToImmutable();

        // A recording made with today's means is the file itself.
        static bool IsItsOwnOriginal(Document of) => of.Type?.Value == DocumentType.Recording && of.Medium is null;

        void Add(string name, FactText figure, bool isShown)
        {
            if (isShown) facts.Add(new FactLine(name, figure));
        }
    }

    // Every page that is a picture, has text, or explains something.
    private ImmutableArray<DocumentPageView> Pages(InspectedDocument document, PageLocation location)
    {
        var explains = document.Document.PagesExplain
            .GroupBy(page => page.Page.Value)
            .ToDictionary(page => page.Key, page => page.SelectMany(each => each.Explains).ToList());
        var left = MostText;
        var views = ImmutableArray.CreateBuilder<DocumentPageView>();
        var files = document.Files
            .SelectMany(file => Enumerable.Range(file.FirstPage, file.PageCount).Select(page => (Page: page, File: file)))
            .ToDictionary(each => each.Page, each => each.File);
        foreach (var number in files.Keys.Union(explains.Keys).Order())
        {
            var file = files.GetValueOrDefault(number);
            var pdf = file?.Pdf;
            var text = pdf is null ? "" : pdf.Pages[number - file!.FirstPage];
            left -= text.Length;
            var picture = document.PictureOf(number);
            var published = picture is null ? null : site.Photos.GetValueOrDefault(picture.Id);
            var largest = published?.Derivatives.MaxBy(derivative => derivative.Width);
            views.Add(new DocumentPageView(number, PagePaths.PageAnchor(number))
            {
                Picture = picture is null ? null : rowBuilder.Picture(picture, location, ShownWidth),
                Closer = published is { Folder.Length: > 0 } ? PhotoPages.Closer(published, location) : null,
                Open = largest is not null
                    ? new Link(
                        $"Open at full size, {Phrase.Number(largest.Width)} × {Phrase.Number(largest.Height)} pixels",
                        location.To(largest.Path))
                    : pdf is not null
                    ? new Link(
                        "Open this page of the PDF", location.To(DocumentFiles.PathOf(file!)).AtPage(number - file!.FirstPage + 1))
                    : null,
                Explains = explains.TryGetValue(number, out var ids) ? [.. ids.Select(id => rowBuilder.Record(id.Value, location))] : [],
                Text = left >= 0 ? text : "",
                IsInArchive = file is not null,
            });
        }

        return views.ToImmutable();
    }

    private DocumentFileView File(InspectedFile file, PageLocation location)
    {
        var isGiven = DocumentFiles.IsGiven(file);
        return new DocumentFileView(
            new Link(DocumentFiles.NameOf(file), isGiven ? location.To(DocumentFiles.PathOf(file)) : null),
            file.File.What?.Value ?? "",
            string.Join(", ", new[]
            {
                WordFor(file),
                file.PageCount > 1 ? Phrase.Count(file.PageCount, "page") : "",
                DocumentFiles.SizeOf(file),
            }.Where(part => part.Length > 0)))
        {
            Sha256 = file.Sha256,
            Player = file.File.Kind switch
            {
                DocumentFileKind.Video => "video",
                DocumentFileKind.Audio => "audio",
                _ => "",
            },
            MediaType = DocumentFiles.MediaTypeOf(file),
            IsKept = file.File.Kind is DocumentFileKind.Data,
            Unsearchable = Unsearchable(file),
            Text = file.Text.Length <= MostText ? file.Text : "",
            Cues = [.. (file.Transcript?.Cues ?? []).Select(cue => Cue(cue, file, location))],
            Transcript = file.Transcript switch
            {
                { IsMarkdown: true } markdown => prose.Blocks(markdown.Prose, location, 4),
                _ => HtmlFragment.None,
            },
            PlainTranscript = file.Transcript is { IsMarkdown: false } plain ? plain.Prose : "",
        };
    }

    // A link that a browser follows without a script: its own player begins at that time (Media Fragments URI 1.0).
    private static CueView Cue(Cue cue, InspectedFile file, PageLocation location)
    {
        var seconds = cue.Start.TotalSeconds.ToString("0.###", CultureInfo.InvariantCulture);
        return new CueView(
            seconds,
            cue.End.TotalSeconds.ToString("0.###", CultureInfo.InvariantCulture),
            cue.Speaker,
            cue.Text,
            new Link(
                cue.Start.ToString(cue.Start.TotalHours >= 1 ? @"h\:mm\:ss" : @"m\:ss", CultureInfo.InvariantCulture),
                location.To(DocumentFiles.PathOf(file)).AtTime(cue.Start)));
    }

    private static string Unsearchable(InspectedFile file)
    {
        if (file.Pdf is not { } pdf) return "";
        if (pdf.Unread is not null) return "The text of this PDF could not be read, so it is not searched.";
        var empty = pdf.Pages.Count(page => page.Length == 0);
        return empty == 0 ? ""
            : empty == pdf.Pages.Length ? "This PDF is a scan without text, so the words in it cannot be searched."
            : $"{Phrase.Count(empty)} of its {Phrase.Count(pdf.Pages.Length, "page")} are scans without text, so the words in them cannot be searched.";
    }

    private static string WordFor(InspectedFile file) => file.File.Kind switch
    {
        DocumentFileKind.Picture => "picture",
        DocumentFileKind.Pdf => "PDF",
        DocumentFileKind.Video => "film",
        DocumentFileKind.Audio => "sound",
        DocumentFileKind.Text => "text",
        _ => "data, as it was read",
    };
}

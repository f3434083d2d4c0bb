using System.Text;
using AngleSharp.Dom;
using Xunit;

namespace Archive.Site.Tests.Pages;

public sealed class DocumentPageTests
{
    private static readonly Sketch Sketch = Sketch.Of(
        ("frames/f.yaml", "- {id: R1-01, name: one}\n- {id: R1-02, name: two}\n"),
        ("documents/d.yaml", """
            - id: D-1
              name: Wiring book
              type: wiring_book
              number: WB 4
              issue: C
              files: [book.pdf, {file: told.mp3, transcript: told.vtt}]
              about: R1-01
              pages_about: {1: [R1-02], 3: [R1-02]}
              pages: 3
            - {id: D-2, name: A scan, files: scan.pdf}
            - {id: D-3, name: A letter, files: letter.txt, withheld: the *writer* asked for it}
            """),
        ("documents/book.pdf", Encoding.Latin1.GetString(TinyPdf.OfPages("Pair 24 to J08", "<b>Spare</b>"))),
        ("documents/scan.pdf", Encoding.Latin1.GetString(TinyPdf.OfPages("", ""))),
        ("documents/letter.txt", "Not to be printed\n"),
        ("documents/told.mp3", "ID3 sound"),
        ("documents/told.vtt", "WEBVTT\n\n01:02.500 --> 01:04.000\n<v Wat>Turn it <b>slowly</b>\n"));

    private static readonly Dictionary<string, string> Pages = Sketch.Pages();

    [Fact]
    public void A_page_of_a_pdf_has_its_text_and_opens_there()
    {
        var page = Page("documents/D-1/index.html");
        Assert.Equal("Wiring book WB 4, issue C", Text(page, ".kind"));
        var second = page.QuerySelector("#page-2")!;
        Assert.Equal("<b>Spare</b>", second.QuerySelector("pre")!.TextContent);
        Assert.EndsWith(".pdf#page=2", second.QuerySelector("a")!.GetAttribute("href"), StringComparison.Ordinal);
        Assert.Equal("This page is not in the archive.", Text(page, "#page-3 .quiet"));
    }

    /// <summary>What explains a record is listed there, as a whole or with the pages that do.</summary>
    [Fact]
    public void A_record_lists_the_documents_and_pages_that_explain_it()
    {
        Assert.Equal(["../../documents/D-1/index.html"], Links(Page("frames/R1-01/index.html"), ".papers a"));
        Assert.Equal(
            ["../../documents/D-1/index.html", "../../documents/D-1/index.html#page-1", "../../documents/D-1/index.html#page-3"],
            Links(Page("frames/R1-02/index.html"), ".papers a"));
    }

    /// <summary>Without scripts a time opens the recording there (Media Fragments URI 1.0, section 4.2.1).</summary>
    [Fact]
    public void The_times_of_a_transcript_lead_into_the_recording()
    {
        var recording = Page("documents/D-1/index.html").QuerySelector(".recording")!;
        var file = recording.QuerySelector("audio")!.GetAttribute("src")!;
        var line = recording.QuerySelector(".transcript li")!;
        Assert.Equal(("62.5", "64"), (line.GetAttribute("data-start"), line.GetAttribute("data-end")));
        Assert.Equal(file + "#t=62.5", line.QuerySelector("a")!.GetAttribute("href"));
        Assert.Equal("1:02 Wat: Turn it slowly", line.TextContent.Trim());
    }

    [Fact]
    public void A_scan_says_that_it_cannot_be_searched()
    {
        Assert.Contains("This PDF is a scan without text", Pages["documents/D-2/index.html"], StringComparison.Ordinal);
        Assert.DoesNotContain("scan without text", Pages["documents/D-1/index.html"], StringComparison.Ordinal);
    }

    [Fact]
    public void A_withheld_document_has_a_page_that_says_why_and_no_file()
    {
        var page = Page("documents/D-3/index.html");
        Assert.Contains("the writer asked for it", Text(page, ".withheld"), StringComparison.Ordinal);
        Assert.Null(page.QuerySelector(".document-file"));
        Assert.DoesNotContain("Not to be printed", string.Concat(Pages.Values), StringComparison.Ordinal);
    }

    private static IDocument Page(string path) => new AngleSharp.Html.Parser.HtmlParser().ParseDocument(Pages[path]);

    private static string Text(IDocument page, string selector) => page.QuerySelector(selector)!.TextContent.Trim();

    private static IEnumerable<string?> Links(IDocument page, string selector) =>
        page.QuerySelectorAll(selector).Select(link => link.GetAttribute("href"));
}

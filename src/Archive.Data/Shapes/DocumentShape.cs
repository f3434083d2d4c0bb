using System.Globalization;
using Archive.Data.Tables;
using Archive.Records.Model;

namespace Archive.Data.Shapes;

public static class DocumentShape
{
    private static readonly DataShape<DocumentFile> Files = new DataShape<DocumentFile>()
        .Text("file", "path of the file within the archive", file => file.FilePath)
        .Fact("sha256", "checksum of the file, in hexadecimal", file => file.Sha256)
        .Fact("what", "what the file is", file => file.What)
        .Text("transcript", "path of its transcript within the archive", file => file.TranscriptPath);

    private static readonly DataShape<PageSubjects> Pages = new DataShape<PageSubjects>()
        .Count("page", "number of the page, from 1", page => page.Page.Value)
        .List("about", "ids of what it explains", page => page.Explains.Select(id => id.Value));

    public static readonly DataShape<Document> Shape = CommonShape.Head<Document>()
        .Fact("type", "what it is", document => document.Type)
        .Fact("number", "its number, exactly as printed on it", document => document.Number)
        .Fact("issue", "its issue, exactly as printed on it", document => document.Issue)
        .Fact("date", "when it was drawn, written or recorded", document => document.Date)
        .Fact("author", "who made it", document => document.Author)
        .Fact("rights", "its licence or rights statement; the archive's if absent", document => document.Rights)
        .Entries("files", "its files, in the order of its pages", Files, document => document.Files, file => file.FilePath ?? "")
        .Fact("pages", "how many pages the original has", document => document.Pages)
        .List("explains", "ids of the records that it explains; `about` in the record", document =>
            document.Explains.Select(id => id.Value))
        .Entries("pages_about", "pages and what each explains", Pages, document => document.PagesExplain, page =>
            $"{page.Page.Value.ToString(CultureInfo.InvariantCulture)}: {string.Join(' ', page.Explains.Select(id => id.Value))}")
        .Fact("original", "where the original is kept", document => document.Original)
        .Fact("medium", "what the original is on", document => document.Medium)
        .Fact("format", "how what is on the medium is written", document => document.Format)
        .Fact("withheld", "why its files are not published; absent where they are", document => document.Withheld, "markdown")
        .Tail();
}

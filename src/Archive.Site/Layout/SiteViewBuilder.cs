using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Plans.Now;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Permanence;

namespace Archive.Site.Layout;

/// <summary>Makes what all pages of one depth share.</summary>
internal static class SiteViewBuilder
{
    /// <summary>The section of the site in which a page is: the folder of its list or plan, such as <c>frames</c> for
    /// <c>indexes/frames-by-module/2/index.html</c>; empty for the home page and other pages of no section.</summary>
    /// <param name="path">The page's path.</param>
    public static string SectionOf(string path) => path.Split('/') switch
    {
        ["indexes", var list, _, ..] => list.Split('-')[0],
        [var folder, _, ..] => folder,
        _ => "",
    };

    /// <summary>The shared view.</summary>
    /// <param name="location">A page of that depth.</param>
    /// <param name="section">The section that is marked as the current one; empty for none.</param>
    /// <param name="isFirst">Whether the page is the first of the section.</param>
    public static SiteView Create(SiteContents contents, PageLocation location, string section, bool isFirst)
    {
        var statement = contents.Record.Statement;
        return new SiteView
        {
            Title = statement.Title?.Value ?? "Untitled archive",
            Custodian = statement.Custodian?.Value ?? "",
            AsFound = statement.AsFound is { } found ? DateText.Format(found.Value) : "",
            Credit = statement.Credit?.Value ?? "",
            Licence = statement.Licence is { } licence ? LicenceText.ToFact(licence.Value) : null,
            Language = statement.Language?.Value ?? "en",
            Errors = contents.Errors,
            Root = location.To("./"),
            Home = location.To("index.html"),
            Search = location.To(Search),
            Lacks = location.To("lacks/index.html"),
            Feed = statement.Base is null ? null : location.To(PermanenceFiles.Feed),
            Assets = location.To("assets"),
            AsOf = location.To(PrintDate.Path),
            Ways =
            [
                To(NowPlan.Kind.Title, NowPlan.Kind.Page),
                Index(RecordKind.Frame, "Frames"),
                Index(RecordKind.Cable, "Cables"),
                Index(RecordKind.Photo, "Photos"),
                To("Plans", "plans/index.html"),
                Index(RecordKind.Story, "Stories"),
            ],
            Lists =
            [
                Index(RecordKind.Hall, "Halls"),
                Index(RecordKind.Tray, "Trays"),
                Index(RecordKind.Unit, "Units"),
                Index(RecordKind.Piece, "Pieces"),
                Index(RecordKind.Box, "Boxes"),
                Index(RecordKind.Document, "Documents"),
                Index(RecordKind.CableKind, "Kinds of cable"),
                Index(RecordKind.Scheme, "How to read labels"),
                Index(RecordKind.Display, "Displays"),
                Index(RecordKind.Event, "Events"),
                To("Still to record", "lacks/index.html"),
                To("Search", Search),
            ],
            Extras =
            [
                To("QR labels", "labels/index.html"),
                To("Use offline", "offline/index.html"),
                To("Data", PagePaths.Data),
                To("For editors", "format/index.html"),
            ],
        };

        SectionLink Index(RecordKind kind, string text) => To(text, PagePaths.Index(kind));

        SectionLink To(string text, string path) =>
            new(text, location.To(path), section.Length == 0 || SectionOf(path) != section ? "" : isFirst ? "page" : "true");
    }

    private const string Search = "search/index.html";
}

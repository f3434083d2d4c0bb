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
    /// <summary>The shared view.</summary>
    /// <param name="location">A page of that depth.</param>
    public static SiteView Create(SiteContents contents, PageLocation location)
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
            Search = location.To("search/index.html"),
            Lacks = location.To("lacks/index.html"),
            Feed = statement.Base is null ? null : location.To(PermanenceFiles.Feed),
            Assets = location.To("assets"),
            AsOf = location.To(PrintDate.Path),
            Ways =
            [
                new(NowPlan.Kind.Title, location.To(NowPlan.Kind.Page)),
                    Index(RecordKind.Frame, "Frames"),
                    Index(RecordKind.Cable, "Cables"),
                    Index(RecordKind.Photo, "Photos"),
                    new("Plans", location.To("plans/index.html")),
                    Index(RecordKind.Story, "Stories"),
                    new("Search", location.To("search/index.html")),
                ],
            Lists =
            [
                Index(RecordKind.Hall, "Halls"),
                    Index(RecordKind.Tray, "Trays"),
                    Index(RecordKind.CableKind, "Kinds of cable"),
                    Index(RecordKind.Scheme, "How to read labels"),
                    Index(RecordKind.Display, "Displays"),
                    Index(RecordKind.Event, "Events"),
                    new("Still to record", location.To("lacks/index.html")),
                    new("QR labels", location.To("labels/index.html")),
                    new("Use offline", location.To("offline/index.html")),
                    new("For editors", location.To("format/index.html")),
                ],
        };

        Link Index(RecordKind kind, string text) => new(text, location.To(PagePaths.Index(kind)));
    }
}

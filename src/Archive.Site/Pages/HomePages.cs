using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Plans.Now;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>Makes the home page.</summary>
internal sealed class HomePages(
    SiteContents site, PageFactory pageFactory, ProseRenderer prose, RowBuilder rowBuilder, PageDrawings drawings)
{
    private const int MostInRow = 60;
    private const int MostRows = 40;
    private const int LatestEvents = 5;

    public OutputFile Page() => pageFactory.Page("index.html", View);

    /// <summary>What the home page shows.</summary>
    public HomePage View(PageLocation location)
    {
        var record = site.Record;
        var layout = site.HallLayouts.AsFound;
        var now = (NowPlan)site.Plans[NowPlan.Kind];
        return new HomePage(pageFactory.Head(
            "home",
            location,
            "",
            $"{record.Statement.Title?.Value}: {Phrase.Count(record.Frames.Count(Stands), "frame")} and {Phrase.Count(record.Cables.Count(Stands), "cable")} as found."))
        {
            Now = [.. now.Summary.Take(2), .. now.Standings.Select(NowSentences.Describe)],
            NowPage = new Link("What each crew can do next", location.To(NowPlan.Kind.Page)),
            Hall = layout is null ? null : RecordLink.To(layout.Hall, location),
            Plan = layout is null ? HtmlFragment.None : drawings.Plan(layout, location),
            Rows = [.. (layout?.Rows ?? []).Take(MostRows).Select(row => RowOf(row, location))],
            Holdings = Holdings(location),
            About = prose.Blocks(record.Statement.About?.Value, location),
            Stories = [.. StoryPages.InOrder(record).Select(story => RecordLink.To(story, location))],
            Displays = [.. record.Displays.Where(Stands).Select(display => RecordLink.To(display, location))],
            OtherHalls = [.. record.Halls
                .Where(hall => Stands(hall) && hall != layout?.Hall)
                .Select(hall => RecordLink.To(hall, location))],
            Latest = [.. record.Events
                .Where(Stands)
                .OrderDescending(CrossReferences.EventOrder)
                .Take(LatestEvents)
                .Select(archiveEvent => rowBuilder.Event(archiveEvent, location))],
            Overall = [.. record.Photos
                .Where(photo => Stands(photo) && photo.View is { Value: PhotoView.Overall })
                .Take(3)
                .Select(photo => rowBuilder.Thumb(photo, location))],
            People = [.. record.Statement.People.Values.OrderBy(person => person.Key, StringComparer.Ordinal)
                .Select(person => new FactLine(person.Name?.Value ?? person.Key, new FactText(person.Role?.Value ?? "")))],
        };
    }

    private static bool Stands(ArchiveRecord record) => !record.IsWithdrawn;

    private static RowOfFrames RowOf(RowLayout row, PageLocation location) => new(
        Phrase.NameOf(row.Row),
        [.. row.Frames.Take(MostInRow).Select(frame => RecordLink.To(frame.Frame, location))],
        Math.Max(0, row.Frames.Length - MostInRow));

    private ImmutableArray<Holding> Holdings(PageLocation location)
    {
        var record = site.Record;
        var cables = record.Cables.Where(Stands).ToList();
        var bothEnds = cables.Count(cable => cable.Ends.Count(end => end.At is not null) >= 2);
        var documents = record.Documents.Count(Stands);
        return
        [
            Of(RecordKind.Frame, record.Frames.Count(Stands), "frame", ""),
            Of(RecordKind.Cable, cables.Count, "cable", $"{Phrase.Count(bothEnds)} seen at both ends"),
            Of(RecordKind.Tray, record.Trays.Count(Stands), "tray", ""),
            Of(RecordKind.Photo, record.Photos.Count(Stands), "photo", ""),
            .. documents > 0 ? [Of(RecordKind.Document, documents, "document", "")] : Array.Empty<Holding>(),
            Of(RecordKind.Event, record.Events.Count(Stands), "event", "since the machine was found"),
        ];

        Holding Of(RecordKind kind, int count, string noun, string says) =>
            new(Phrase.Count(count), count == 1 ? noun : noun + "s", location.To(PagePaths.Index(kind)), says);
    }
}

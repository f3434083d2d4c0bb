using System.Collections.Immutable;
using Archive.Records;

namespace Archive.Site;

/// <summary>Lists of trays, halls, schemes, displays, stories, events and kinds of cable; and of photos.</summary>
/// <param name="desk">What every page is written at.</param>
internal sealed class RecordIndexes(Desk desk)
{
    private const int PhotosOnSheet = 96;

    /// <summary>The pages of all these lists.</summary>
    public IEnumerable<SiteFile> Pages()
    {
        var record = desk.Record;
        return List(RecordKind.Tray, "Trays", "ladders, baskets and channels that carry the cables overhead", record.Trays, SayTray)
            .Concat(List(RecordKind.Hall, "Halls", "where it was found, where it is, and where it may stand", record.Halls, SayHall))
            .Concat(List(RecordKind.Scheme, "How labels are read", "schemes by which the printed labels say where a cable goes", record.Schemes, _ => ""))
            .Concat(List(RecordKind.Display, "Displays", "what is to run again, and what must stand for it", record.Displays, _ => ""))
            .Concat(List(RecordKind.Story, "Stories", "for readers and visitors", StoryPages.InOrder(record), _ => ""))
            .Concat(List(RecordKind.Event, "Events", "what happened since it was found, latest first", record.Events.OrderDescending(CrossReferences.EventOrder), SayEvent))
            .Concat(List(RecordKind.CableKind, "Kinds of cable", "each described once", record.Kinds, SayKind))
            .Concat(Photos());
    }

    private IEnumerable<SiteFile> List<T>(RecordKind kind, string title, string says, IEnumerable<T> records, Func<T, string> say)
        where T : ArchiveRecord
    {
        var rows = records.Where(record => !record.IsWithdrawn).ToImmutableArray();
        var sheets = new Sheets<T>(rows, PagePaths.Index(kind), $"indexes/{kind.Folder()}", record => record.Id);
        for (var number = 1; number <= sheets.Count; number++)
        {
            var sheet = number;
            yield return desk.Page(sheets.Path(sheet), place => new RecordIndexPage(desk.Head("record-index", place, title, $"{title}: {says}."))
            {
                Says = $"{rows.Length}: {says}",
                Rows = [.. sheets.RowsOf(sheet).Select(record => new RecordRow(RecordLink.To(record, place), say(record)))],
                Sheet = sheets.On(sheet, place),
            });
        }
    }

    private IEnumerable<SiteFile> Photos()
    {
        var photos = desk.Record.Photos.Where(photo => !photo.IsWithdrawn).ToImmutableArray();
        var sheets = new Sheets<Photo>(photos, PagePaths.Index(RecordKind.Photo), "indexes/photos", photo => photo.Id) { Size = PhotosOnSheet };
        for (var number = 1; number <= sheets.Count; number++)
        {
            var sheet = number;
            yield return desk.Page(sheets.Path(sheet), place => new PhotoIndexPage(desk.Head("photo-index", place, "Photos", $"{Words.Count(photos.Length, "photo")}."))
            {
                Count = photos.Length,
                Photos = [.. sheets.RowsOf(sheet).Select(photo => desk.Rows.Thumb(photo, place))],
                Sheet = sheets.On(sheet, place),
            });
        }
    }

    private string SayTray(Tray tray)
    {
        var hall = tray.Hall is { } id ? desk.Record.Find(id.Value)?.Title ?? id.Value : "hall unknown";
        return $"{hall}, {Words.Count(desk.Contents.Trays[tray.Id].Cables.Length, "cable")}";
    }

    private string SayHall(Records.Hall hall) => hall.AsFound is { Value: true }
        ? $"as found, {Frames(hall)}"
        : Frames(hall);

    private string Frames(Records.Hall hall) => Words.Count(desk.Contents.Standings.ByHall[hall.Id].Standing.Length, "frame");

    private string SayKind(CableKind kind) => $"{Words.Of(kind.Family?.Value)}, {Words.Count(desk.References.CablesOf[kind.Id].Count(), "cable")}".TrimStart(',', ' ');

    private static string SayEvent(ArchiveEvent happening)
    {
        var on = happening.On is { } date ? DateText.Of(date.Value) : "undated";
        var of = happening.Of.Length <= 4 ? string.Join(", ", happening.Of.Select(id => id.Value)) : Words.Count(happening.Of.Length, "record");
        return $"{on}, {Words.Of(happening.What?.Value)}: {of}";
    }
}

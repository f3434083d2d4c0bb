using System.Collections.Immutable;
using Archive.Halls.Trays;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Plans.Progress;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Units;

namespace Archive.Site.Pages;

/// <summary>Lists of trays, halls, schemes, displays, stories, events and kinds of cable; and of photos.</summary>
internal sealed class RecordIndexes(
    SiteContents site,
    CrossReferences references,
    UnitIndex units,
    PageFactory pageFactory,
    FactFormatter formatter,
    RowBuilder rowBuilder)
{
    private const int PhotosOnSheet = 48;
    private const int MostNamed = 4;

    private readonly System.Collections.Concurrent.ConcurrentDictionary<string, RowHeading> _markings = new(StringComparer.Ordinal);

    /// <summary>The pages of all these lists.</summary>
    public IEnumerable<OutputFile> Pages()
    {
        var record = site.Record;
        return List(RecordKind.Tray, "Trays", "tray", "ladders, baskets and channels that carry the cables overhead", record.Trays
            .GroupBy(HallOf)
            .SelectMany(group => group), SayTray, HallOf)
            .Concat(List(
                RecordKind.Unit,
                "Units",
                "unit",
                "what plugs or screws into the frames, by what is printed on it",
                units.All
                    .OrderBy(unit => unit.Marking is null)
                    .ThenBy(unit => new NaturalSortKey(MarkingOf(unit)))
                    .ThenBy(unit => MarkingOf(unit), StringComparer.Ordinal)
                    .ThenBy(unit => new NaturalSortKey(unit.At?.Value.ToString() ?? "~")),
                SayUnit,
                MarkingHeading))
            .Concat(List(
                RecordKind.Piece,
                "Pieces",
                "piece",
                "what was taken off the machine and is not a unit, by what it came off",
                record.Pieces
                    .OrderBy(piece => piece.Of is null)
                    .ThenBy(piece => new NaturalSortKey(piece.Of?.Value ?? ""))
                    .ThenBy(piece => new NaturalSortKey(piece.Id)),
                SayPiece,
                PieceHeading))
            .Concat(List(
                RecordKind.Box,
                "Boxes",
                "box",
                "boxes, crates and pallets, and how much is in them",
                record.Boxes.OrderBy(box => new NaturalSortKey(box.Id)),
                (box, location) => Row(box, SayBox(box), location)))
            .Concat(List(
                RecordKind.Document,
                "Documents",
                "document",
                "drawings, manuals, letters, tapes, disks and recordings that explain the machine",
                record.Documents
                    .OrderBy(document => document.Type?.Value ?? DocumentType.Other)
                    .ThenBy(document => new NaturalSortKey(document.Number?.Value ?? "~"))
                    .ThenBy(document => new NaturalSortKey(document.Id)),
                (document, location) => Row(document, SayDocument(document), location),
                DocumentHeading))
            .Concat(List(
                RecordKind.Hall,
                "Halls",
                "hall",
                "where the machine was found, where it is, and where it may go",
                record.Halls,
                (hall, location) => Row(hall, SayHall(hall), location)))
            .Concat(List(
                RecordKind.Scheme,
                "How to read labels",
                "scheme",
                "how printed labels say where a cable goes",
                record.Schemes,
                (scheme, location) => Row(scheme, "", location)))
            .Concat(List(
                RecordKind.Display,
                "Displays",
                "display",
                "what will run again, and the frames needed for it",
                record.Displays,
                (display, location) => Row(display, "", location)))
            .Concat(List(RecordKind.Story, "Stories", "story", "for readers and visitors", StoryPages.InOrder(record), (story, location) =>
                Row(story, "", location)))
            .Concat(List(
                RecordKind.Event,
                "Events",
                "event",
                "what has happened since the machine was found, latest first",
                record.Events.OrderDescending(CrossReferences.EventOrder),
                SayEvent,
                YearOf))
            .Concat(
                List(RecordKind.CableKind, "Kinds of cable", "kind", "type, diameter, weight and bend radius of the cables", record.Kinds
                    .OrderBy(kind => kind.Family?.Value is null or CableFamily.Other)
                    .ThenBy(kind => Phrase.For(kind.Family?.Value), StringComparer.Ordinal)
                    .ThenBy(kind => new NaturalSortKey(kind.Title)), (kind, location) => Row(kind, SayKind(kind), location), FamilyOf))
            .Concat(Photos());
    }

    private IEnumerable<OutputFile> List<T>(
        RecordKind kind,
        string title,
        string noun,
        string says,
        IEnumerable<T> records,
        Func<T, PageLocation, RecordRow> say,
        Func<T, RowHeading>? under = null)
        where T : ArchiveRecord
    {
        var rows = records
            .Where(record => !record.IsWithdrawn)
            .Select(record => (under?.Invoke(record) ?? RowHeading.None, record))
            .ToImmutableArray();
        var grouped = new GroupedRows<T>(
            rows, PagePaths.Index(kind), $"indexes/{kind.Folder()}", row => row.Row.Id, key: record => record.Id);
        for (var number = 1; number <= grouped.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(grouped.Sheets.Path(sheet), location =>
                new RecordIndexPage(pageFactory.Head("record-index", location, title, $"{title}: {grouped.Sheets.Says(sheet, says)}."))
                {
                    Says = sheet > 1 ? "" : $"{Phrase.Count(rows.Length, noun, PluralOf(noun))}: {says}",
                    Groups = grouped.On(sheet, record => say(record, location)),
                    Sheet = grouped.Sheets.On(sheet, location),
                    Csv = new Link("CSV", location.To(PagePaths.Csv(kind))),
                });
        }
    }

    private static RecordRow Row(ArchiveRecord record, string says, PageLocation location) =>
        new(RecordLink.To(record, location), [], says);

    private IEnumerable<OutputFile> Photos()
    {
        var photos = site.Record.Photos.Where(photo => !photo.IsWithdrawn).ToImmutableArray();
        var sheets =
            new PagedList<Photo>(photos, PagePaths.Index(RecordKind.Photo), "indexes/photos", photo => photo.Id)
            {
                Size = PhotosOnSheet,
                Key = photo => photo.Id,
            };
        for (var number = 1; number <= sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(sheets.Path(sheet), location =>
                new PhotoIndexPage(pageFactory.Head(
                    "photo-index", location, "Photos", Phrase.Sentence(sheets.Says(sheet, Phrase.Count(photos.Length, "photo")))))
                {
                    Count = photos.Length,
                    Photos = [.. sheets.RowsOf(sheet).Select(photo => rowBuilder.Thumb(photo, location))],
                    Sheet = sheets.On(sheet, location),
                    Csv = new Link("CSV", location.To(PagePaths.Csv(RecordKind.Photo))),
                });
        }
    }

    private RowHeading HallOf(Tray tray) => tray.Hall is not { } id
        ? new RowHeading("Hall unknown", "no-hall")
        : new RowHeading(site.Record.Find(id.Value)?.Title ?? id.Value, "in-" + PagePaths.Anchor(id.Value));

    private static string? PluralOf(string noun) => noun switch
    {
        "story" => "stories",
        "box" => "boxes",
        _ => null,
    };

    private RecordRow SayPiece(Piece piece, PageLocation location) => Row(piece, string.Join(", ", new[]
    {
        piece.Place is { } place ? Phrase.OneLine(place.Value) : "",
        piece.Count is { Value: > 1 } count ? $"{Phrase.Count(count.Value)} together" : "",
        site.Basis.Progress.JourneyOf(piece.Id)?.Box is { } box ? $"in {box}" : "",
    }.Where(part => part.Length > 0)), location);

    private static RowHeading PieceHeading(Piece piece) => piece.Of is { } of
        ? new RowHeading($"Off {of.Value}", "off-" + PagePaths.Anchor(of.Value))
        : new RowHeading("What it came off is not recorded", "off-nothing");

    private string SayDocument(Document document) => string.Join(", ", new[]
    {
        DocumentText.Describe(document),
        document.Date is { } date ? DateText.Format(date.Value) : "",
        site.Documents.GetValueOrDefault(document.Id)?.PageCount is > 0 and var pages ? Phrase.Count(pages, "page") : "",
        document.Withheld is null ? "" : "withheld",
    }.Where(part => part.Length > 0));

    private static RowHeading DocumentHeading(Document document)
    {
        var type = document.Type?.Value ?? DocumentType.Other;
        var noun = type == DocumentType.Other ? "Other documents" : Phrase.Sentence(DocumentText.Noun(document)).TrimEnd('.');
        return new RowHeading(
            type is DocumentType.Software or DocumentType.Other ? noun : noun + "s", "type-" + type.ToString().ToLowerInvariant());
    }

    private string SayBox(Box box) => string.Join(", ", new[]
    {
        site.Basis.Boxes.Content(box.Id).Count() is var count and > 0 ? Phrase.Count(count, "thing") : "empty",
        site.Basis.Progress.JourneyOf(box.Id) is { } journey ? SituationText.Describe(journey, site.Record) : "not used yet",
    });

    private RecordRow SayTray(Tray tray, PageLocation location)
    {
        var cables = site.Trays[tray.Id].Cables.Length;
        var size = tray.Size is { } known ? formatter.Text.Format(known.Value) : "";
        return Row(tray, string.Join(", ", new[]
        {
            WhereOf(tray),
            size,
            cables > 0 ? Phrase.Count(cables, "cable") : size.Length > 0 ? "" : "no cables"
        }.Where(part => part.Length > 0)), location);
    }

    private string WhereOf(Tray tray) =>
        tray.Hall is { } id && site.Record.Find<Hall>(id.Value) is { } hall && site.HallLayouts.ByHall.TryGetValue(hall.Id, out var layout)
            ? TrayPlace.Describe(layout, tray)
            : "";

    private static string MarkingOf(Unit unit) => unit.Marking is { } marking ? Phrase.OneLine(marking.Value) : "";

    // Spares for a repair, and what is the only one of its type, can be seen from the headings.
    private RowHeading MarkingHeading(Unit unit)
    {
        if (unit.Marking is null) return new RowHeading("Marking not recorded", "no-marking");
        var marking = MarkingOf(unit);
        return _markings.TryGetValue(marking, out var known) ? known : _markings[marking] = Heading(marking);
    }

    private RowHeading Heading(string marking)
    {
        var (count, spare) = (units.Marked(marking).Length, units.Marked(marking).Count(unit => unit.Spare is { Value: true }));
        var spares = spare == 0 ? "no spare" : $"{Phrase.Count(spare)} spare";
        return new RowHeading(
            $"{marking}: {(count == 1 ? spare == 1 ? "one, a spare" : "the only one" : $"{Phrase.Count(count)}, {spares}")}",
            "marked-" + PagePaths.Anchor(marking));
    }

    private RecordRow SayUnit(Unit unit, PageLocation location) => Row(unit, string.Join(", ", new[]
    {
        unit.At is { } at ? at.Value.ToString() : "in no frame",
        unit.Serial is { } serial ? $"serial {Phrase.OneLine(serial.Value)}" : "",
        unit.Spare is { Value: true } ? "spare" : "",
    }.Where(part => part.Length > 0)), location);

    private string SayHall(Hall hall) => hall.AsFound is { Value: true }
        ? $"as found, {Frames(hall)}"
        : Frames(hall);

    private string Frames(Hall hall) =>
        site.HallLayouts.ByHall[hall.Id].PlacedFrames.Length is > 0 and var standing ? Phrase.Count(standing, "frame") : "no rows";

    private string SayKind(CableKind kind) => Phrase.Count(references.CablesOf[kind.Id].Count(), "cable");

    private static RowHeading FamilyOf(CableKind kind) => kind.Family is not { } family || family.Value is CableFamily.Other
        ? new RowHeading("Other", "family-other")
        : new RowHeading(Phrase.Sentence(Phrase.For(family.Value)).TrimEnd('.'), "family-" + family.Value.ToString().ToLowerInvariant());

    private static RowHeading YearOf(ArchiveEvent archiveEvent) => archiveEvent.On is { Value.Text: { Length: >= 4 } on }
        ? new RowHeading(on[..4], "year-" + on[..4])
        : new RowHeading("Undated", "undated");

    // What many things were, by the names that a crew gives them.
    private string Befell(ArchiveEvent archiveEvent)
    {
        var kinds = archiveEvent.Subjects.DistinctBy(id => id.Value).Select(id => site.Record.Find(id.Value)?.RecordKind).ToList();
        return kinds.All(kind => kind is RecordKind.Cable) ? Phrase.Count(kinds.Count, "cable")
            : kinds.All(kind => kind is RecordKind.Frame) ? Phrase.Count(kinds.Count, "frame")
            : kinds.All(kind => kind is RecordKind.Cable or RecordKind.Frame)
            ? $"{Phrase.Count(kinds.Count(kind => kind is RecordKind.Frame), "frame")} and {Phrase.Count(kinds.Count(kind => kind is RecordKind.Cable), "cable")}"
            : Phrase.Count(kinds.Count, "thing");
    }

    // Named by day and deed; what it befell by id, or by number where there are many.
    private RecordRow SayEvent(ArchiveEvent archiveEvent, PageLocation location)
    {
        var line = rowBuilder.Event(archiveEvent, location);
        var few = archiveEvent.Of.Length + archiveEvent.Ends.Length <= MostNamed;
        return new RecordRow(
            line.Event with { Name = $"{line.On}, {line.What}" }, few ? line.Of : [],
            (few ? "" : Befell(archiveEvent)) + (line.To is { } hall ? $", {hall.Text}" : ""));
    }
}

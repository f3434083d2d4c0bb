using System.Collections.Immutable;
using System.Globalization;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.PhotoPlaces;
using Archive.Wiring.Graph;
using Archive.Wiring.Labels;

namespace Archive.Site.Parts;

/// <summary>Makes the rows and small parts that many pages show.</summary>
internal sealed class RowBuilder(
    SiteContents site, CrossReferences references, ProseRenderer prose, FactFormatter formatter, PhotoOutlines outlines)
{
    private const int MostNamed = 3;

    private const int ThumbnailWidth = 480;
    private const int MostSubjects = 12;
    private const int MostOthers = 3;

    public CableRow Cable(Cable cable, PageLocation location) => Cable(cable, location, Ends(cable, location));

    /// <summary>A cable as the row of one of its ends: that end first.</summary>
    public CableRow Cable(FrameEnd end, PageLocation location)
    {
        var far = end.Far.Select(other => At(other, location)).ToList();
        return Cable(end.Cable, location, [At(end.Here, location), .. far.Count > 0 ? far : [NotKnown]]);
    }

    /// <summary>The ends of a cable, at least two: what is not known is said.</summary>
    public ImmutableArray<EndPlace> Ends(Cable cable, PageLocation location)
    {
        var ends = ImmutableArray.CreateBuilder<EndPlace>(2);
        foreach (var end in site.Readings.Find(cable.Id)?.Ends ?? []) ends.Add(At(end, location));
        while (ends.Count < 2) ends.Add(NotKnown);
        return ends.ToImmutable();
    }

    /// <summary>An end that neither observation nor print gives.</summary>
    public static EndPlace NotKnown { get; } = new("unknown", "unknown", null, "", null, false);

    /// <summary>A known end.</summary>
    public EndPlace At(KnownEnd end, PageLocation location)
    {
        var frame = site.Record.FrameAt(end.At);
        var href = frame is null ? (Href?)null : location.To(PagePaths.For(frame), AnchorOf(frame, end.At));
        var local = end.At.WithinFrame ?? end.At.Frame;
        var mark = end.IsDerived ? EvidenceText.FromLabel : formatter.Mark(end.Seen?.At?.Evidence);
        return new EndPlace(end.At.ToString(), local, href, frame is null || frame.Title == frame.Id ? "" : frame.Title, mark, true);
    }

    /// <summary>
    /// What is to be read on a cable, exactly as written: its label, else the tags at its ends; empty where there is nothing.
    /// </summary>
    public static ImmutableArray<string> PrintOn(Cable cable) =>
        cable.Label is { } label ? [label.Value] : [.. cable.Ends.Select(end => end.Label?.Value).OfType<string>().Distinct()];

    /// <summary>The kind of a cable as a link.</summary>
    public Link? KindOf(Cable cable, PageLocation location) => cable.Kind is not { } id
        ? null
        : site.Record.Find<CableKind>(id.Value) is { } kind ? new Link(kind.Title, location.To(kind)) : new Link(id.Value, null);

    /// <summary>A record by a written id, as a link; an id that leads nowhere is shown all the same.</summary>
    /// <param name="id">The id as written.</param>
    public RecordLink Record(string id, PageLocation location) =>
        site.Record.Find(id) is { } record ? RecordLink.To(record, location) : new RecordLink(id, "not in this record", null);

    /// <summary>A photo in small.</summary>
    public Thumbnail Thumb(Photo photo, PageLocation location) =>
        new(
            RecordLink.To(photo, location),
            Picture(photo, location, ThumbnailWidth),
            Phrase.For(photo.View?.Value),
            photo.Caption is { } caption ? UnbrokenIds.In(MarkdownText.Plain(caption.Value)) : HtmlFragment.None);

    /// <summary>A photo in small with a frame outlined in it, if it shows several; it leads to where the frame is.</summary>
    public Thumbnail Thumb(Photo photo, Frame frame, PageLocation location) =>
        Outlined(photo, outlines.FrameIn(photo, frame.Id), null, location);

    /// <summary>A photo in small with a frame and the position of an address in it outlined, if it shows several frames.</summary>
    public Thumbnail Thumb(Photo photo, Frame frame, Address at, PageLocation location) =>
        Outlined(photo, outlines.FrameIn(photo, frame.Id), outlines.PositionIn(photo, at), location);

    private Thumbnail Outlined(Photo photo, PhotoOutline? frame, PhotoOutline? position, PageLocation location)
    {
        var thumb = Thumb(photo, location);
        return (position ?? frame) is not { } nearest
            ? thumb
            : thumb with
            {
                Photo = thumb.Photo with { Href = location.To(photo).At(nearest.Box) },
                Outlines = [.. new[] { frame, position }.OfType<PhotoOutline>().Select(View)],
            };
    }

    /// <summary>An outline as pages draw it.</summary>
    public static OutlineView View(PhotoOutline outline) => new(
        outline.Name,
        Thousandths(outline.Box.Left),
        Thousandths(outline.Box.Top),
        Thousandths(outline.Box.Width),
        Thousandths(outline.Box.Height),
        !outline.IsRecorded);

    /// <summary>A fraction in thousandths, as outlines are drawn.</summary>
    public static string Thousandths(double fraction) => Math.Round(fraction * 1000, 2).ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>Thousandths as a percentage: 454 is <c>45.4%</c>.</summary>
    public static string Percent(string thousandths) =>
        (double.Parse(thousandths, CultureInfo.InvariantCulture) / 10).ToString("0.###", CultureInfo.InvariantCulture) + "%";

    /// <summary>What a photo shows, in a few words, such as <c>R2-05 and R2-06, front</c>.</summary>
    public string WhatIsIn(Photo photo)
    {
        var view = photo.View is { } of ? Phrase.For(of.Value) : "";
        var shows = photo.Shows.Select(id => site.Record.Find(id.Value) is { } record ? RecordNames.For(record) : id.Value)
            .Distinct(StringComparer.Ordinal)
            .ToList();
        if (shows.Count == 0) return view;
        var named = shows.Count > MostNamed
            ? $"{string.Join(", ", shows.Take(MostNamed - 1))} and {Phrase.Count(shows.Count - MostNamed + 1)} more"
            : Phrase.Listed(shows);
        return view.Length == 0 ? named : $"{named}, {view}";
    }

    /// <summary>A photo's picture; null where it was not developed.</summary>
    /// <param name="width">The width that any browser gets: the least one at least so wide.</param>
    public Picture? Picture(Photo photo, PageLocation location, int width)
    {
        if (!site.Photos.TryGetValue(photo.Id, out var published) || published.Derivatives.Length == 0) return null;
        var chosen = published.Derivatives.Where(picture => picture.Width >= width).MinBy(picture => picture.Width)
            ?? published.Derivatives.MaxBy(picture => picture.Width)!;
        return new Picture(
            location.To(chosen.Path),
            Set(published.Derivatives),
            Set(published.LightDerivatives),
            chosen.Width,
            chosen.Height,
            AltOf(photo));

        string Set(ImmutableArray<PublishedPicture> pictures) =>
            string.Join(", ", pictures.Select(picture => $"{location.To(picture.Path)} {Phrase.Number(picture.Width)}w"));
    }

    /// <summary>Photos that show a record, by view: fronts first, those without a view last.</summary>
    public ImmutableArray<PhotoGroup> PhotosOf(ArchiveRecord record, PageLocation location) =>
    [
        .. references.PhotosOf[record.Id]
            .GroupBy(photo => photo.View?.Value)
            .OrderBy(group => group.Key ?? (PhotoView)int.MaxValue)
            .Select(group => new PhotoGroup(Phrase.For(group.Key), [
                .. group.Select(photo => record is Frame frame ? Thumb(photo, frame, location) : Thumb(photo, location))
            ])),
    ];

    /// <summary>Documents that explain a record.</summary>
    public ImmutableArray<DocumentLine> DocumentsOf(ArchiveRecord record, PageLocation location) =>
    [
        .. references.DocumentsOf[record.Id].Select(mention => new DocumentLine(
            RecordLink.To(mention.Document, location),
            DocumentText.Describe(mention.Document),
            [.. mention.Pages.Select(page => new Link(
                $"page {Phrase.Number(page)}", location.To(PagePaths.For(mention.Document), PagePaths.PageAnchor(page))))],
            PageOf(mention) is { } shown ? Picture(shown, location, ThumbnailWidth) : null)),
    ];

    private Photo? PageOf(DocumentMention mention) =>
        site.Documents.GetValueOrDefault(mention.Document.Id)?.PictureOf(mention.Pages.IsEmpty ? 1 : mention.Pages[0]);

    /// <summary>What a frame or display needs, line by line.</summary>
    public ImmutableArray<NeedLine> Needs(ImmutableArray<Need> needs, PageLocation location) =>
        [.. needs.Select(need => NeedOf(need, location))];

    /// <summary>The cable ends at a frame, by position and port as the frame lists them, then by id.</summary>
    public ImmutableArray<FrameEnd> AtFrame(Frame frame)
    {
        var order = new Dictionary<string, int>(LeadingZeros.Comparer);
        foreach (var position in frame.Positions) order.TryAdd(position.Id.Value, order.Count);
        return [.. site.Graph.At(frame.Id).OrderBy(end => Key(end.Here.At)).ThenBy(end => end.Cable.Id, StringComparer.Ordinal)];

        // A position that the frame does not list comes behind those it does; an end at the frame as a whole comes last.
        (int, NaturalSortKey, NaturalSortKey) Key(Address at) => (
            at.Position is null ? int.MaxValue : order.GetValueOrDefault(at.Position, int.MaxValue - 1),
            new NaturalSortKey(at.Position ?? ""),
            new NaturalSortKey(at.Port ?? ""));
    }

    /// <param name="on">The record on whose page it stands, or null.</param>
    public EventLine Event(ArchiveEvent archiveEvent, PageLocation location, ArchiveRecord? on = null)
    {
        var of = archiveEvent.Subjects.Where(id => on is null || site.Record.Find(id.Value) != on).DistinctBy(id => id.Value).ToList();
        // On the page of one thing, of many others only how many: the event's page names them.
        var shown = on is null ? MostSubjects : of.Count <= MostOthers ? MostOthers : 0;
        var hall = archiveEvent.ToHall is { } id ? site.Record.Find(id.Value) : null;
        return new EventLine(
            RecordLink.To(archiveEvent, location),
            archiveEvent.On is { } date ? DateText.Format(date.Value) : "undated",
            Phrase.For(archiveEvent.What?.Value) + AtEnds(archiveEvent, on),
            [.. of.Take(shown).Select(id => Record(id.Value, location))],
            Math.Max(0, of.Count - shown),
            hall is null ? null : new Link(hall.Title, location.To(hall)),
            archiveEvent.Into is { } box && box.Value != on?.Id ? Record(box.Value, location) : null,
            archiveEvent.ToPlace?.Value ?? "",
            string.Join(", ", archiveEvent.By.Select(by => EvidenceText.PersonName(by.Value, site.Record))),
            prose.Line(archiveEvent.Note?.Value, location));
    }

    // At which ends of the cable on whose page it is said; of others the event's own page says so.
    private string AtEnds(ArchiveEvent archiveEvent, ArchiveRecord? on) =>
        archiveEvent.Ends
            .Where(end => on is not null && site.Record.Find(end.Cable.Value) == on)
            .Select(end => end.At.Value.ToString())
            .ToList() is { Count: > 0 } ends ? $" at {Phrase.Listed([.. ends])}" : "";

    private CableRow Cable(Cable cable, PageLocation location, ImmutableArray<EndPlace> ends) => new(
        RecordLink.To(cable, location),
        cable.Label?.Value ?? "",
        KindOf(cable, location),
        ends,
        formatter.Format(cable.Length),
        Phrase.For(cable.Fate?.Value));

    private NeedLine NeedOf(Need need, PageLocation location) => need switch
    {
        FrameNeed frame => new NeedLine("", [Record(frame.Frame.Value, location)]),
        AnyNeed { Module: { } module } any => new NeedLine(
            $"any {Phrase.Count(any.Any.Value)} of the {Phrase.Count(references.ByModule[module.Value].Count(), "frame")} of module {module.Value}",
            [.. references.ByModule[module.Value].Take(MostSubjects).Select(frame => RecordLink.To(frame, location))]),
        AnyNeed any => new NeedLine(
            any.Any.Value == 1 ? "any one of" : $"any {Phrase.Count(any.Any.Value)} of",
            [.. CrossReferences.FramesNeeded(any.Of).Take(MostSubjects).Select(frame => Record(frame.Value, location))]),
        _ => new NeedLine("", []),
    };

    /// <summary>Anchor of an address on its frame's page; null where the frame does not list the position.</summary>
    public static string? AnchorOf(Frame frame, Address at) =>
        at.Position is { } position && frame.Positions.Any(known => LeadingZeros.Comparer.Equals(known.Id.Value, position))
            ? PagePaths.PositionAnchor(position)
            : null;

    private static string AltOf(Photo photo)
    {
        var caption = photo.Caption is { } said ? MarkdownText.Plain(said.Value) : "";
        if (caption.Length > 0) return caption;
        var view = photo.View is { } of ? Phrase.For(of.Value) : "photo";
        var shows = string.Join(", ", photo.Shows.Take(4).Select(id => id.Value));
        return shows.Length > 0 ? $"{view} of {shows}" : $"photo {photo.Id}";
    }
}

using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;

namespace Archive.Search.Documents;

/// <summary>Makes every record findable: by id and former ids, label, name, place, people, dates, prose.</summary>
public sealed class SearchDocuments
{
    // Letters of a document's files that are searched: a manual of some hundred pages.
    private const int MostText = 500_000;

    private readonly ArchiveModel _record;
    private readonly Dictionary<string, string> _rowOf;

    private readonly Func<string, string> _textOf;

    private SearchDocuments(ArchiveModel record, Func<string, string> textOf)
    {
        (_record, _textOf) = (record, textOf);
        _rowOf = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var (hall, row) in record.Halls
            .OrderBy(hall => hall != record.AsFoundHall)
            .SelectMany(hall => hall.Rows.Select(row => (hall, row))))
        {
            foreach (var place in row.Places)
            {
                if (place.Frame is { } frame && record.Find<Frame>(frame.Value) is { } stands) _rowOf.TryAdd(stands.Id, row.Id.Value);
            }
        }
    }

    /// <summary>
    /// The documents of a record: stories, frames, displays, halls, schemes, kinds, trays, units, pieces, boxes, cables, photos,
    /// documents, events; each kind by id; then the other pages.
    /// </summary>
    /// <param name="pages">Pages that are no record's.</param>
    /// <param name="textOf">What is written and said in the files of a document, by its id; null if that is not searched.</param>
    public static ImmutableArray<SearchDocument> Create(
        ArchiveModel record, IEnumerable<SearchDocument> pages, Func<string, string>? textOf = null)
    {
        var documents = new SearchDocuments(record, textOf ?? (_ => ""));
        return
        [
            .. record.Stories.Select(story => Plain(story) with { Prose = MarkdownText.Untitled(Plain(story.Body.Value), story.Title) }),
            .. record.Frames.Select(documents.Create),
            .. record.Displays.Select(display => Plain(display)),
            .. record.Halls.Select(hall => Plain(hall) with { Touches = [.. hall.Rows.Select(row => row.Id.Value)] }),
            .. record.Schemes.Select(scheme => Plain(scheme)),
            .. record.Kinds.Select(kind => Plain(kind) with
            {
                Lead = Phrase.For(kind.Family?.Value),
                Touches = [Phrase.For(kind.Family?.Value), kind.Gauge?.Value.Text ?? ""]
            }),
            .. record.Trays.Select(tray => Plain(tray) with { Lead = Text(tray.Hall), Touches = [Text(tray.Hall)] }),
            .. record.Units.Select(documents.Create),
            .. record.Pieces.Select(piece => Plain(piece) with
            {
                Lead = Text(piece.Place),
                Tail = Text(piece.Of),
                Touches = [Text(piece.Of), Text(piece.Place)],
                Facets = [.. documents.OfFrames([piece.Of is { } of ? record.Find<Frame>(of.Value)?.Id : null])],
            }),
            .. record.Boxes.Select(box => Plain(box)),
            .. record.Cables.Select(documents.Create),
            .. record.Photos.Select(documents.Create),
            .. record.Documents.Select(documents.Create),
            .. record.Events.Select(documents.Create),
            .. pages,
        ];
    }

    private SearchDocument Create(Frame frame)
    {
        var found = frame.Found;
        var plain = Plain(frame);
        return plain with
        {
            Lead = Text(frame.Module),
            Places = [.. frame.Positions.Select(position =>
                new SearchPlace(Line(position.Id.Value, Text(position.Holds)), PagePaths.PositionAnchor(position.Id.Value)))],
            Own = [.. plain.Own, .. frame.Positions.Select(position => $"{frame.Id}/{position.Id.Value}")],
            Names = [.. plain.Names, Text(frame.Module)],
            Touches = [Person(found?.By?.Value), Text(found?.On?.Value.Text)],
            Prose = Told([plain.Prose, .. frame.Positions.Select(position => Told(Text(position.Holds), Plain(Text(position.Note))))]),
            Facets = [.. OfFrames([frame.Id]), .. Dated(found?.On?.Value), .. By(found?.By?.Value)],
        };
    }

    private SearchDocument Create(Unit unit)
    {
        var plain = Plain(unit);
        return plain with
        {
            Lead = Line(Text(unit.Marking), Text(unit.Serial) is { Length: > 0 } serial ? $"serial {serial}" : ""),
            Tail = unit.At?.Value.ToString() ?? "",
            Own = [.. plain.Own, Text(unit.Marking), Text(unit.Serial)],
            Touches =
            [
                unit.At is { } at ? $"{at.Value} {at.Value.At}" : "",
                Text(unit.Firmware),
                .. unit.Straps.Select(strap => $"{strap.Name} {strap.Setting.Value}"),
                unit.Spare is { Value: true } ? "spare" : ""
            ],
            Facets = [.. OfFrames([unit.At is { } found ? _record.FrameAt(found.Value.At)?.Id : null])],
        };
    }

    private SearchDocument Create(Cable cable)
    {
        var plain = Plain(cable);
        var kind = cable.Kind is { } id ? _record.Find<CableKind>(id.Value) : null;
        var kindTitle = kind?.Title ?? Text(cable.Kind);
        return plain with
        {
            Lead = cable.Label is { } label ? $"“{label.Value}”" : "",
            Places = [.. cable.Ends.Select((end, i) => new SearchPlace(end.At?.Value.ToString() ?? "", PagePaths.EndAnchor(i)))],
            Tail = kindTitle,
            Own = [.. plain.Own, Text(cable.Label), .. cable.Ends.Select(end => Text(end.Label))],
            Touches =
            [
                .. cable.Ends.Select(end => $"{end.At?.Value} {Text(end.Connector)}"),
                $"{cable.Kind?.Value} {kindTitle}",
                .. cable.LiesIn.Select(tray => tray.Value)
            ],
            Prose = Told([plain.Prose, Plain(Text(cable.Reason)), .. cable.Ends.Select(end => Plain(Text(end.Note)))]),
            Facets =
            [
                .. OfFrames(cable.Ends.Select(end => end.At is { } at ? _record.FrameAt(at.Value)?.Id : null)),
                .. kindTitle.Length > 0 ? [new SearchFacet(FacetKind.CableKind, kindTitle)] : Array.Empty<SearchFacet>()
            ],
        };
    }

    private SearchDocument Create(Photo photo)
    {
        var plain = Plain(photo);
        var shows = photo.Shows.Concat(
            photo.Regions.SelectMany(region => region.Shows)).Select(id => id.Value).Distinct(StringComparer.Ordinal).ToList();
        return plain with
        {
            Lead = photo.Name is null ? "" : Plain(Text(photo.Caption)),
            Tail = Listed(shows),
            Names = [.. plain.Names, photo.Name is null ? "" : Plain(Text(photo.Caption))],
            Touches =
            [
                .. photo.Regions.Select(region => Text(region.Reads)),
                .. shows,
                Phrase.For(photo.View?.Value), Text(photo.Taken?.Value.Text),
                Person(photo.By?.Value),
            ],
            Prose = Told([plain.Prose, .. photo.Regions.Select(region => Plain(Text(region.Note)))]),
            Facets = [.. OfFrames(shows.Select(id => _record.Find<Frame>(id)?.Id)), .. Dated(photo.Taken?.Value), .. By(photo.By?.Value)],
        };
    }

    private SearchDocument Create(Document document)
    {
        var plain = Plain(document);
        var explains = document.Explains.Concat(document.PagesExplain.SelectMany(page => page.Explains))
            .Select(id => id.Value)
            .Distinct(StringComparer.Ordinal)
            .ToList();
        var text = _textOf(document.Id);
        return plain with
        {
            Lead = DocumentText.Describe(document),
            Tail = Listed(explains),
            Own = [.. plain.Own, Text(document.Number)],
            Touches =
            [
                .. explains,
                Text(document.Author),
                Text(document.Date?.Value.Text),
                Text(document.Medium),
                Text(document.Format),
                Text(document.Original)
            ],
            Prose = Told(plain.Prose, Plain(Text(document.Withheld)), Phrase.OneLine(text.Length > MostText ? text[..MostText] : text)),
            Facets = [.. OfFrames(explains.Select(id => _record.Find<Frame>(id)?.Id)), .. Dated(document.Date?.Value)],
        };
    }

    private SearchDocument Create(ArchiveEvent archiveEvent)
    {
        var plain = Plain(archiveEvent);
        var of = archiveEvent.Of.Select(id => id.Value).ToList();
        var what = Phrase.For(archiveEvent.What?.Value);
        return plain with
        {
            Lead = Line(archiveEvent.On is { } on ? DateText.Format(on.Value) : "", what),
            Tail = Listed(of),
            Names = [.. plain.Names, what],
            Touches =
            [
                .. of,
                Text(archiveEvent.On?.Value.Text),
                Text(archiveEvent.ToHall),
                Text(archiveEvent.ToPlace),
                Text(archiveEvent.Into),
                .. archiveEvent.By.Select(by => Person(by.Value))
            ],
            Facets =
            [
                .. OfFrames(of.Select(id => _record.Find<Frame>(id)?.Id)),
                .. Dated(archiveEvent.On?.Value),
                .. archiveEvent.By.SelectMany(by => By(by.Value))
            ],
        };
    }

    // What any record has.
    private static SearchDocument Plain(ArchiveRecord of) => new(of.RecordKind, of.Id)
    {
        Title = of.Title == of.Id ? "" : of is Photo ? Plain(of.Title) : of.Title,
        Own = [of.Id, .. of.Was.Select(was => was.Value)],
        Names = of.Title == of.Id ? [] : [of is Photo ? Plain(of.Title) : of.Title],
        Prose = Told(Plain(Text(of.About)), Plain(Text(of.Note)), Plain(Text(of.Condition)), Plain(Text(of.Withdrawn))),
        File = of.Span.Source.Path,
        Line = of.IdSpan.From.Line + 1,
    };

    private IEnumerable<SearchFacet> OfFrames(IEnumerable<string?> ids)
    {
        var frames = ids.OfType<string>().Select(_record.Find<Frame>).OfType<Frame>().ToList();
        var modules = frames.Select(frame => Text(frame.Module))
            .Where(module => module.Length > 0)
            .Distinct(StringComparer.Ordinal)
            .Select(module => new SearchFacet(FacetKind.Module, module));
        return modules.Concat(frames.Select(frame => _rowOf.GetValueOrDefault(frame.Id))
            .OfType<string>()
            .Distinct(StringComparer.Ordinal)
            .Select(row => new SearchFacet(FacetKind.Row, row)));
    }

    private IEnumerable<SearchFacet> By(string? key) =>
        key is null ? [] : [new SearchFacet(FacetKind.Person, _record.Statement.People.GetValueOrDefault(key)?.Name?.Value ?? key)];

    private string Person(string? key) => key is null ? "" : Line(key, Text(_record.Statement.People.GetValueOrDefault(key)?.Name));

    private static IEnumerable<SearchFacet> Dated(EdtfDate? date)
    {
        if (date?.Earliest is not { } day) yield break;
        var hasMonth = date.Text.Length >= 7
            && date.Text[4] == '-'
            && char.IsAsciiDigit(date.Text[5])
            && day.Month <= 12
            && date.Text[5] <= '1';
        yield return new SearchFacet(FacetKind.Date, hasMonth ? date.Text[..7] : date.Text.Length >= 4 ? date.Text[..4] : date.Text);
    }

    private static string Listed(List<string> ids) =>
        ids.Count <= 6 ? string.Join(' ', ids) : $"{string.Join(' ', ids.Take(6))} and {Phrase.Count(ids.Count - 6)} more";

    private static string Plain(string markdown) => markdown.Length == 0 ? "" : MarkdownText.Plain(markdown);

    private static string Text(Stated<string>? stated) => stated?.Value ?? "";

    private static string Text(string? text) => text ?? "";

    // What was written in several places, as one text: where a part does not end as a sentence does, a semicolon keeps it from the next.
    private static string Told(params ReadOnlySpan<string> parts)
    {
        var joined = "";
        foreach (var part in parts) joined = part.Length == 0
            ? joined
            : joined.Length == 0
            ? part
            : joined + (joined[^1] is '.' or '!' or '?' or ':' or ';' ? " " : "; ") + part;
        return joined;
    }

    private static string Line(params ReadOnlySpan<string> parts)
    {
        var joined = "";
        foreach (var part in parts) joined = part.Length == 0 ? joined : joined.Length == 0 ? part : $"{joined} {part}";
        return joined;
    }
}

using System.Collections.Immutable;
using Archive.Halls.Reach;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Plans.Progress;
using Archive.Plans.Reach;
using Archive.Plans.Safety;
using Archive.Plans.Survey;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>Makes the pages of cables.</summary>
/// <param name="endPhotos">Finds what ends of cables look like.</param>
/// <param name="neighbours">Finds the cables beside a cable.</param>
/// <param name="status">Says where each is and what comes next.</param>
internal sealed class CablePages(
    SiteContents site,
    CrossReferences references,
    PageFactory pageFactory,
    ProseRenderer prose,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    PageDrawings drawings,
    ProvenanceBuilder provenances,
    GapFinder lacks,
    LabelViewBuilder labelViews,
    EndPhotoBuilder endPhotos,
    CableNeighbours neighbours,
    Lazy<RecordStatus> status)
{
    private const int MostNeighbours = 200;

    /// <summary>The page of a cable.</summary>
    /// <param name="cable">A cable that stands.</param>
    public OutputFile Create(Cable cable) => pageFactory.Page(PagePaths.For(cable), location => View(cable, location));

    /// <summary>What a cable's page shows.</summary>
    public CablePage View(Cable cable, PageLocation location)
    {
        var kind = cable.Kind is { } id ? site.Record.Find<CableKind>(id.Value) : null;
        var ends = EndLines(cable, location);
        var between = Between(cable);
        return new CablePage(pageFactory.Head(
            "cable",
            location,
            $"Cable {cable.Id}{between}",
            Description(cable, ends),
            new Link("Cables", location.To(PagePaths.Index(RecordKind.Cable)))))
        {
            Id = cable.Id,
            Name = cable.Title == cable.Id ? "" : cable.Title,
            Between = Phrase.Heading(between.Trim()),
            Label = cable.Label?.Value ?? "",
            Kind = rowBuilder.KindOf(cable, location),
            Facts = Facts(cable, kind, location),
            Cautions = CautionsFor(cable, kind),
            Ends = ends,
            Print = labelViews.Create(cable, location),
            Status = TextPartWriter.Write(status.Value.Of(cable), site.Record, location),
            FateSentence = status.Value.IsOut(cable.Id) ? cable.Fate?.Value == Fate.Sever ? "It was cut." : "" : FateSentence(cable),
            Reason = prose.Line(cable.Reason?.Value, location),
            Trays = [.. cable.LiesIn.Take(MostNeighbours).Select(id => new TrayStop(
                rowBuilder.Record(id.Value, location),
                site.Record.Find<Tray>(id.Value) is { } tray ? neighbours.AlongTray(cable, tray, location) : Beside.None))],
            LiesOver = Links(cable.LiesOver, location),
            LiesUnder = [.. references.CablesOver[cable.Id].Take(MostNeighbours).Select(other => RecordLink.To(other, location))],
            Route = drawings.Route(cable, location),
            InHall = drawings.InHall(cable, location),
            Again = [.. site.Basis.Runs.Reaches.Select(reach => InHall(reach, cable, location)).OfType<CableInHall>()],
            Photos = rowBuilder.PhotosOf(cable, location),
            About = prose.Blocks(cable.About?.Value, location),
            Condition = prose.Blocks(cable.Condition?.Value, location, 2, "condition"),
            Note = prose.Blocks(cable.Note?.Value, location, 2, "note"),
            Events = [.. references.EventsOf[cable.Id].Select(archiveEvent => rowBuilder.Event(archiveEvent, location, cable))],
            Lacks = lacks.Find(cable),
            Provenance = provenances.Create(cable, location, "",
                [
                    ("Label", cable.Label?.Evidence),
                    ("Length", cable.Length?.Evidence),
                    .. cable.Ends.Select(end => ("End", end.At?.Evidence))
                ]),
        };
    }

    private ImmutableArray<RecordLink> Links(ImmutableArray<Stated<string>> ids, PageLocation location) =>
        [.. ids.Take(MostNeighbours).Select(id => rowBuilder.Record(id.Value, location))];

    // Ends whose place is known, then those of which only a tag was seen, then what is missing of two.
    private ImmutableArray<EndLine> EndLines(Cable cable, PageLocation location)
    {
        var known = site.Readings.Find(cable.Id)?.Ends ?? [];
        var lines = known.Select(end => Line(rowBuilder.At(end, location), end.Seen, location) with
        {
            Holds = Holds(end.At),
            Photo = endPhotos.Create(cable, end.At, location),
            Beside = neighbours.AlongShelf(cable, end.At, location),
        }).ToList();
        lines.AddRange(cable.Ends
            .Where(end => end.At is null && !known.Any(k => ReferenceEquals(k.Seen, end)))
            .Select(end => Line(RowBuilder.NotKnown, end, location)));
        while (lines.Count < 2) lines.Add(Line(RowBuilder.NotKnown, null, location));
        return [.. lines];
    }

    private EndLine Line(EndPlace at, CableEnd? end, PageLocation location) =>
        new(at, "", end?.Connector?.Value ?? "", end?.Label?.Value ?? "", prose.Line(end?.Note?.Value, location));

    private string Holds(Address at)
    {
        if (at.Position is not { } position || site.Record.FrameAt(at) is not { } frame) return "";
        return frame.Positions.FirstOrDefault(known => LeadingZeros.Comparer.Equals(known.Id.Value, position))?.Holds?.Value ?? "";
    }

    private ImmutableArray<FactLine> Facts(Cable cable, CableKind? kind, PageLocation location) =>
    [
        new(
            "Kind",
            cable.Kind is { } id ? new FactText(kind?.Title ?? id.Value, formatter.Mark(id.Evidence)) : FactText.Unknown,
            kind is null ? null : location.To(kind)),
        new("Length", formatter.Format(cable.Length)),
        .. AsFoundWay(cable),
        .. cable.Owner is not null ? [new FactLine("Belongs to", formatter.Format(cable.Owner))] : ImmutableArray<FactLine>.Empty,
        .. cable.Permission is { } permission
            ? [new FactLine("May be cut", new FactText(PermissionText(permission)))]
            : ImmutableArray<FactLine>.Empty,
        .. kind?.Diameter is { } diameter ? [new FactLine("Diameter", formatter.Format(diameter))] : ImmutableArray<FactLine>.Empty,
    ];

    private static string PermissionText(Consent permission) => Phrase.Sentence(string.Concat(
        "allowed by ", permission.By?.Value ?? "nobody recorded",
        permission.On is { } on ? $", {DateText.Format(on.Value)}" : "", permission.Document is { } document ? $": {document.Value}" : ""));

    private IEnumerable<FactLine> AsFoundWay(Cable cable)
    {
        if (site.Basis.Runs.ByCable.GetValueOrDefault(cable.Id) is not { Length: { } length } path) yield break;
        // Where the tails of a harness leave the trays is not recorded: its route is the least that it can be.
        var hasTails = (site.Readings.Find(cable.Id)?.Ends.Length ?? 0) > 2;
        yield return new FactLine("Route as found", new FactText(
            (hasTails ? "at least " : "") + formatter.Text.FormatComputed(length), EvidenceText.Derived("its ports, frames and trays")));
        if (path.Slack is not { } slack) yield break;
        yield return new FactLine("Slack as found", new FactText(
            slack < UnitsNet.Length.Zero
                ? $"none: its length is {formatter.Text.FormatComputed(-slack)} less than its route, so one of the two is wrong"
                : (hasTails ? "at most " : "") + formatter.Text.FormatComputed(slack), EvidenceText.Derived("its length and route")));
    }

    private CableInHall? InHall(HallReach reach, Cable cable, PageLocation location)
    {
        if (reach.ByCable.GetValueOrDefault(cable.Id) is not { IsHere: true } judged) return null;
        var text = formatter.Text;
        var needs = judged.Needed is { } needed
            ? $"It needs {Phrase.Unbroken(text.FormatComputed(needed))}: {Phrase.Unbroken(text.FormatComputed(judged.Path!.Value))} from port to port, plus {Phrase.Unbroken(text.FormatComputed(reach.Allowance))} at each end."
            : "";
        return new CableInHall(
            new Link(reach.Layout.Hall.Title, location.To(reach.Layout.Hall)),
            ReachSentences.Verdict(judged, text),
            needs,
            drawings.Route(reach, judged, location));
    }

    // Between which frames it runs, as far as that is known, with a blank before it.
    private string Between(Cable cable)
    {
        var frames = (site.Readings.Find(cable.Id)?.Ends ?? []).Select(end => site.Record.FrameAt(end.At)?.Id ?? end.At.Frame).ToList();
        return frames.Distinct(StringComparer.Ordinal).ToList() switch
        {
            [] => "",
            [var only] => frames.Count > 1 ? $" within {only}" : $" from {only}",
            [var first, .. var others] => $" from {first} to {string.Join(" and ", others)}",
        };
    }

    private static ImmutableArray<Caution> CautionsFor(Cable cable, CableKind? kind)
    {
        return
        [
            .. cable.Owner is not null ? [StandardCautions.NotOurs] : Array.Empty<Caution>(),
            .. HazardCautions.For(kind?.Hazards ?? []),
            .. StandardCautions.For(kind?.Family?.Value) is { } ofKind ? [ofKind] : Array.Empty<Caution>(),
            .. cable.LiesIn.Length > 0 ? [StandardCautions.Overhead] : Array.Empty<Caution>(),
        ];
    }

    private static string FateSentence(Cable cable) => cable.Fate?.Value switch
    {
        Fate.Coil => cable.CoilTo is { } frame
            ? $"What happens to it: disconnected at the far end, coiled and lashed to {frame.Value}."
            : "What happens to it: disconnected at one end, coiled and lashed.",
        Fate.Remove => "What happens to it: disconnected at both ends and taken out.",
        Fate.Sever => "What happens to it: cut.",
        Fate.Leave => "What happens to it: left in place.",
        _ => "",
    };

    private static string Description(Cable cable, ImmutableArray<EndLine> ends) =>
        $"Cable {cable.Id}{(cable.Label is { } label ? $", labelled “{label.Value}”" : "")}: {string.Join(" to ", ends.Select(end => end.At.Text))}.";
}

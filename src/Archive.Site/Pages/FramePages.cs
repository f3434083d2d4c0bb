using System.Collections.Immutable;
using Archive.Drawings.Frames;
using Archive.Halls.Layout;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Plans.Progress;
using Archive.Plans.Safety;
using Archive.Plans.Survey;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Iiif;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Site.PlanPages;
using Archive.Storage.Output;
using Archive.Wiring.Graph;
using Archive.Wiring.Ports;
using Archive.Wiring.Units;

namespace Archive.Site.Pages;

/// <summary>Makes the pages of frames.</summary>
/// <param name="lists">The lists that pages link into.</param>
/// <param name="status">Says where each is and what comes next.</param>
/// <param name="listedAlone">Whether the steps that free a frame have a list of their own.</param>
internal sealed class FramePages(
    SiteContents site,
    CrossReferences references,
    PageFactory pageFactory,
    ProseRenderer prose,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    SharedIndexes lists,
    PageDrawings drawings,
    ProvenanceBuilder provenances,
    GapFinder lacks,
    Lazy<RecordStatus> status,
    Func<string, bool> listedAlone,
    UnitIndex units,
    UnitRows unitRows,
    PhotoPairBuilder pairs)
{
    // A frame that reaches a grown person's shoulder, about 1.4 m, can topple onto them: common practice, no source.
    private const double TallMillimetres = 1400;

    /// <summary>The pages of a frame: its own, and one more for each further sheet of its cables.</summary>
    /// <param name="frame">A frame that stands.</param>
    public IEnumerable<OutputFile> Create(Frame frame)
    {
        var sheets = SheetsOf(frame);
        for (var number = 1; number <= sheets.Count; number++)
        {
            var sheet = number;
            yield return sheet == 1
                ? pageFactory.Page(sheets.Path(1), location => View(frame, location))
                : pageFactory.Page(
                    sheets.Path(sheet), location => lists.CablesOf(frame, sheets, sheet, location, end => rowBuilder.Cable(end, location)));
        }
    }

    /// <summary>What a frame's page shows.</summary>
    public FramePage View(Frame frame, PageLocation location)
    {
        var sheets = SheetsOf(frame);
        var stands = site.HallLayouts.PlacementsOf(frame.Id);
        var module = frame.Module?.Value;
        var ports = PortsOf(frame, sheets, location);
        ImmutableArray<FacePort> PortsOn(Position position) =>
            [.. ports[position].Select(port => new FacePort(port.Line.Name, port.Line.State, port.Far, port.FarFrame, port.Href?.Value))];
        ImmutableArray<FaceSlot> SlotsOn(Position position) => [.. SlotsOf(frame, position, location)];
        return new FramePage(pageFactory.Head("frame", location, Title(frame), Description(frame), TrailOf(location)))
        {
            Id = frame.Id,
            Name = frame.Title == frame.Id ? "" : frame.Title,
            Module = module is null ? null : new Link(module, lists.Frames.ModuleHref(module, location)),
            Facts = [.. Facts(frame), .. Manifest(frame, location)],
            Cautions = CautionsFor(frame),
            Status = TextPartWriter.Write(status.Value.Of(frame), site.Record, location),
            Stands = [.. stands.Select(placement => StandOf(placement, location))],
            Elevation = drawings.Elevation(frame, unitRows.ContentOf(frame)),
            Front = drawings.Face(frame, PortsOn, SlotsOn, isRear: false),
            Rear = drawings.Face(frame, PortsOn, SlotsOn, isRear: true),
            Photos = rowBuilder.PhotosOf(frame, location),
            PhotosBeside = [.. PhotosBeside(frame, location)],
            Pairs = pairs.Of(frame, location),
            Cables = CablesOf(sheets, location),
            CableCount = sheets.Rows.Count,
            Reconnection = sheets.Rows.Count == 0
                ? null
                : new Link("The same cables, in the order in which to reconnect them", location.To(ReconnectionPages.PathOf(frame))),
            TakingOut = listedAlone(frame.Id)
                ? new Link($"The steps that free {frame.Id}, to print or one by one", location.To(CrewSheetPages.PathOf(frame.Id)))
                : null,
            Sheet = sheets.On(1, location),
            Positions = PositionRows(frame, sheets, ports, location),
            Slots = unitRows.MapOf(frame, location),
            UnitCount = units.In(frame.Id).Count(),
            Needs = rowBuilder.Needs(frame.Needs, location),
            NeededBy = [.. references.NeededBy[frame.Id].Select(other => RecordLink.To(other, location))],
            WantedBy = [.. references.WantedBy[frame.Id].Select(display => RecordLink.To(display, location))],
            About = prose.Blocks(frame.About?.Value, location),
            Condition = prose.Blocks(frame.Condition?.Value, location, 3, "condition"),
            Note = prose.Blocks(frame.Note?.Value, location, 2, "note"),
            Events = [.. references.EventsOf[frame.Id].Select(archiveEvent => rowBuilder.Event(archiveEvent, location, frame))],
            Lacks = lacks.Find(frame),
            Provenance = provenances.Create(frame, location, Found(frame),
                [("Weight", frame.Weight?.Evidence), ("Size", frame.Size?.Evidence), .. frame.Draws.SelectMany(DrawEvidence)]),
        };
    }

    // The nearest frames to either side that have photos.
    private IEnumerable<Link> PhotosBeside(Frame frame, PageLocation location)
    {
        if (site.HallLayouts.PlacementsOf(frame.Id) is not [var placement, ..]) yield break;
        var (row, at) = (placement.Row.Frames, placement.Placed.Index);
        foreach (var side in new[] { row.Take(at).Reverse(), row.Skip(at + 1) })
        {
            if (side.FirstOrDefault(other => references.PhotosOf[other.Frame.Id].Any()) is { } beside)
                yield return new Link(beside.Frame.Id, location.To(PagePaths.For(beside.Frame), "photos"));
        }
    }

    // The first cable of each position, and of each port, can be led to.
    private ImmutableArray<CableRow> CablesOf(PagedList<FrameEnd> sheets, PageLocation location)
    {
        var begun = new HashSet<string>(StringComparer.Ordinal);
        return [.. sheets.RowsOf(1).Select(end =>
        {
            var row = rowBuilder.Cable(end, location);
            if (end.Here.At.Position is not { } position) return row;
            return row with
            {
                Anchor = NewIn(begun, PagePaths.CablesAnchor(position)),
                PortAnchor = end.Here.At.Port is { } port ? NewIn(begun, PagePaths.PortAnchor(position, port)) : "",
            };
        })];
    }

    private static string NewIn(HashSet<string> begun, string anchor) => begun.Add(anchor) ? anchor : "";

    // What is known of the ports of each position, and where it is read.
    private Dictionary<Position, ImmutableArray<(PortLine Line, string Far, string FarFrame, Href? Href)>> PortsOf(
        Frame frame, PagedList<FrameEnd> sheets, PageLocation location)
    {
        var known = new FramePorts(frame, sheets.Rows, site.Basis.Progress);
        var places = new Dictionary<(string Cable, Address At), int>();
        for (var i = 0; i < sheets.Rows.Count; i++) places.TryAdd((sheets.Rows[i].Cable.Id, sheets.Rows[i].Here.At), i);
        return frame.Positions.DistinctBy(position => position).ToDictionary(position => position, position => known.Of(position)
            .Select(line =>
            {
                if (line.Ends.IsEmpty) return (line, "", "", (Href?)null);
                var far = line.Ends[0].Far.Select(end => end.At).ToList();
                var sheet = sheets.SheetOf(places[(line.Ends[0].Cable.Id, line.Ends[0].Here.At)]);
                return (
                    line,
                    far.Count == 0 ? "unknown" : string.Join(", ", far),
                    far.Count == 0 ? "unknown" : string.Join(", ", far.Select(at => at.Frame)),
                    (Href?)(sheet == 1
                        ? Href.Here(PagePaths.PortAnchor(position.Id.Value, line.Ends[0].Here.At.Port!))
                        : location.To(sheets.Path(sheet))));
            }).ToImmutableArray());
    }

    // The slots of a position as declared, with what was in each.
    private IEnumerable<FaceSlot> SlotsOf(Frame frame, Position position, PageLocation location)
    {
        if (position.Slots.Sum(range => (long)range.Count) > FramePorts.MostListed) return [];
        var here = units.In(frame.Id)
            .Where(unit => unit.At!.Value.Value is { Slot: not null } at && LeadingZeros.Comparer.Equals(at.At.Position, position.Id.Value))
            .ToLookup(unit => unit.At!.Value.Value.Slot!, LeadingZeros.Comparer);
        return position.Slots.SelectMany(range => range.Names).Select(slot => here[slot].FirstOrDefault() is { } unit
            ? new FaceSlot(slot, unit.Id, location.To(unit).Value)
            : new FaceSlot(slot, "", null));
    }

    private PagedList<FrameEnd> SheetsOf(Frame frame) =>
        new(rowBuilder.AtFrame(frame), PagePaths.For(frame), $"frames/{frame.Id}/cables", end => end.Here.At.ToString())
        {
            Size = SheetSizes.CablesOfFrame,
            Key = end => $"{end.Cable.Id} {end.Here.At}",
        };

    private static ImmutableArray<Link> TrailOf(PageLocation location) => [new("Frames", location.To(PagePaths.Index(RecordKind.Frame)))];

    private static string Title(Frame frame) => $"Frame {frame.Id}{(frame.Title == frame.Id ? "" : $", {frame.Title}")}";

    private string Description(Frame frame) =>
        $"Frame {frame.Id}, {frame.Title}: {Phrase.Count(frame.Positions.Length, "position")}, {Phrase.Count(site.Graph.At(frame.Id).Length, "cable")}.";

    private ImmutableArray<FactLine> Facts(Frame frame)
    {
        var facts = ImmutableArray.CreateBuilder<FactLine>();
        facts.Add(new FactLine("Size, width × depth × height", formatter.Format(frame.Size)));
        facts.AddRange(Weights(frame));
        foreach (var draw in frame.Draws)
        {
            var volts = draw.Volts is { } at ? $"Current at {formatter.Text.Format(at.Value)}" : "Draws";
            facts.Add(new FactLine(volts, formatter.Format(draw.Amps)));
        }

        if (frame.Doors is not null) facts.Add(new FactLine("Doors and covers to remove", formatter.Format(frame.Doors)));
        facts.Add(new FactLine("Laying it down", frame.MayLieDown is null
            ? new FactText("not recorded: keep it upright")
            : formatter.Format(frame.MayLieDown, "allowed", "never: keep it upright")));
        if (frame.Owner is not null) facts.Add(new FactLine("Belongs to", formatter.Format(frame.Owner)));
        if (frame.Found is { } found) facts.Add(new FactLine("Recorded", new FactText(FoundText(found))));
        return facts.ToImmutable();
    }

    // Of a frame with units, both weights: who lifts it must know which one it is.
    private IEnumerable<FactLine> Weights(Frame frame)
    {
        var recorded = formatter.Format(frame.Weight);
        var count = units.In(frame.Id).Count();
        if (count == 0 || units.WeightOf(frame) is not { } weight)
        {
            yield return new FactLine(
                frame.Weighed is { } weighed && frame.Weight is not null
                    ? weighed.Value == WeighedState.WithoutUnits ? "Weight without its units" : "Weight with its units"
                    : "Weight",
                recorded);
            yield break;
        }

        var computed = weight.IsRecordedWithout ? weight.With : weight.Without;
        var bound = weight.Unweighed == 0 ? "" : weight.IsRecordedWithout ? "at least " : "at most ";
        var other = weight.IsImpossible
            ? new FactText("unknown: its units weigh more than the whole frame, so one weight is wrong")
            : new FactText(bound + formatter.Text.Format(computed), EvidenceText.Derived(weight.Unweighed == 0
                ? $"its weight and those of {Phrase.Count(count, "unit")}"
                : $"its weight and those of {Phrase.Count(count - weight.Unweighed)} of {Phrase.Count(count, "unit")}"));
        var (with, without) = weight.IsRecordedWithout ? (other, recorded) : (recorded, other);
        yield return new FactLine("Weight with its units", with);
        yield return new FactLine("Weight without its units", without);
    }

    private IEnumerable<FactLine> Manifest(Frame frame, PageLocation location) =>
        IiifFiles.Has(site, references, frame)
            ? [new FactLine("Photos as IIIF", new FactText("IIIF manifest"), location.To(IiifFiles.PathOf(frame.Id)))]
            : [];

    private static IEnumerable<(string Fact, Evidence? Evidence)> DrawEvidence(PowerDraw draw) =>
        [
            ("Potential", draw.Volts?.Evidence),
            ("Current", draw.Amps?.Evidence)
        ];

    private string Found(Frame frame) => frame.Found is { } found ? FoundText(found) : "";

    private string FoundText(Observation found)
    {
        var on = found.On is { } date ? DateText.Format(date.Value) : "";
        var by = found.By is { } person ? EvidenceText.PersonName(person.Value, site.Record) : "";
        return on.Length > 0 && by.Length > 0 ? $"{on}, by {by}" : on + by;
    }

    private ImmutableArray<Caution> CautionsFor(Frame frame)
    {
        var families = site.Graph.At(frame.Id)
            .Select(end => end.Cable.Kind is { } kind ? site.Record.Find<CableKind>(kind.Value)?.Family?.Value : null).ToHashSet();
        var cautions = ImmutableArray.CreateBuilder<Caution>();
        if (frame.Owner is not null) cautions.Add(StandardCautions.NotOurs);
        cautions.AddRange(HazardCautions.For(frame.Hazards));
        if (families.Contains(CableFamily.Power)) cautions.Add(StandardCautions.DirectCurrent);
        else if (frame.Draws.Length > 0) cautions.Add(StandardCautions.Powered);
        if (families.Contains(CableFamily.Earth)) cautions.Add(StandardCautions.Earth);
        if (frame.Size is { } size && size.Value.Height.Millimeters >= TallMillimetres) cautions.Add(StandardCautions.Tall);
        if (units.In(frame.Id).Any())
        {
            cautions.AddRange(UnitCautions.For(units.In(frame.Id)));
            cautions.Add(UnitCautions.Refitting);
        }

        if (families.Contains(CableFamily.Fibre)) cautions.Add(StandardCautions.Fibre);
        return cautions.ToImmutable();
    }

    private FramePlaceView StandOf(FramePlacement placement, PageLocation location)
    {
        var number = placement.Placed.Index + 1;
        var row =
            $"{Phrase.Row(placement.Row.Row.Id.Value)}, frame {number} of {placement.Row.Frames.Length}, facing {Phrase.For(placement.Placed.Faces)}";
        var isAsFound = placement.Layout.Hall.AsFound is { Value: true };
        return new FramePlaceView(
            RecordLink.To(placement.Layout.Hall, location), isAsFound, row,
            placement.Previous is { } previous ? RecordLink.To(previous.Frame, location) : null,
            placement.Next is { } next ? RecordLink.To(next.Frame, location) : null,
            isAsFound ? PageDrawings.Neighbours(placement, location) : HtmlFragment.None,
            drawings.WhereStands(placement, location));
    }

    private ImmutableArray<PositionRow> PositionRows(
        Frame frame,
        PagedList<FrameEnd> sheets,
        Dictionary<Position, ImmutableArray<(PortLine Line, string Far, string FarFrame, Href? Href)>> ports,
        PageLocation location)
    {
        var uses = new Dictionary<string, (int Count, int First)>(LeadingZeros.Comparer);
        for (var i = 0; i < sheets.Rows.Count; i++)
        {
            if (sheets.Rows[i].Here.At.Position is { } position)
                uses[position] = uses.TryGetValue(position, out var use) ? (use.Count + 1, use.First) : (1, i);
        }

        var anchors = new HashSet<string>(StringComparer.Ordinal);
        return [.. frame.Positions.Select(Row)];

        PositionRow Row(Position position)
        {
            var anchor = PagePaths.PositionAnchor(position.Id.Value);
            var use = uses.GetValueOrDefault(position.Id.Value);
            return new PositionRow(
                position.Id.Value,
                anchors.Add(anchor) ? anchor : "",
                formatter.Format(position.Holds),
                formatter.Format(position.FromFloor),
                formatter.Format(position.Height),
                string.Join(", ", position.Ports.Select(PortText)),
                use.Count,
                prose.Line(position.Note?.Value, location))
            {
                PortViews = [.. ports[position].Select(port => new PortView(
                    port.Line.Name, port.Line.State.ToString().ToLowerInvariant(), port.Line.State.InWords(), port.Far, port.Href))],
                CablesAt = use.Count == 0 ? null : new Link(position.Id.Value, CablesAt(position.Id.Value, use.First)),
            };
        }

        Href CablesAt(string position, int first) =>
            sheets.SheetOf(first) == 1 ? Href.Here(PagePaths.CablesAnchor(position)) : location.To(sheets.Path(sheets.SheetOf(first)));
    }

    private static string PortText(PortRange range) => range.Count > 1 ? $"{range.FirstName} to {range.LastName}" : range.FirstName;
}

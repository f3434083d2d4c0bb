using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Plans.Safety;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Graph;
using Archive.Wiring.Units;

namespace Archive.Site.Pages;

/// <summary>Makes the pages of plug-in units.</summary>
internal sealed class UnitPages(
    WiringGraph graph,
    CrossReferences references,
    UnitIndex units,
    UnitRows unitRows,
    PageFactory pageFactory,
    ProseRenderer prose,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    ProvenanceBuilder provenances)
{
    private const int MostAlike = 24;

    /// <summary>The page of a unit.</summary>
    /// <param name="unit">A unit that stands.</param>
    public OutputFile Create(Unit unit) => pageFactory.Page(PagePaths.For(unit), location => View(unit, location));

    private UnitPage View(Unit unit, PageLocation location)
    {
        var trail = new Link("Units", location.To(PagePaths.Index(RecordKind.Unit)));
        var frame = units.FrameOf(unit);
        var (previous, next) = Neighbours(unit, frame);
        var alike = Alike(unit);
        var what = unit.Marking is { } marking ? Phrase.OneLine(marking.Value) : "marking not recorded";
        return new UnitPage(pageFactory.Head("unit", location, Title(unit), $"Unit {unit.Id}, {what}: {Place(unit)}.", trail))
        {
            Id = unit.Id,
            Name = unit.Title == unit.Id ? "" : unit.Title,
            Frame = frame is null ? null : RecordLink.To(frame, location),
            Status = UnbrokenIds.In(Phrase.Sentence(unitRows.Where(unit))),
            Facts = Facts(unit, frame, location),
            Cautions = UnitCautions.For(unit),
            Straps = [.. unit.Straps.Select(strap => new FactLine(strap.Name, formatter.Format(strap.Setting)))],
            Previous = previous is null ? null : RecordLink.To(previous, location),
            Next = next is null ? null : RecordLink.To(next, location),
            Alike = [.. alike.Select(other => RecordLink.To(other, location))],
            AlikeCount = unit.Marking is null ? 0 : units.Marked(Phrase.OneLine(unit.Marking.Value.Value)).Length - 1,
            Photos = rowBuilder.PhotosOf(unit, location),
            About = prose.Blocks(unit.About?.Value, location),
            Condition = prose.Blocks(unit.Condition?.Value, location, 3, "condition"),
            Note = prose.Blocks(unit.Note?.Value, location, 2, "note"),
            Events = [.. references.EventsOf[unit.Id].Select(archiveEvent => rowBuilder.Event(archiveEvent, location, unit))],
            Provenance = provenances.Create(unit, location, "",
                ("Place", unit.At?.Evidence), ("Marking", unit.Marking?.Evidence), ("Serial number", unit.Serial?.Evidence),
                ("Weight", unit.Weight?.Evidence)),
        };
    }

    private static string Title(Unit unit) => $"Unit {unit.Id}{(unit.Title == unit.Id ? "" : $", {unit.Title}")}";

    private static string Place(Unit unit) => unit.At is { } at ? $"found in {at.Value}" : "found in no frame";

    private ImmutableArray<FactLine> Facts(Unit unit, Frame? frame, PageLocation location)
    {
        var facts = ImmutableArray.CreateBuilder<FactLine>();
        facts.Add(new FactLine("Found in", unit.At is { } at
            ? new FactText(at.Value.ToString(), formatter.Mark(at.Evidence))
            : new FactText("no frame"), frame is null ? null : HrefOf(frame, unit.At!.Value.Value, location)));
        facts.Add(new FactLine("Marking", formatter.Format(unit.Marking)));
        facts.Add(new FactLine("Serial number", formatter.Format(unit.Serial)));
        if (unit.Revision is not null) facts.Add(new FactLine("Revision", formatter.Format(unit.Revision)));
        facts.Add(new FactLine("Weight", formatter.Format(unit.Weight)));
        if (unit.Size is not null) facts.Add(new FactLine("Size, width × depth × height", formatter.Format(unit.Size)));
        if (unit.Firmware is not null) facts.Add(new FactLine("Firmware", formatter.Format(unit.Firmware)));
        if (unit.Spare is not null) facts.Add(new FactLine("Use", formatter.Format(unit.Spare, "a spare", "in use")));
        if (frame is not null)
        {
            facts.AddRange(graph.At(frame.Id).Where(end => ReferenceEquals(units.WithFront(end.Here.At), unit))
                .OrderBy(end => new NaturalSortKey(end.Here.At.Port!))
                .Select(end => new FactLine(
                    $"On its front, {end.Here.At.Port![(end.Here.At.Slot!.Length + 1)..]}",
                    new FactText(end.Cable.Id),
                    location.To(end.Cable))));
        }

        return facts.ToImmutable();
    }

    private static Href HrefOf(Frame frame, UnitPlace at, PageLocation location) => location.To(
        PagePaths.For(frame),
        at.At.Position is { } position && frame.Positions.FirstOrDefault(each => LeadingZeros.Comparer.Equals(each.Id.Value, position)) is
        { } declared
            ? PagePaths.PositionAnchor(declared.Id.Value)
            : "units");

    private ImmutableArray<Unit> Alike(Unit unit) => unit.Marking is { } marking
        ? [.. units.Marked(Phrase.OneLine(marking.Value)).Take(MostAlike + 1).Where(other => other != unit).Take(MostAlike)]
        : [];

    // Those beside it, as the slot map of its frame has them: the person who pulls it sees them.
    private (Unit? Previous, Unit? Next) Neighbours(Unit unit, Frame? frame)
    {
        if (frame is null) return (null, null);
        var shelf = units.MapOf(frame)
            .Where(line => line.Unit is not null && LeadingZeros.Comparer.Equals(line.Position, unit.At!.Value.Value.At.Position))
            .Select(line => line.Unit!)
            .ToList();
        var here = shelf.IndexOf(unit);
        return (here > 0 ? shelf[here - 1] : null, here >= 0 && here + 1 < shelf.Count ? shelf[here + 1] : null);
    }
}

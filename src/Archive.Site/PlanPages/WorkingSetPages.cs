using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Plans;
using Archive.Plans.Safety;
using Archive.Plans.Sets;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Labels;
using Archive.Wiring.Sets;

namespace Archive.Site.PlanPages;

/// <summary>All working sets.</summary>
public sealed record WorkingSetsPage(PageHead Head) : PageView(Head)
{
    /// <summary>What can hurt.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>What is said where there is no display; empty otherwise.</summary>
    public required string Nothing { get; init; }

    /// <summary>The sets, by display.</summary>
    public required ImmutableArray<SetView> Sets { get; init; }
}

/// <summary>A working set.</summary>
/// <param name="Says">The result, in a sentence.</param>
public sealed record SetView(RecordLink Display, string Anchor, string Says)
{
    /// <summary>What the display needs.</summary>
    public required ImmutableArray<NeedLine> Needs { get; init; }

    public required ImmutableArray<SetFrame> Frames { get; init; }

    /// <summary>Weight, area, currents, heat.</summary>
    public required ImmutableArray<FactLine> Figures { get; init; }

    /// <summary>The hall with the set shaded.</summary>
    public required HtmlFragment Plan { get; init; }

    /// <summary>The page of its cables; null where the needs cannot be met.</summary>
    public required Link? Cables { get; init; }

    /// <summary>Needs that cannot be met, each with where it is written and why.</summary>
    public required ImmutableArray<UnmetLine> Unmet { get; init; }
}

/// <summary>A frame of a set.</summary>
/// <param name="Module">Its module; empty for none.</param>
/// <param name="Draws">What it draws; empty where that is not recorded.</param>
public sealed record SetFrame(RecordLink Frame, string Module, FactText Weight, string Draws);

/// <summary>A need that cannot be met.</summary>
/// <param name="Of">Whose need it is.</param>
/// <param name="Why">What is missing.</param>
public sealed record UnmetLine(RecordLink Of, string At, HtmlFragment Why);

/// <summary>The cables of a working set.</summary>
public sealed record SetCablesPage(PageHead Head) : PageView(Head)
{
    public required RecordLink Display { get; init; }

    /// <summary>The cables of this sheet, by how they lie.</summary>
    public required ImmutableArray<RowGroup<SetCableRow>> Groups { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>A cable of a working set.</summary>
/// <param name="Staying">Its ends within.</param>
/// <param name="Parked">Its ends outside.</param>
public sealed record SetCableRow(CableRow Row, ImmutableArray<EndPlace> Staying, ImmutableArray<EndPlace> Parked);

/// <summary>Makes the pages of the working sets.</summary>
internal sealed class WorkingSetPages(
    SiteContents site,
    PageFactory pageFactory,
    ProseRenderer prose,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    PageDrawings drawings,
    PlanKind kind)
{
    /// <param name="summary">The result for each.</param>
    public IEnumerable<OutputFile> All(ImmutableArray<WorkingSet> sets, ImmutableArray<string> summary)
    {
        yield return pageFactory.Page(kind.Page, location => new WorkingSetsPage(pageFactory.PlanHead(kind, location))
        {
            Cautions = [StandardCautions.Licensed],
            Nothing = sets.IsEmpty ? summary[0] : "",
            Sets = [.. sets.Zip(summary, (set, says) => ViewOf(set, says, location))],
        });
        foreach (var page in sets.Where(set => set.IsMet).SelectMany(CablesOf)) yield return page;
    }

    private string FolderOf(WorkingSet set) => $"{kind.Folder}/{set.Display.Id}";

    private SetView ViewOf(WorkingSet set, string says, PageLocation location) =>
        new(RecordLink.To(set.Display, location), "set-" + PagePaths.Anchor(set.Display.Id), says)
        {
            Needs = rowBuilder.Needs(set.Display.Needs, location),
            Frames = [.. set.Frames.Select(frame => new SetFrame(
                RecordLink.To(frame, location),
                frame.Module?.Value ?? "",
                formatter.Format(frame.Weight),
                WorkingSetSentences.Currents(SetTotals.From([frame]), formatter.Text)))],
            Figures = set.IsMet ? FiguresOf(set.Figures) : [],
            Plan = PlanOf(set, location),
            Cables = set.IsMet ? new Link("Its cables, and which ends to park", location.To(FolderOf(set) + "/index.html")) : null,
            Unmet = [.. set.Unmet.Select(unmet =>
                new UnmetLine(RecordLink.To(unmet.Of, location), unmet.Need.Span.Path, prose.Line(Phrase.Sentence(unmet.Why), location)))],
        };

    private ImmutableArray<FactLine> FiguresOf(SetTotals figures) =>
    [
        new FactLine("Weight", Sum(formatter.Text.Format(figures.Weight.Known), figures.Weight.Lacking)),
        new FactLine("Floor area, without aisles", Sum(formatter.Text.OfFloor(figures.FloorArea.Known), figures.FloorArea.Lacking)),
        new FactLine("Current", Sum(WorkingSetSentences.Currents(figures, formatter.Text), figures.WithoutDraws)),
        new FactLine("Heat", Sum(WorkingSetSentences.Heat(figures, formatter.Text), figures.WithoutDraws)),
    ];

    private static FactText Sum(string known, ImmutableArray<Frame> lacking) => known.Length == 0
        ? FactText.Unknown
        : new FactText(lacking.IsEmpty
            ? known
            : $"{known}, not including {string.Join(", ", lacking.Take(12).Select(frame => frame.Id))}{(lacking.Length > 12 ? $" and {Phrase.Count(lacking.Length - 12)} more" : "")} (not recorded)",
                null,
                true);

    private HtmlFragment PlanOf(WorkingSet set, PageLocation location)
    {
        if (!set.IsMet || site.HallLayouts.AsFound is not { } layout) return HtmlFragment.None;
        return drawings.Plan(layout, location, options => options with
        {
            Shaded = [.. set.Frames.Select(frame => frame.Id)],
            ShadedAs = $"needed for {set.Display.Title}",
            Says = $"Needed for {set.Display.Title}: {string.Join(", ", set.Frames.Select(frame => frame.Id))}.",
        });
    }

    private IEnumerable<OutputFile> CablesOf(WorkingSet set)
    {
        var folder = FolderOf(set);
        var rows = new GroupedRows<SetCable>(
            [.. SetCable.From(set).Select(cable => (HeadingOf(cable), cable))],
            folder + "/index.html",
            folder,
            row => row.Row.Reading.Cable.Id,
            SheetSizes.Cables,
            cable => cable.Reading.Cable.Id);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(rows.Sheets.Path(sheet), location => new SetCablesPage(HeadOf(set, location))
            {
                Display = RecordLink.To(set.Display, location),
                Groups = rows.On(sheet, cable =>
                    new SetCableRow(
                        rowBuilder.Cable(cable.Reading.Cable, location), Ends(cable.Staying, location), Ends(cable.Parked, location))),
                Sheet = rows.Sheet(sheet, location),
            });
        }
    }

    private PageHead HeadOf(WorkingSet set, PageLocation location) => pageFactory.Head(
        "working-set-cables",
        location,
        $"Cables of {set.Display.Title}",
        $"Which cables are within the working set of {set.Display.Title}, and which have one end outside it.",
        new Link("Plans", location.To("plans/index.html")),
        new Link(kind.Title, location.To(kind.Page)));

    private ImmutableArray<EndPlace> Ends(ImmutableArray<KnownEnd> ends, PageLocation location) =>
        [.. ends.Select(end => rowBuilder.At(end, location))];

    private static RowHeading HeadingOf(SetCable cable) => cable.Lies switch
    {
        "edge" => new RowHeading("One end outside: park it", "edge"),
        "inside" => new RowHeading("Inside", "inside"),
        _ => new RowHeading("One end inside, the other unknown", "loose"),
    };
}

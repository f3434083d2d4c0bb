using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Halls.Trays;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Plans.Safety;
using Archive.Plans.Survey;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>The page of a tray.</summary>
public sealed record TrayPage(PageHead Head) : PageView(Head)
{
    public required string Id { get; init; }

    /// <summary>What people call it; empty where that is the id.</summary>
    public required string Name { get; init; }

    /// <summary>Above, behind or across which rows it hangs; empty where that is not known.</summary>
    public required string Where { get; init; }

    /// <summary>The hall it hangs in; null where that is not said.</summary>
    public required RecordLink? Hall { get; init; }

    /// <summary>Height, size, fill and the like.</summary>
    public required ImmutableArray<FactLine> Facts { get; init; }

    /// <summary>What can hurt here.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>The plan with the tray marked.</summary>
    public required HtmlFragment Plan { get; init; }

    /// <summary>Cross-section of the tray.</summary>
    public required HtmlFragment Section { get; init; }

    /// <summary>Its sections along its length; null where there are none.</summary>
    public required Link? Sections { get; init; }

    /// <summary>Cables in it, lowest layer first; of very many, the first sheet.</summary>
    public required ImmutableArray<CableRow> Cables { get; init; }

    /// <summary>How many lie in it.</summary>
    public required int CableCount { get; init; }

    /// <summary>The sheets of its cables.</summary>
    public required PageOfList Sheet { get; init; }

    /// <summary>Photos that show it, by view.</summary>
    public required ImmutableArray<PhotoGroup> Photos { get; init; }

    public required HtmlFragment About { get; init; }

    /// <summary>Condition as found.</summary>
    public required HtmlFragment Condition { get; init; }

    public required HtmlFragment Note { get; init; }

    /// <summary>What is still to be recorded of it.</summary>
    public required ImmutableArray<string> Lacks { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>Makes the pages of trays.</summary>
/// <param name="lists">The lists that pages link into.</param>
internal sealed class TrayPages(
    SiteContents site,
    PageFactory pageFactory,
    ProseRenderer prose,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    SharedIndexes lists,
    PageDrawings drawings,
    ProvenanceBuilder provenances,
    GapFinder lacks)
{
    private readonly TraySectionPages _sections = new(site, pageFactory, formatter, drawings);

    /// <summary>The pages of a tray: its own, that of its sections, and one more for each further sheet of its cables.</summary>
    /// <param name="tray">A tray that stands.</param>
    public IEnumerable<OutputFile> Create(Tray tray)
    {
        foreach (var page in _sections.Create(tray)) yield return page;
        var contents = site.Trays[tray.Id];
        var sheets = new PagedList<Cable>(
            [.. contents.Cables.Select(lying => lying.Cable)], PagePaths.For(tray), $"trays/{tray.Id}/cables", cable => cable.Id)
        {
            Size = SheetSizes.CablesOfTray,
            Key = cable => cable.Id,
        };
        for (var number = 1; number <= sheets.Count; number++)
        {
            var sheet = number;
            yield return sheet == 1
                ? pageFactory.Page(sheets.Path(1), location => View(contents, sheets, location))
                : pageFactory.Page(
                    sheets.Path(sheet), location =>
                        lists.CablesOf(tray, sheets, sheet, location, cable => rowBuilder.Cable(cable, location)));
        }
    }

    private TrayPage View(TrayContents contents, PagedList<Cable> sheets, PageLocation location)
    {
        var tray = contents.Tray;
        var hall = tray.Hall is { } id ? site.Record.Find<Hall>(id.Value) : null;
        var where = hall is null ? "" : WhereOf(tray, hall);
        var trail = new Link("Trays", location.To(PagePaths.Index(RecordKind.Tray)));
        return new TrayPage(
            pageFactory.Head(
                "tray",
                location,
                $"Tray {tray.Id}{(where.Length > 0 ? $", {where}" : tray.Title == tray.Id ? "" : $", {tray.Title}")}",
                $"Tray {tray.Id}: {Phrase.Count(sheets.Rows.Count, "cable")} in it.",
                trail))
        {
            Id = tray.Id,
            Name = tray.Title == tray.Id ? "" : tray.Title,
            Where = Phrase.Heading(where),
            Hall = hall is null ? null : RecordLink.To(hall, location),
            Facts = Facts(contents),
            Cautions = [.. HazardCautions.For(tray.Hazards), StandardCautions.Overhead],
            Plan = hall is null ? HtmlFragment.None : drawings.WhereHangs(tray, hall, location),
            Section = drawings.Section(contents, location),
            Sections = _sections.PathOf(tray) is { } path
                ? new Link("Sections along the tray, and the order in which its cables come out", location.To(path))
                : null,
            Cables = [.. sheets.RowsOf(1).Select(cable => rowBuilder.Cable(cable, location))],
            CableCount = sheets.Rows.Count,
            Sheet = sheets.On(1, location),
            Photos = rowBuilder.PhotosOf(tray, location),
            About = prose.Blocks(tray.About?.Value, location),
            Condition = prose.Blocks(tray.Condition?.Value, location, 3, "condition"),
            Note = prose.Blocks(tray.Note?.Value, location, 2, "note"),
            Lacks = lacks.Find(tray),
            Provenance = provenances.Create(tray, location, "", ("Height", tray.Height?.Evidence), ("Size", tray.Size?.Evidence)),
        };
    }

    private string WhereOf(Tray tray, Hall hall) =>
        site.HallLayouts.ByHall.TryGetValue(hall.Id, out var layout) ? TrayPlace.Describe(layout, tray) : "";

    private ImmutableArray<FactLine> Facts(TrayContents contents)
    {
        var cables = Phrase.Count(contents.Cables.Length - contents.WithoutDiameter);
        var facts = ImmutableArray.CreateBuilder<FactLine>();
        facts.Add(new FactLine("Underside, height above floor", formatter.Format(contents.Tray.Height)));
        facts.Add(new FactLine("Inside, width × depth", formatter.Format(contents.Tray.Size)));
        if (contents.Cables.Length == 0) return facts.ToImmutable();
        facts.Add(new FactLine("Filled", contents.Fill is { } fill
            ? new FactText(
                UnitFormatter.FormatComputed(fill) + AgainstLimit(contents),
                EvidenceText.Derived($"the diameters of {cables} of {Phrase.Count(contents.Cables.Length, "cable")} and the tray's size"))
            : FactText.Unknown));
        facts.Add(new FactLine("Weight of cables", new FactText(
            formatter.Text.Format(contents.Mass),
            EvidenceText.Derived(
                $"the masses of {Phrase.Count(contents.Cables.Length - contents.WithoutMass)} of {Phrase.Count(contents.Cables.Length, "cable")}"))));
        if (contents.BendRadius is { } bend) facts.Add(new FactLine(
            "Minimum bend radius", new FactText(formatter.Text.Format(bend), EvidenceText.Derived("the kinds of its cables"))));
        return facts.ToImmutable();
    }

    private string AgainstLimit(TrayContents contents)
    {
        if (site.Record.Statement.FillLimit?.Value is not { } limit) return "";
        return contents.FillAgainst(limit) switch
        {
            LimitStatus.Above => $", above the limit of {Phrase.Unbroken(formatter.Text.Format(limit))}",
            LimitStatus.Within => $", within the limit of {Phrase.Unbroken(formatter.Text.Format(limit))}",
            _ => $"; limit {Phrase.Unbroken(formatter.Text.Format(limit))}",
        };
    }
}

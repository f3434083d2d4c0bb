using System.Collections.Immutable;
using Archive.Hall;
using Archive.Records;

namespace Archive.Site;

/// <summary>The page of a tray.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record TrayPage(PageHead Head) : PageView(Head)
{
    /// <summary>Its id.</summary>
    public required string Id { get; init; }

    /// <summary>What people call it; empty where that is the id.</summary>
    public required string Name { get; init; }

    /// <summary>The hall it hangs in; null where that is not said.</summary>
    public required RecordLink? Hall { get; init; }

    /// <summary>Height, size, fill and the like.</summary>
    public required ImmutableArray<FactLine> Facts { get; init; }

    /// <summary>What can hurt here.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>The plan with the tray marked.</summary>
    public required Markup Plan { get; init; }

    /// <summary>The tray cut across.</summary>
    public required Markup Section { get; init; }

    /// <summary>Cables in it, lowest layer first; of very many, the first sheet.</summary>
    public required ImmutableArray<CableRow> Cables { get; init; }

    /// <summary>How many lie in it.</summary>
    public required int CableCount { get; init; }

    /// <summary>The sheets of its cables.</summary>
    public required Sheet Sheet { get; init; }

    /// <summary>Photos that show it, by view.</summary>
    public required ImmutableArray<PhotoGroup> Photos { get; init; }

    /// <summary>Description.</summary>
    public required Markup About { get; init; }

    /// <summary>Condition as found.</summary>
    public required Markup Condition { get; init; }

    /// <summary>Remark.</summary>
    public required Markup Note { get; init; }

    /// <summary>What the record does not know of it.</summary>
    public required ImmutableArray<string> Lacks { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>Makes the pages of trays.</summary>
/// <param name="desk">What every page is written at.</param>
internal sealed class TrayPages(Desk desk)
{
    /// <summary>The pages of a tray: its own, and one more for each further sheet of its cables.</summary>
    /// <param name="tray">A tray that stands.</param>
    public IEnumerable<SiteFile> Of(Tray tray)
    {
        var contents = desk.Contents.Trays[tray.Id];
        var sheets = new Sheets<Cable>([.. contents.Cables.Select(lying => lying.Cable)], PagePaths.Of(tray), $"trays/{tray.Id}/cables", cable => cable.Id);
        for (var number = 1; number <= sheets.Count; number++)
        {
            var sheet = number;
            yield return sheet == 1
                ? desk.Page(sheets.Path(1), place => View(contents, sheets, place))
                : desk.Page(sheets.Path(sheet), place => desk.Lists.CablesOf(tray, sheets, sheet, place, cable => desk.Rows.Cable(cable, place)));
        }
    }

    private TrayPage View(TrayContents contents, Sheets<Cable> sheets, PagePlace place)
    {
        var tray = contents.Tray;
        var hall = tray.Hall is { } id ? desk.Record.Find<Records.Hall>(id.Value) : null;
        var trail = new Link("Trays", place.To(PagePaths.Index(RecordKind.Tray)));
        return new TrayPage(desk.Head("tray", place, $"Tray {tray.Id}", $"Tray {tray.Id}: {Words.Count(sheets.Rows.Count, "cable")} lie in it.", trail))
        {
            Id = tray.Id,
            Name = tray.Title == tray.Id ? "" : tray.Title,
            Hall = hall is null ? null : RecordLink.To(hall, place),
            Facts = Facts(contents),
            Cautions = [Cautions.Overhead],
            Plan = hall is null ? Markup.None : desk.Plates.WhereHangs(tray, hall, place),
            Section = desk.Plates.Section(contents, place),
            Cables = [.. sheets.RowsOf(1).Select(cable => desk.Rows.Cable(cable, place))],
            CableCount = sheets.Rows.Count,
            Sheet = sheets.On(1, place),
            Photos = desk.Rows.PhotosOf(tray, place),
            About = desk.Prose.Blocks(tray.About?.Value, place),
            Condition = desk.Prose.Blocks(tray.Condition?.Value, place, 3, "condition"),
            Note = desk.Prose.Blocks(tray.Note?.Value, place, 2, "note"),
            Lacks = desk.Lacks.Of(tray),
            Provenance = desk.Provenances.Of(tray, place, "", ("Height", tray.Height?.Evidence), ("Size", tray.Size?.Evidence)),
        };
    }

    private ImmutableArray<FactLine> Facts(TrayContents contents)
    {
        var cables = Words.Count(contents.Cables.Length - contents.WithoutDiameter);
        var facts = ImmutableArray.CreateBuilder<FactLine>();
        facts.Add(new FactLine("Underside above the floor", desk.Figures.Of(contents.Tray.Height)));
        facts.Add(new FactLine("Inside, width × depth", desk.Figures.Of(contents.Tray.Size)));
        if (contents.Cables.Length == 0) return facts.ToImmutable();
        facts.Add(new FactLine("Filled", contents.Fill is { } fill
            ? new Figure(QuantityText.Reckoned(fill) + AgainstLimit(contents), EvidenceText.Derived($"the diameters of {cables} of {Words.Count(contents.Cables.Length, "cable")} and the tray's size"))
            : Figure.Unknown));
        facts.Add(new FactLine("Load of cables", new Figure(
            desk.Figures.Text.Of(contents.Mass),
            EvidenceText.Derived($"the masses of {Words.Count(contents.Cables.Length - contents.WithoutMass)} of {Words.Count(contents.Cables.Length, "cable")}"))));
        if (contents.BendRadius is { } bend) facts.Add(new FactLine("Least radius of its bends", new Figure(desk.Figures.Text.Of(bend), EvidenceText.Derived("its cables' kinds"))));
        return facts.ToImmutable();
    }

    private string AgainstLimit(TrayContents contents)
    {
        if (desk.Record.Statement.FillLimit?.Value is not { } limit) return "";
        return contents.FillAgainst(limit) switch
        {
            Against.Above => $", above the limit of {Words.Unbroken(desk.Figures.Text.Of(limit))}",
            Against.Within => $", within the limit of {Words.Unbroken(desk.Figures.Text.Of(limit))}",
            _ => $", of a limit of {Words.Unbroken(desk.Figures.Text.Of(limit))}",
        };
    }
}

using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Plans.Boxes;
using Archive.Plans.Safety;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.PlanPages;

/// <summary>The packing lists.</summary>
public sealed record PackingPage(PageHead Head) : PageView(Head)
{
    /// <summary>The results, in sentences.</summary>
    public required ImmutableArray<string> Summary { get; init; }

    /// <summary>How to handle what is packed, and what can hurt there.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>The boxes in the order of loading; none on further sheets.</summary>
    public required ImmutableArray<BoxRow> Boxes { get; init; }

    /// <summary>What is in each box, to tick off; then what is out and in no box.</summary>
    public required ImmutableArray<RowGroup<PackedRow>> Groups { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>A box in the order of loading.</summary>
/// <param name="Turn">Its turn; empty if it is in another box, or empty.</param>
/// <param name="Inside">The box that it is in; null for none.</param>
/// <param name="Content">How many things are in it, and where they are listed.</param>
/// <param name="Laden">What it weighs with them.</param>
/// <param name="Warnings">What to watch out for.</param>
public sealed record BoxRow(
    RecordLink Box,
    string Turn,
    RecordLink? Inside,
    Link Content,
    FactText Laden,
    FactText Limit,
    ImmutableArray<string> Warnings);

/// <summary>Makes the pages of packing lists.</summary>
internal sealed class PackingPages(
    SiteContents site, PageFactory pageFactory, FactFormatter formatter, RowBuilder rowBuilder, BoxRows boxRows, PackingPlan plan)
{
    private const int MostBoxes = 500;

    /// <summary>All pages.</summary>
    public IEnumerable<OutputFile> All()
    {
        var rows = new GroupedRows<ArchiveRecord>(
            [
                .. plan.Boxes.SelectMany(box => box.Content.Select(thing => (HeadingOf(box.Box), thing))),
                .. plan.Loose.Select(journey => (new RowHeading("Out, and in no box", "no-box"), journey.Of)),
            ],
            PackingPlan.Kind.Page,
            PackingPlan.Kind.Folder,
            row => $"{row.Heading.Heading}: {row.Row.Id}",
            key: thing => thing.Id);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(rows.Sheets.Path(sheet), location => new PackingPage(
                pageFactory.PlanHead(PackingPlan.Kind, location))
            {
                Summary = sheet == 1 ? plan.Summary : [],
                Cautions = plan.Cautions,
                Boxes = sheet == 1
                    ? [.. plan.Boxes.Take(MostBoxes).Select(box => Row(box, rows.To(HeadingOf(box.Box), location), location))]
                    : [],
                Groups = rows.On(sheet, thing => boxRows.Row(thing, location)),
                Sheet = rows.Sheets.On(sheet, location),
            });
        }
    }

    private static RowHeading HeadingOf(Box box) => new(
        box.Title == box.Id ? box.Id : $"{box.Id} {Phrase.OneLine(box.Title)}", "in-" + PagePaths.Anchor(box.Id));

    private BoxRow Row(PackedBox box, Href? listedAt, PageLocation location) => new(
        RecordLink.To(box.Box, location),
        box.Turn is { } turn ? Phrase.Number(turn) : "",
        site.Basis.Boxes.BoxOf(box.Box.Id) is { } inside ? rowBuilder.Record(inside, location) : null,
        new Link(box.Content.IsEmpty ? "empty" : Phrase.Count(box.Content.Length, "thing"), listedAt),
        boxRows.Weight(box.Laden, isSum: true),
        formatter.Format(box.Box.Limit),
        box.Warnings);
}

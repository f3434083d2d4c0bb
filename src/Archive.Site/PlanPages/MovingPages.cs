using System.Collections.Immutable;
using Archive.Halls.Floor;
using Archive.Halls.Layout;
using Archive.Halls.Loads;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans;
using Archive.Plans.Moving;
using Archive.Plans.Safety;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using UnitsNet;

namespace Archive.Site.PlanPages;

/// <summary>The movers' sheet.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record MovingPage(PageHead Head) : PageView(Head)
{
    /// <summary>The results, in sentences.</summary>
    public required ImmutableArray<string> Summary { get; init; }

    /// <summary>What can hurt.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>The hall, or null where none is the as-found one.</summary>
    public required RecordLink? Hall { get; init; }

    /// <summary>The hall's plan with its taped line; none on further sheets.</summary>
    public required HtmlFragment Plan { get; init; }

    /// <summary>The openings, with their sizes.</summary>
    public required ImmutableArray<FactLine> Openings { get; init; }

    /// <summary>The frames of this sheet, load by load, those that stay last.</summary>
    public required ImmutableArray<RowGroup<LoadRow>> Groups { get; init; }

    /// <summary>What each load comes to.</summary>
    public required ImmutableArray<LoadTotal> Totals { get; init; }

    /// <summary>Which page of the list this is.</summary>
    public required PageOfList Sheet { get; init; }
}

/// <summary>A frame as the movers meet it.</summary>
/// <param name="Frame">The frame.</param>
/// <param name="Size">Its size.</param>
/// <param name="Weight">Its weight when moved, without doors.</param>
/// <param name="Doors">What comes off first, in words.</param>
/// <param name="Coils">The coils lashed to it, in words; empty for none.</param>
/// <param name="Total">The load so far, this frame included; empty where it does not go.</param>
/// <param name="Openings">How it goes through each opening.</param>
/// <param name="Remark">What else matters under the ceiling; empty for nothing.</param>
public sealed record LoadRow(RecordLink Frame, FactText Size, FactText Weight, string Doors, string Coils, string Total, ImmutableArray<string> Openings, string Remark);

/// <summary>What a load comes to.</summary>
/// <param name="Name">Its row, or what else it is.</param>
/// <param name="Frames">How many frames, in words.</param>
/// <param name="Weight">What they weigh as far as it is known.</param>
/// <param name="Doors">Doors and covers to remove.</param>
/// <param name="Lacks">What is not included in the weight; empty for nothing.</param>
public sealed record LoadTotal(string Name, string Frames, string Weight, string Doors, string Lacks);

/// <summary>Makes the pages of the movers' sheet.</summary>
/// <param name="summary">The result.</param>
internal sealed class MovingPages(PageFactory pageFactory, FactFormatter formatter, PageDrawings drawings, PlanKind kind, ImmutableArray<string> summary)
{
    private UnitFormatter Text => formatter.Text;

    /// <summary>The sheets.</summary>
    /// <param name="list">The list; null where there is no as-found hall.</param>
    public IEnumerable<OutputFile> All(MovingList? list)
    {
        var rows = new GroupedRows<LadenFrame>([.. LadenFrame.All(list).Select(row => (HeadingOf(row), row))], kind.Page, kind.Folder, row => row.Row.Frame.Frame.Id);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(rows.Sheets.Path(sheet), place => new MovingPage(pageFactory.PlanHead(kind, place))
            {
                Summary = summary,
                Cautions = [StandardCautions.Tall, StandardCautions.Lifting],
                Hall = list is null ? null : RecordLink.To(list.Layout.Hall, place),
                Plan = list is null || sheet > 1 ? HtmlFragment.None : drawings.Plan(list.Layout, place),
                Openings = list is null || sheet > 1 ? [] : [.. list.Layout.Hall.Openings.Select(opening => new FactLine(opening.Name?.Value ?? "opening", formatter.Format(opening)))],
                Groups = rows.On(sheet, row => RowOf(row, place)),
                Totals = list is null || sheet > 1 ? [] : Totals(list),
                Sheet = rows.Sheet(sheet, place),
            });
        }
    }

    private static RowHeading HeadingOf(LadenFrame row)
    {
        var id = row.Frame.Standing.Row.Id.Value;
        return row.Load is not null
            ? new RowHeading($"Load: {Phrase.Row(id)}", "load-" + PagePaths.Anchor(id))
            : new RowHeading(Phrase.Sentence(row.Frame.Side.InWords()).TrimEnd('.'), row.Frame.Side.ToString().ToLowerInvariant());
    }

    private LoadRow RowOf(LadenFrame row, PageLocation place)
    {
        var frame = row.Frame.Frame;
        return new LoadRow(
            RecordLink.To(frame, place),
            formatter.Format(frame.Size),
            formatter.Format(frame.Weight),
            frame.Doors is { } doors ? doors.Value == 0 ? "none" : Phrase.Count(doors.Value, "door or cover", "doors or covers") : "not recorded",
            CoilsOf(row.Frame.Lashed),
            row.Total is { } total ? Text.Format(Mass.FromKilograms(total)) : "",
            [.. row.Frame.Passages.Select(passage => $"{passage.Opening.Name?.Value ?? "opening"}: {MovingSentences.Fits(passage)}")],
            RemarkOf(row.Frame.Headroom));
    }

    private string CoilsOf(CoilWeights coils) => coils.Count == 0
        ? ""
        : $"{Phrase.Count(coils.Count, "coil")}, {Text.FormatComputed(coils.Weight)}{(coils.Unweighed > 0 ? $" plus {Phrase.Count(coils.Unweighed)} of unknown weight" : "")}";

    private static string RemarkOf(Headroom headroom) => headroom switch
    {
        { Stands: Fit.Stays } => "recorded as taller than the ceiling",
        { CanBeLaid: Fit.Stays } => "cannot be laid down under this ceiling",
        _ => "",
    };

    private ImmutableArray<LoadTotal> Totals(MovingList list) =>
    [
        .. list.Loads.Select(load => new LoadTotal(
            Phrase.NameOf(load.Row.Row),
            Phrase.Count(load.Frames.Length, "frame"),
            Text.Format(load.Weight),
            Phrase.Count(load.Doors),
            load.Unweighed > 0 ? $"{Phrase.Count(load.Unweighed, "frame")} of unknown weight" : "")),
        .. list.Loose.Count > 0
            ? [new LoadTotal("Loose cables", Phrase.Count(list.Loose.Count, "coil"), Text.Format(list.Loose.Weight), "", list.Loose.Unweighed > 0 ? $"{Phrase.Count(list.Loose.Unweighed)} of unknown weight" : "")]
            : ImmutableArray<LoadTotal>.Empty,
        new LoadTotal("Total", Phrase.Count(list.Loads.Sum(load => load.Frames.Length), "frame"), Text.Format(list.Weight), Phrase.Count(list.Loads.Sum(load => load.Doors)), ""),
    ];
}

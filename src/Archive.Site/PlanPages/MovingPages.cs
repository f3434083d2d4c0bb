using System.Collections.Immutable;
using Archive.Halls.Floor;
using Archive.Halls.Layout;
using Archive.Halls.Loads;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Moving;
using Archive.Plans.Safety;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using UnitsNet;

namespace Archive.Site.PlanPages;

/// <summary>The movers' sheet.</summary>
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

    /// <summary>The document of the whole list.</summary>
    public required Link Whole { get; init; }

    /// <summary>What each load comes to.</summary>
    public required ImmutableArray<LoadTotal> Totals { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>A frame as the movers meet it.</summary>
/// <param name="Weight">Its weight when moved, without doors.</param>
/// <param name="Doors">What comes off first, in words.</param>
/// <param name="Coils">The coils lashed to it, in words; empty for none.</param>
/// <param name="Total">The load so far, this frame included; empty where it does not go.</param>
/// <param name="Openings">How it goes through each opening.</param>
/// <param name="Remark">What else matters under the ceiling; empty for nothing.</param>
public sealed record LoadRow(
    RecordLink Frame,
    FactText Size,
    FactText Weight,
    string Doors,
    string Coils,
    string Total,
    ImmutableArray<string> Openings,
    string Remark);

/// <summary>What a load comes to.</summary>
/// <param name="Name">Its row, or what else it is.</param>
/// <param name="Frames">How many frames, in words.</param>
/// <param name="Weight">What they weigh as far as it is known.</param>
/// <param name="Doors">Doors and covers to remove.</param>
/// <param name="Lacks">What is not included in the weight; empty for nothing.</param>
public sealed record LoadTotal(string Name, string Frames, string Weight, string Doors, string Lacks);

/// <summary>Makes the pages of the movers' sheet.</summary>
/// <param name="plan">The sheet.</param>
/// <param name="stepLists">Makes the document of the whole list.</param>
internal sealed class MovingPages(
    PageFactory pageFactory, FactFormatter formatter, PageDrawings drawings, MovingPlan plan, StepListPages stepLists)
{
    // A frame with more is a slip of the pen; its sheet must not be endless.
    private const int MostDoors = 40;

    private static readonly RowHeading DoorsFirst = new("Doors and covers to take off first", "doors");

    private UnitFormatter Text => formatter.Text;

    /// <summary>The sheets.</summary>
    public IEnumerable<OutputFile> All()
    {
        var (list, kind, summary) = (plan.List, MovingPlan.Kind, plan.Summary);
        var rows = new GroupedRows<LadenFrame>(
            [.. LadenFrame.All(list).Select(row => (HeadingOf(row), row))], kind.Page, kind.Folder, row =>
                row.Row.Frame.Frame.Id, key: row => row.Frame.Frame.Id);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(rows.Sheets.Path(sheet), location => new MovingPage(pageFactory.PlanHead(kind, location))
            {
                Summary = summary,
                Cautions = plan.Cautions,
                Hall = list is null ? null : RecordLink.To(list.Layout.Hall, location),
                Plan = list is null || sheet > 1 ? HtmlFragment.None : drawings.Plan(list.Layout, location),
                Openings = list is null || sheet > 1 ? [] : [.. list.Layout.Hall.Openings.Select(opening =>
                    new FactLine(opening.Name?.Value ?? "opening", formatter.Format(opening)))],
                Groups = rows.On(sheet, row => RowOf(row, location)),
                Totals = list is null || sheet > 1 ? [] : Totals(list),
                Whole = new Link("Whole list, to print or one by one", location.To(StepListPages.PathOf(kind.Folder))),
                Sheet = rows.Sheet(sheet, location),
            });
        }

        var goes = rows.Sheets.Rows.Where(row => row.Row.Load is not null).ToList();
        List<(RowHeading Heading, LadenFrame Row, string? Door)> steps =
        [
            .. goes.SelectMany(row => Doors(row.Row.Frame.Frame).Select(door => (DoorsFirst, row.Row, (string?)door))),
            .. goes.Select(row => (row.Heading, row.Row, (string?)null))
        ];
        foreach (var file in stepLists.All(new StepList<(int Number, LadenFrame Row, string? Door)>(
            kind.Title, kind.Page, kind.Folder, location => [new Link("Plans", location.To("plans/index.html"))])
        {
            Says = summary,
            Things = "Frame",
            Steps = [.. steps.Select((step, index) => (step.Heading, (index + 1, step.Row, step.Door)))],
            Row = (step, location) => new ListedStep(
                step.Number, RecordLink.To(step.Row.Frame.Frame, location), [], [new CrewText(step.Door ?? Carry(step.Row), null)])
            {
                Key = step.Door is null ? step.Row.Frame.Frame.Id : $"{step.Row.Frame.Frame.Id} {step.Door}",
            },
            Cautions = _ => plan.Cautions,
            Warnings = step => step.Door is null ? plan.Warnings.OfMoving(step.Row.Frame.Frame) : [],
        })) yield return file;
    }

    // The record counts doors and covers; which is which, nobody has recorded.
    private static IEnumerable<string> Doors(Frame frame) => frame.Doors is not { } doors
        ? ["Doors and covers are not recorded: count them, take them off, tag each with this id."]
        : Enumerable.Range(1, Math.Min(doors.Value, MostDoors))
            .Select(number => $"Take off door or cover {Phrase.Number(number)} of {Phrase.Count(doors.Value)} and tag it.");

    private string Carry(LadenFrame row)
    {
        var frame = row.Frame;
        string[] parts =
        [
            frame.Frame.Size is { } size ? Text.Format(size.Value) : "size unknown",
            frame.Weight is { } weight
                ? $"{(frame.Weights!.IsMovingAtLeast ? "at least " : "")}{Text.Format(weight)} {(frame.Weights.MovingIs is { Length: > 0 } which ? which + ", " : "")}without doors"
                : "weight unknown",
            CoilsOf(frame.Lashed) is { Length: > 0 } coils ? $"lashed to it: {coils}" : "no coils lashed to it",
            .. frame.Passages.Select(passage => MovingSentences.Fits(frame, passage)),
        ];
        return $"{Phrase.Heading(string.Join("; ", parts))}. {RemarkOf(frame)} Load so far: {TotalOf(row)}.";
    }

    private static string DoorsOf(ImmutableArray<MovingFrame> frames)
    {
        var unknown = frames.Count(frame => frame.Frame.Doors is null);
        return $"{(unknown > 0 ? "at least " : "")}{Phrase.Count(frames.Sum(frame => frame.Frame.Doors?.Value ?? 0))}{(unknown > 0 ? $"; not recorded for {Phrase.Count(unknown)}" : "")}";
    }

    private static RowHeading HeadingOf(LadenFrame row)
    {
        var id = row.Frame.Standing.Row.Id.Value;
        return row.Load is not null
            ? new RowHeading($"Load: {Phrase.Row(id)}", "load-" + PagePaths.Anchor(id))
            : new RowHeading(Phrase.Sentence(row.Frame.Side.InWords()).TrimEnd('.'), row.Frame.Side.ToString().ToLowerInvariant());
    }

    private LoadRow RowOf(LadenFrame row, PageLocation location)
    {
        var frame = row.Frame.Frame;
        return new LoadRow(
            RecordLink.To(frame, location),
            formatter.Format(frame.Size),
            FrameWeightText.Of(
                formatter, frame, row.Frame.Weight, row.Frame.Weights?.MovingIs, row.Frame.Weights?.IsMovingAtLeast == true),
            frame.Doors is { } doors
                ? doors.Value == 0 ? "none" : Phrase.Count(doors.Value, "door or cover", "doors or covers")
                : "not recorded",
            CoilsOf(row.Frame.Lashed),
            TotalOf(row),
            [.. row.Frame.Passages.Select(passage => MovingSentences.Fits(row.Frame, passage))],
            RemarkOf(row.Frame));
    }

    private string CoilsOf(CoilWeights coils) => coils.Count == 0
        ? ""
        : $"{Phrase.Count(coils.Count, "coil")}, {Text.FormatComputed(coils.Weight)}{(coils.Unweighed > 0 ? $" plus {Phrase.Count(coils.Unweighed)} of unknown weight" : "")}";

    private string TotalOf(LadenFrame row) =>
        row.Total is { } total ? MovingSentences.Weight(Text, Mass.FromKilograms(total), row.IsAtLeast) : "";

    private static string RemarkOf(MovingFrame frame) => frame.Headroom.Stands == Fit.Stays
        ? $"{MovingSentences.LayingDown(frame)} Recorded as taller than the ceiling."
        : MovingSentences.LayingDown(frame);

    private ImmutableArray<LoadTotal> Totals(MovingList list) =>
    [
        .. list.Loads.Select(load => new LoadTotal(
            Phrase.NameOf(load.Row.Row),
            Phrase.Count(load.Frames.Length, "frame"),
            MovingSentences.Weight(Text, load.Weight, load.IsHeavier),
            DoorsOf(load.Frames),
            load.Unweighed > 0 ? $"{Phrase.Count(load.Unweighed, "frame")} of unknown weight" : "")),
        .. list.Loose.Count > 0
            ? [new LoadTotal(
                "Loose cables",
                Phrase.Count(list.Loose.Count, "coil"),
                MovingSentences.Weight(Text, list.Loose.Weight, list.Loose.Unweighed > 0),
                "",
                list.Loose.Unweighed > 0 ? $"{Phrase.Count(list.Loose.Unweighed)} of unknown weight" : "")]
            : ImmutableArray<LoadTotal>.Empty,
        new LoadTotal(
            "Total",
            Phrase.Count(list.Loads.Sum(load => load.Frames.Length), "frame"),
            MovingSentences.Weight(Text, list.Weight, list.IsHeavier),
            DoorsOf([.. list.Loads.SelectMany(load => load.Frames)]),
            ""),
    ];
}

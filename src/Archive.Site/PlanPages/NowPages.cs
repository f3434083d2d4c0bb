using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Decabling;
using Archive.Plans.Now;
using Archive.Plans.Progress;
using Archive.Plans.Safety;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.PlanPages;

/// <summary>How things stand.</summary>
public sealed record NowPage(PageHead Head) : PageView(Head)
{
    /// <summary>The phase, how far halls and displays have come, and what is missing.</summary>
    public required ImmutableArray<string> Summary { get; init; }

    /// <summary>The pace so far, and when the rest will be finished.</summary>
    public required ImmutableArray<string> Pace { get; init; }

    /// <summary>What can hurt in the next steps.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>What each crew can do next.</summary>
    public required ImmutableArray<CrewTurn> Crews { get; init; }

    /// <summary>What keeps steps back.</summary>
    public required ImmutableArray<BlockedLine> Blocked { get; init; }
}

/// <summary>The next steps of a crew.</summary>
/// <param name="Name">The work, and the number of the crew where there are several.</param>
/// <param name="Anchor">Where it is on the page.</param>
/// <param name="List">The whole list; null where there is none.</param>
public sealed record CrewTurn(string Name, string Anchor, Link? List, ImmutableArray<TurnStep> Steps);

/// <summary>A step that can be done next.</summary>
/// <param name="Does">What is done.</param>
/// <param name="Of">The cable or frame.</param>
/// <param name="Ends">Where the cable ends.</param>
/// <param name="State">What it waits for; nothing where that is nothing.</param>
/// <param name="Warnings">What to watch out for.</param>
public sealed record TurnStep(
    string Does, RecordLink Of, ImmutableArray<EndPlace> Ends, HtmlFragment State, ImmutableArray<WarningLine> Warnings);

/// <summary>What keeps steps back.</summary>
/// <param name="Crew">Whose steps.</param>
/// <param name="Steps">How many, in words.</param>
/// <param name="Why">What they wait for.</param>
public sealed record BlockedLine(string Crew, string Steps, HtmlFragment Why);

/// <summary>Makes the page of how things stand.</summary>
internal sealed class NowPages(ArchiveModel archive, PageFactory pageFactory, RowBuilder rowBuilder, NowPlan plan)
{
    public IEnumerable<OutputFile> All() =>
    [
        pageFactory.Page(
            NowPlan.Kind.Page, location => new NowPage(pageFactory.Head("now", location, NowPlan.Kind.Title, NowPlan.Kind.Means))
            {
                Summary = plan.State,
                Pace = plan.Pace,
                Cautions = plan.Cautions,
                Crews = [.. plan.Next
                    .GroupBy(step => (step.Crew, step.Number))
                    .Select(turn => Turn(turn.Key.Crew, turn.Key.Number, [.. turn], location))],
                Blocked = [.. plan.Blocked.Select(blocked => new BlockedLine(
                    NowSentences.Describe(blocked.Crew),
                    Phrase.Count(blocked.Steps, "step"),
                    TextPartWriter.Write(blocked.Why, archive, location)))],
            }),
    ];

    private CrewTurn Turn(CrewKind crew, int number, ImmutableArray<NextStep> steps, PageLocation location) => new(
        NowSentences.Describe(crew) + (plan.Next.Any(step => step.Crew == crew && step.Number > 1) ? $", crew {number}" : ""),
        $"{NowSentences.Describe(crew).ToLowerInvariant().Replace(' ', '-')}-{number}",
        crew switch
        {
            CrewKind.TakingOut => new Link(DecablingPlan.Kind.Title, location.To(DecablingPlan.Kind.Page)),
            CrewKind.PuttingBack => new Link(
                $"{steps[0].List}: cables to reconnect",
                location.To(ReconnectionPages.PathOf(archive.Find<Frame>(steps[0].List!)!))),
            _ => null,
        },
        [.. steps.Select(step => Line(step, location))]);

    private TurnStep Line(NextStep step, PageLocation location) => new(
        Phrase.Heading(step.Does),
        rowBuilder.Record(step.Cable ?? step.Frame!, location),
        [.. step.Ends.Select(end => rowBuilder.At(end, location))],
        step.State.WaitsFor.IsEmpty ? HtmlFragment.None : TextPartWriter.Write(StateText.Parts(step.State), archive, location),
        [.. plan.WarningsOf(step).Select(warning => WarningLine.Create(warning, archive, location))]);
}

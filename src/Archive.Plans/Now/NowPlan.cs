using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Plans.Progress;
using Archive.Plans.Safety;
using Archive.Plans.Warnings;
using Archive.Records.Model;
using Archive.Wiring.Progress;
using Archive.Wiring.Reconnecting;

namespace Archive.Plans.Now;

/// <summary>
/// How things stand: what each crew can do next, what is blocked and why, and how far halls and displays have come. There is no clock: all
/// as of the last event.
/// </summary>
public sealed class NowPlan : Plan
{
    public static new PlanKind Kind { get; } = new(
        "now", "Now", "What each crew can do next, what is blocked and why, and how far each hall and display has come.", (context, _) =>
            new NowPlan(context))
    {
        Page = "now/index.html",
    };

    private const int MostBlockages = 20;

    private readonly PlanContext _context;
    private readonly ImmutableArray<(Frame Frame, PuttingBackList List)> _puttingBack;

    private NowPlan(PlanContext context)
        : base(Kind)
    {
        _context = context;
        _puttingBack = [.. context.FramesToConnect.Select(frame => (frame, context.Connecting.ListOf(frame)))];
        Next = NextSteps.Choose(context, _puttingBack);
        Blocked =
        [
            .. Blockage.From(CrewKind.TakingOut, context.TakingOut.Steps
                .Where(step => step.State.Status == StepStatus.Waiting)
                .Select(step => (step.Cable?.Id, step.State))).Take(MostBlockages),
            .. Blockage.From(CrewKind.PuttingBack, Waiting(_puttingBack)).Take(MostBlockages),
        ];
        Standings = CompletionStatus.All(context);
        TakingOutPace = DailyPace.OfTakingOut(context);
        ConnectingPace = DailyPace.OfConnecting(context);
        CablesIn = context.TakingOut.Steps.Count(step => step.Pulls && step.State.Status != StepStatus.Done);
        var connected = context.Connecting.Cables.Count(laid => context.Progress.ConnectedBy(laid.Cable.Id) is not null);
        (AnyConnected, CablesOff) = (connected > 0, context.Connecting.Cables.Length - connected);
    }

    /// <summary>What crews can do next, crew by crew.</summary>
    public ImmutableArray<NextStep> Next { get; }

    /// <summary>What keeps steps back.</summary>
    public ImmutableArray<Blockage> Blocked { get; }

    /// <summary>How far displays and halls have come.</summary>
    public ImmutableArray<CompletionStatus> Standings { get; }

    /// <summary>Cables a day, taken out; null where too few days are known.</summary>
    public DailyPace? TakingOutPace { get; }

    /// <summary>Cables a day, connected; null where too few days are known.</summary>
    public DailyPace? ConnectingPace { get; }

    /// <summary>How many cables are still to be taken out.</summary>
    public int CablesIn { get; }

    /// <summary>How many cables are not connected.</summary>
    public int CablesOff { get; }

    /// <summary>Whether any cable is connected again.</summary>
    public bool AnyConnected { get; }

    public override ImmutableArray<string> Summary => [.. State, .. Pace];

    /// <summary>The phase of the work, its progress, and what is missing, in sentences.</summary>
    public ImmutableArray<string> State => NowSentences.Describe(this, _context);

    /// <summary>The pace so far, and when the rest will be finished, in sentences.</summary>
    public ImmutableArray<string> Pace => NowSentences.DescribePace(this, _context);

    protected override ImmutableArray<Caution> FindCautions() => Next.IsEmpty ? [] :
    [
        .. Next.Any(step => step.Crew != CrewKind.Moving) ? [StandardCautions.Powered] : Array.Empty<Caution>(),
        .. HazardCautions.For(RecordedHazards.Of(
            _context.Record,
            Halls,
            Next.SelectMany(step => step.Places),
            Next.Select(step => step.Cable is { } cable ? _context.Record.Find<Cable>(cable) : null).OfType<Cable>(),
            [])),
        StandardCautions.Tall,
    ];

    // Where the next steps are done: taking out where it was found, putting back where it is planned, moving in both.
    private IEnumerable<Hall> Halls =>
    [
        .. Next.Any(step => step.Crew != CrewKind.PuttingBack) && _context.Record.AsFoundHall is { } found ? [found] : Array.Empty<Hall>(),
        .. Next.Any(step => step.Crew != CrewKind.TakingOut)
            ? _context.Runs.Reaches.Select(reach => reach.Layout.Hall)
            : [],
    ];

    public override ImmutableArray<DataTable> Tables =>
    [
        new DataTable<NextStep>("plans/now", "a step that a crew can do next", Steps(new StepWarnings(_context)), Next),
        new DataTable<Blockage>(
            "plans/now-blocked", "something that keeps steps back, for each crew what keeps back the most first", Blockages(), Blocked),
        new DataTable<CompletionStatus>("plans/now-progress", "how far a display or hall has come", Progress(), Standings),
    ];

    internal override ImmutableArray<string> Shown => ["crew", "number", "does", "list", "step", "cable", "frame", "ends", "state"];

    internal override IEnumerable<string> LinesBeneath(int row) =>
        [
            .. WarningsOf(Next[row]).Select(warning => warning.Text),
            StateText.Describe(Next[row].State)
        ];

    /// <summary>What to watch out for at a step: the warnings of the list that it is taken from.</summary>
    public ImmutableArray<StepWarning> WarningsOf(NextStep step) => WarningsOf(step, new StepWarnings(_context));

    private DataShape<Blockage> Blockages() => new DataShape<Blockage>()
        .Text("crew", "taking_out or putting_back", blockage => DataValue.Word<CrewKind>(blockage.Crew))
        .Count("steps", "how many steps wait for it", blockage => blockage.Steps)
        .Text("why", "what they wait for", blockage => string.Concat(blockage.Why.Select(part => part.Text)))
        .List("cables", "ids of the first of their cables", blockage => blockage.Cables)
        .Cautions(Cautions);

    private DataShape<CompletionStatus> Progress() => new DataShape<CompletionStatus>()
        .Text("of", "id of the display or hall", standing => standing.Of.Id)
        .Text("kind", "display or hall", standing => standing.Of.RecordKind.Noun())
        .Count("frames", "frames planned there, or in its working set", standing => standing.Frames)
        .Count("in_place", "how many of them are in their places", standing => standing.InPlace)
        .Count("cables", "cables between them", standing => standing.Cables)
        .Count("connected", "how many of those are connected", standing => standing.Connected)
        .Count("too_short", "how many of those are too short", standing => standing.TooShort)
        .Cautions(Cautions);

    private DataShape<NextStep> Steps(StepWarnings warnings) => new DataShape<NextStep>()
        .Text("crew", "taking_out, moving or putting_back", step => DataValue.Word<CrewKind>(step.Crew))
        .Count("number", "which of the crews at this work, from 1: crews stay at frames apart", step => step.Number)
        .Text("does", "what is done", step => step.Does)
        .Text("list", "id of the frame whose list of putting back has the step; empty for the crew sheet and for moving", step => step.List)
        .Count("step", "its number in its list; empty where a frame is moved", step => step.Step)
        .Text("cable", "id of the cable", step => step.Cable)
        .Text("frame", "id of the frame", step => step.Frame)
        .List("ends", "addresses of the ends where it is done; of a cable that is laid or pulled, of all its known ends", step =>
            step.Ends.Select(end => end.At.ToString()))
        .State(step => step.State)
        .Cautions(Cautions)
        .Warnings(step => WarningsOf(step, warnings));

    private ImmutableArray<StepWarning> WarningsOf(NextStep step, StepWarnings warnings) => step switch
    {
        { Crew: CrewKind.TakingOut, Step: { } number } => warnings.Of(_context.TakingOut.Steps[number - 1]),
        { Crew: CrewKind.PuttingBack, Step: { } number, List: { } list } =>
            warnings.Of(_context.Connecting.ListOf(_context.Record.Find<Frame>(list)!).Steps[number - 1]),
        { Frame: { } frame } => warnings.OfMoving(_context.Record.Find<Frame>(frame)!),
        _ => [],
    };

    // A cable is laid once, though the lists of both its frames have the step.
    private static IEnumerable<(string? Cable, StepState State)> Waiting(ImmutableArray<(Frame Frame, PuttingBackList List)> lists) =>
        lists.SelectMany(each => each.List.Steps)
            .Where(step => step.State.Status == StepStatus.Waiting)
            .DistinctBy(step => (
                step.Action,
                step.Laid?.Cable.Id ?? step.Frame!.Id,
                step.Action == StepAction.Connect ? step.Ends[0].End.At.ToString() : ""))
            .Select(step => (step.Laid?.Cable.Id, step.State));
}

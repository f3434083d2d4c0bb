using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Decabling;

/// <summary>Says how far each step of taking the cables out has come.</summary>
/// <remarks>
/// The electrical rules ask whether a cable is disconnected, what lies on what asks whether it is out. Linear in steps, their ends and what
/// they lie over.
/// </remarks>
internal sealed class TakingOutStates
{
    private readonly ArchiveModel _record;
    private readonly WorkProgress _progress;
    private readonly EarthTree _earths;
    private readonly List<string> _outside = [];
    private readonly List<string> _feeders = [];
    private readonly Precondition? _outsideOff;
    private readonly Precondition? _feedersOff;
    private readonly Dictionary<string, List<string>> _others = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<(string Id, PullGroup? Cycle)>> _over = new(StringComparer.Ordinal);

    private readonly Dictionary<string, List<string>> _holding = new(StringComparer.Ordinal);

    private readonly Dictionary<string, List<string>> _units = new(StringComparer.Ordinal);

    private TakingOutStates(
        ArchiveModel record,
        EarthTree earths,
        WorkProgress progress,
        ImmutableArray<DecablingStep> steps,
        ImmutableArray<CableReading> staying)
    {
        (_record, _progress, _earths) = (record, progress, earths);
        foreach (var reading in steps.Where(step => step.Disconnects)
            .Select(step => step.Reading!)
            .Concat(staying.Where(reading => reading.Cable.Owner is not null))) NoteConnected(reading);
        if (_outside.Count > 0) _outsideOff = Precondition.About(PreconditionKind.OutsideOff, _outside);
        if (_feeders.Count > 0) _feedersOff = Precondition.About(PreconditionKind.FeedersOff, _feeders);
        if (steps is [.., { Action: StepAction.Release, Frame: { } going }]) NoteHolding(going.Id, steps, staying);
        foreach (var step in steps)
        {
            foreach (var unit in step.Units.Where(unit => progress.UnitOutBy(unit.Id) is null)) Add(_units, step.Frame!.Id, unit.Id);
        }

        foreach (var step in steps.Where(step => step.Pulls && progress.TakenOutBy(step.Cable!.Id) is null))
        {
            foreach (var under in step.Cable!.LiesOver.Select(name => record.Find<Cable>(name.Value)?.Id).OfType<string>().Distinct())
                Add(_over, under, (step.Cable.Id, step.Cycle));
        }
    }

    /// <summary>The steps with their states.</summary>
    /// <param name="progress">What has been done.</param>
    /// <param name="steps">The steps in order.</param>
    /// <param name="staying">Cables that stay in place: outside lines and feeders among them are off before anything else, too.</param>
    public static ImmutableArray<DecablingStep> Add(
        ArchiveModel record,
        EarthTree earths,
        WorkProgress progress,
        ImmutableArray<DecablingStep> steps,
        ImmutableArray<CableReading> staying)
    {
        var states = new TakingOutStates(record, earths, progress, steps, staying);
        return [.. steps.Select(step =>
            step with { State = states.DoneBy(step) is { } done ? StepState.Done(done) : StepState.From(states.Preconditions(step)) })];
    }

    private static void Add<T>(Dictionary<string, List<T>> all, string of, T one)
    {
        if (!all.TryGetValue(of, out var list)) all[of] = list = [];
        list.Add(one);
    }

    private static IEnumerable<string> FramesOf(CableReading reading) =>
        reading.Ends.Select(end => end.At.Frame).Distinct(StringComparer.Ordinal);

    private void NoteConnected(CableReading reading)
    {
        if (_progress.FreedBy(reading) is not null) return;
        var (id, role) = (reading.Cable.Id, CableRoles.Of(_record, reading.Cable));
        if (role == CableRole.Outside) _outside.Add(id);
        else if (OrderRules.FeedersFirst.Roles.Contains(role)) _feeders.Add(id);
        foreach (var frame in FramesOf(reading).Where(frame => _earths.RoleAt(frame, id, role) != CableRole.Earth
            && !_progress.IsFreedAt(reading, frame))) Add(_others, frame, id);
    }

    // What comes out holds a frame until it is out, what stays until it is off.
    private void NoteHolding(string frame, ImmutableArray<DecablingStep> steps, ImmutableArray<CableReading> staying)
    {
        var pulled = steps.Where(step => step.Pulls).Select(step => step.Cable!.Id).ToHashSet(StringComparer.Ordinal);
        foreach (var reading in steps.Select(step => step.Reading).OfType<CableReading>()
            .Concat(staying.Where(reading => reading.Cable.Owner is not null))
            .DistinctBy(reading => reading.Cable.Id)
            .Where(reading => FramesOf(reading).Contains(frame, StringComparer.Ordinal)))
        {
            var isGone = pulled.Contains(reading.Cable.Id)
                ? _progress.TakenOutBy(reading.Cable.Id) is not null
                : _progress.IsFreedAt(reading, frame);
            if (!isGone) Add(_holding, frame, reading.Cable.Id);
        }
    }

    private ArchiveEvent? DoneBy(DecablingStep step) => step.Action switch
    {
        StepAction.Release => _progress.LeftBy(step.Frame!.Id),
        StepAction.MakeSafe => _progress.LastOf(step.Frame!.Id, EventType.Isolated) ?? _progress.LeftBy(step.Frame.Id),
        StepAction.TakeOutUnits => _progress.UnitsOutBy(step.Units),
        StepAction.Disconnect => _progress.FreedBy(step.Reading!),
        _ => _progress.TakenOutBy(step.Cable!.Id),
    };

    private IEnumerable<Precondition> Preconditions(DecablingStep step)
    {
        if (step.Cable is { } cable)
        {
            if (_progress.JourneyOf(cable.Id)?.Situation == Journeys.Situation.Missing)
                yield return Precondition.Of(PreconditionKind.CableFound);
            if (FramesOf(step.Reading!).FirstOrDefault(_progress.HasLeft) is { } left)
                yield return new Precondition(PreconditionKind.Recorded) { Frame = left };
            var isOff = _progress.FreedBy(step.Reading!) is not null;
            if (step.Disconnects && !isOff)
            {
                foreach (var electrical in BeforeDisconnecting(step)) yield return electrical;
            }

            if (step.Action == StepAction.Pull && !isOff) yield return Precondition.Of(PreconditionKind.EndsOff);
            if (step.Pulls && _over.TryGetValue(cable.Id, out var over))
            {
                List<string> above = [.. over.Where(each => step.Cycle is null || !ReferenceEquals(each.Cycle, step.Cycle))
                    .Select(each => each.Id)];
                if (above.Count > 0) yield return Precondition.About(PreconditionKind.CablesOverOut, above);
            }
        }

        if (step.Action == StepAction.Release && _holding.TryGetValue(step.Frame!.Id, out var holding))
            yield return Precondition.About(PreconditionKind.OthersOff, holding) with { Frame = step.Frame.Id };
        if (step.Action == StepAction.Release && UnitsIn(step.Frame!.Id) is { } inside) yield return inside;
        if (step.Action == StepAction.TakeOutUnits)
        {
            foreach (var each in BeforeUnits(step)) yield return each;
        }

        if (step.Cable is null || WorkProgress.NeedsLicence(_record, step.Cable))
            yield return Precondition.Of(PreconditionKind.Licensed);
    }

    private Precondition? OthersAt(string frame) => _others.TryGetValue(frame, out var others)
        ? Precondition.About(PreconditionKind.OthersOff, others) with { Frame = frame }
        : null;

    private Precondition? UnitsIn(string frame) => _units.TryGetValue(frame, out var units)
        ? Precondition.About(PreconditionKind.UnitsTakenOut, units) with { Frame = frame }
        : null;

    // Units come out of a dead frame only, to which nothing is connected but its earths.
    private IEnumerable<Precondition> BeforeUnits(DecablingStep step)
    {
        var frame = step.Frame!.Id;
        if (_progress.HasLeft(frame))
            yield return Precondition.About(PreconditionKind.Recorded, _units[frame]) with { Frame = frame };
        if (_outsideOff is not null) yield return _outsideOff;
        if (_feedersOff is not null) yield return _feedersOff;
        if (_progress.LastOf(frame, EventType.Isolated) is null) yield return Precondition.Of(PreconditionKind.Isolated);
        if (OthersAt(frame) is { } others) yield return others;
    }

    private IEnumerable<Precondition> BeforeDisconnecting(DecablingStep step)
    {
        if (step.Role != CableRole.Outside && _outsideOff is not null) yield return _outsideOff;
        if (!OrderRules.FeedersFirst.Roles.Contains(step.Role) && _feedersOff is not null) yield return _feedersOff;
        if (OrderRules.FeedersFirst.Roles.Contains(step.Role) && _progress.LastOf(step.Cable!.Id, EventType.Isolated) is null)
            yield return Precondition.Of(PreconditionKind.Isolated);
        foreach (var frame in _earths.FramesOf(step.Cable!.Id))
        {
            if (OthersAt(frame) is { } others) yield return others;
            if (UnitsIn(frame) is { } inside) yield return inside;
        }
    }
}

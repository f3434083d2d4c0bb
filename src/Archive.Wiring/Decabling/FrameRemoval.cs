using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Decabling;

/// <summary>
/// The part of an order of taking out that one frame needs to be free: every disconnecting and pulling at the frame, and whatever
/// <see cref="OrderRules.Disconnecting"/> or what lies on what puts before it, in the order of the whole.
/// </summary>
/// <remarks>
/// What is left out comes before nothing that is left in, so the part obeys the rules that the whole obeys. What was done needs nothing
/// before it any more. Each part is linear in its steps, in the cables at the frames of its earths, and in what lies over what.
/// </remarks>
internal sealed class FrameRemoval
{
    private readonly ArchiveModel _record;
    private readonly LabelReadings _readings;
    private readonly WorkProgress _progress;
    private readonly DecablingOrder _whole;
    private readonly EarthTree _earths;
    private readonly List<Work> _works = [];
    private readonly Dictionary<string, int> _off = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> _pulled = new(StringComparer.Ordinal);
    private readonly ILookup<string, string> _at;
    private readonly ILookup<string, string> _over;
    private readonly Dictionary<string, int> _units = new(StringComparer.Ordinal);
    private readonly List<int> _batteries = [];
    private readonly List<int> _outside = [];
    private readonly List<int> _feeders = [];

    public FrameRemoval(ArchiveModel record, LabelReadings readings, EarthTree earths, WorkProgress progress, DecablingOrder whole)
    {
        (_record, _readings, _progress, _whole, _earths) = (record, readings, progress, whole, earths);
        foreach (var step in whole.Steps)
        {
            if (step.Action == StepAction.MakeSafe) _batteries.Add(Add(step, StepAction.MakeSafe));
            if (step.Action == StepAction.TakeOutUnits) _units[step.Frame!.Id] = Add(step, StepAction.TakeOutUnits);
            if (step.Disconnects)
            {
                var off = _off[step.Cable!.Id] = Add(step, StepAction.Disconnect);
                if (step.Role == CableRole.Outside) _outside.Add(off);
                else if (OrderRules.FeedersFirst.Roles.Contains(step.Role)) _feeders.Add(off);
            }

            if (step.Pulls) _pulled[step.Cable!.Id] = Add(step, StepAction.Pull);
        }

        _at = _off.Keys.SelectMany(id => FramesOf(id).Select(frame => (frame, id)))
            .ToLookup(pair => pair.frame, pair => pair.id, StringComparer.Ordinal);
        _over = _pulled.Keys.SelectMany(id => readings.Find(id)!.Cable.LiesOver
                .Select(under => record.Find<Cable>(under.Value)?.Id)
                .OfType<string>()
                .Distinct(StringComparer.Ordinal)
                .Select(under => (under, id)))
            .ToLookup(pair => pair.under, pair => pair.id, StringComparer.Ordinal);
    }

    /// <summary>The part that frees a frame.</summary>
    /// <param name="frame">Id of a frame.</param>
    /// <param name="most">How much may be done in it, each disconnecting and each pulling counted.</param>
    /// <returns>Null where it would take more.</returns>
    public (ImmutableArray<DecablingStep> Steps, ImmutableArray<FrameRelease> Releases)? Of(string frame, int most)
    {
        if (Needed(frame, most) is not { } needed) return null;
        var waiting = needed.SelectMany(FramesHeldUntil)
            .CountBy(at => at, StringComparer.Ordinal)
            .ToDictionary(StringComparer.Ordinal);
        foreach (var at in waiting.Keys.ToList())
        {
            // The frame itself has its own last step. Others are free if no cable of theirs is left, nor a unit that must be out before
            // they move, and the whole order frees them.
            if (at == frame
                || waiting[at] < _at[at].Count() + (_units.ContainsKey(at) ? 1 : 0)
                || _whole.ReleaseOf(at) is not { Step: > 0 }) waiting.Remove(at);
        }

        var (steps, releases, elapsed) = (new List<DecablingStep>(), new List<FrameRelease>(), 0L);
        foreach (var work in needed.Order())
        {
            var step = Written(work, frame);
            var milliseconds = MillisecondsOf(work);
            elapsed += milliseconds;
            ImmutableArray<string> released =
                [.. FramesHeldUntil(work).Where(at => waiting.ContainsKey(at) && --waiting[at] == 0).Order(StringComparer.Ordinal)];
            if (step.Action == StepAction.Pull && steps is [.., { Action: StepAction.Disconnect } off] && off.Cable == step.Cable)
            {
                steps[^1] = step with
                {
                    Action = StepAction.TakeOut,
                    Number = off.Number,
                    Frees = off.Frees,
                    FedAlsoBy = off.FedAlsoBy,
                    Minutes = Pace.Minutes(_whole.Pace.Milliseconds(step.Cable!)),
                    Elapsed = Pace.Minutes(elapsed),
                    Released = released,
                };
            }
            else
            {
                steps.Add(step with
                {
                    Number = steps.Count + 1,
                    Minutes = Pace.Minutes(milliseconds),
                    Elapsed = Pace.Minutes(elapsed),
                    Released = released,
                });
            }

            releases.AddRange(released.Select(each =>
                new FrameRelease(each, steps.Count, Pace.Minutes(elapsed), _whole.ReleaseOf(each)!.Staying)));
        }

        if (_whole.ReleaseOf(frame) is { } own)
        {
            var stage = steps is [.., var last] ? last.Stage : DecablingStage.Inside;
            steps.Add(new DecablingStep(steps.Count + 1, StepAction.Release, stage)
            {
                Frame = _record.Find<Frame>(frame),
                Released = [frame],
                Minutes = 0,
                Elapsed = Pace.Minutes(elapsed),
            });
            releases.Add(new FrameRelease(frame, steps.Count, Pace.Minutes(elapsed), own.Staying));
        }

        // What belongs to others is no step, and is waited for all the same.
        ImmutableArray<CableReading> others = [.. _readings.Cables.Where(reading => reading.Cable.Owner is not null)];
        return (TakingOutStates.Add(_record, _earths, _progress, [.. steps], others), [.. releases]);
    }

    private int Add(DecablingStep step, StepAction action)
    {
        _works.Add(new Work(step, action));
        return _works.Count - 1;
    }

    private HashSet<int>? Needed(string frame, int most)
    {
        var (needed, gone) = (new HashSet<int>(), new HashSet<object>());
        var open = new Stack<int>(_batteries
            .Where(work => _works[work].Step.Frame!.Id == frame)
            .Concat(UnitsOf(frame))
            .Concat(_at[frame].SelectMany(WorkOn)));
        while (open.TryPop(out var work))
        {
            if (!needed.Add(work) || IsDone(work)) continue;
            if (needed.Count > most) return null;
            foreach (var before in Before(work, gone.Add)) open.Push(before);
        }

        return needed;
    }

    // Nothing is dead as long as a battery is live; the other rules are those of the whole order. What many works have before them is gone
    // through once.
    private IEnumerable<int> Before(int work, Func<object, bool> isFirst)
    {
        var (step, action) = _works[work];
        if (action == StepAction.TakeOutUnits) return [.. BeforeAll(step, isFirst), .. OthersAt(step.Frame!.Id, isFirst)];
        if (step.Cable is not { } cable) return [];
        if (action == StepAction.Pull)
        {
            return
            [
                _off[cable.Id],
                .. _over[cable.Id].Select(over => _pulled[over]),
                .. step.Cycle is { } knot && isFirst(knot) ? knot.Cables.SelectMany(other => WorkOn(other.Id)) : [],
            ];
        }

        return
        [
            .. BeforeAll(step, isFirst),
            .. _earths.FramesOf(cable.Id).SelectMany(frame => OthersAt(frame, isFirst).Concat(UnitsOf(frame))),
        ];
    }

    private IEnumerable<int> BeforeAll(DecablingStep step, Func<object, bool> isFirst) =>
    [
        .. isFirst(_batteries) ? _batteries : [],
        .. !OrderRules.OutsideFirst.Roles.Contains(step.Role) && isFirst(_outside) ? _outside : [],
        .. !OrderRules.FeedersFirst.Roles.Contains(step.Role) && isFirst(_feeders) ? _feeders : [],
    ];

    // What is disconnected at a frame before its earths.
    private IEnumerable<int> OthersAt(string frame, Func<object, bool> isFirst) => !isFirst(frame) ? [] : _at[frame]
        .Where(other => _earths.RoleAt(frame, other, CableRoles.Of(_record, _readings.Find(other)!.Cable)) != CableRole.Earth)
        .Select(other => _off[other]);

    private IEnumerable<int> UnitsOf(string frame) => _units.TryGetValue(frame, out var work) ? [work] : [];

    private bool IsDone(int work) => _works[work] switch
    {
        { Action: StepAction.Disconnect, Step: var step } => _progress.FreedBy(step.Reading!) is not null,
        { Action: StepAction.Pull, Step: var step } => _progress.TakenOutBy(step.Cable!.Id) is not null,
        { Action: StepAction.TakeOutUnits, Step: var step } => _progress.UnitsOutBy(step.Units) is not null,
        _ => false,
    };

    private IEnumerable<int> WorkOn(string cable) => _pulled.TryGetValue(cable, out var pull) ? [_off[cable], pull] : [_off[cable]];

    // The last work on a cable holds the frames at its ends, units hold theirs.
    private IEnumerable<string> FramesHeldUntil(int work) => _works[work] switch
    {
        { Action: StepAction.Pull, Step: var step } => FramesOf(step.Cable!.Id),
        { Action: StepAction.Disconnect, Step: var step } when !_pulled.ContainsKey(step.Cable!.Id) => FramesOf(step.Cable!.Id),
        { Action: StepAction.TakeOutUnits, Step: var step } => [step.Frame!.Id],
        _ => [],
    };

    private long MillisecondsOf(int work) => _works[work] switch
    {
        { Action: StepAction.Pull, Step: var step } => _whole.Pace.MillisecondsToPull(step.Cable!),
        { Action: StepAction.Disconnect, Step: var step } => _whole.Pace.MillisecondsToDisconnect(step.Cable!),
        _ => 0,
    };

    // A cable of the frame is pulled away from it; of the others the whole order says which way.
    private DecablingStep Written(int work, string frame)
    {
        var (step, action) = _works[work];
        if (action == StepAction.Disconnect)
            return step with { Action = action, Pull = PullPath.None, Under = [] };
        if (action != StepAction.Pull) return step;
        return step with
        {
            Action = action,
            Frees = [],
            FedAlsoBy = null,
            Pull = FramesOf(step.Cable!.Id).Contains(frame)
                ? PullPath.Create(_record, step.Reading!, at => at == frame ? 0 : 1)
                : step.Pull,
        };
    }

    private IEnumerable<string> FramesOf(string cable) =>
        _readings.Find(cable)!.Ends.Select(end => end.At.Frame).Distinct(StringComparer.Ordinal);

    /// <summary>One thing that is done in a step: a cable is disconnected or pulled, a battery made safe, units taken out.</summary>
    private sealed record Work(DecablingStep Step, StepAction Action);
}

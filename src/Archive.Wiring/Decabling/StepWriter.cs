using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;
using Archive.Wiring.Units;

namespace Archive.Wiring.Decabling;

/// <summary>Writes lifts down as steps: what is disconnected first, then each pull, and before it whatever must be off by then.</summary>
/// <remarks>
/// Units that must be out before their frame moves come out when all feeders are off and nothing is connected to the frame but its earths,
/// to which wrist straps are bonded; where it has none, when its last cable is out.
/// </remarks>
internal sealed class StepWriter
{
    private const int MostFeeders = 12;

    private readonly ArchiveModel _record;
    private readonly LabelReadings _readings;
    private readonly Pace _pace;
    private readonly EarthTree _earths;
    private readonly DisconnectionOrder _off;
    private readonly Dictionary<string, ImmutableArray<Unit>> _unitsIn = new(StringComparer.Ordinal);
    private readonly ILookup<string, CableReading> _staying;
    private readonly ILookup<string, string> _over;
    private readonly ILookup<string, string> _feeders;
    private readonly Dictionary<string, int> _waiting = new(StringComparer.Ordinal);
    private readonly List<DecablingStep> _steps = [];
    private readonly Dictionary<string, int> _last = new(StringComparer.Ordinal);
    private long _elapsed;

    private StepWriter(
        ArchiveModel record,
        LabelReadings readings,
        EarthTree earths,
        Pace pace,
        ImmutableArray<(PullGroup Lift, DecablingStage Stage)> lifts,
        ImmutableArray<CableReading> staying)
    {
        (_record, _readings, _earths, _pace) = (record, readings, earths, pace);
        _staying = staying
            .SelectMany(reading => FramesOf(reading).Select(frame => (frame, reading)))
            .ToLookup(at => at.frame, at => at.reading, StringComparer.Ordinal);
        _over = staying.SelectMany(reading =>
            reading.Cable.LiesOver.Select(under => (Under: record.Find<Cable>(under.Value)?.Id ?? under.Value, reading.Cable.Id)))
            .Distinct().ToLookup(pair => pair.Under, pair => pair.Id, StringComparer.Ordinal);
        _feeders = readings.Cables
            .Where(reading => CableRoles.Of(record, reading.Cable) == CableRole.Feeder)
            .SelectMany(reading => FramesOf(reading).Select(frame => (frame, reading.Cable.Id)))
            .ToLookup(at => at.frame, at => at.Id, StringComparer.Ordinal);
        foreach (var frame in lifts.SelectMany(lift => lift.Lift.Cables).SelectMany(cable => FramesOf(readings.Find(cable.Id)!)))
            _waiting[frame] = _waiting.GetValueOrDefault(frame) + 1;
        var units = new UnitIndex(record);
        foreach (var frame in record.Frames.Where(frame => Goes(frame.Id)))
        {
            if (units.OutBeforeMoving(frame.Id).ToImmutableArray() is { IsEmpty: false } inside) _unitsIn[frame.Id] = inside;
        }

        _off = new DisconnectionOrder(
            record, _earths, lifts.SelectMany(lift => lift.Lift.Cables)
                .Select(cable => readings.Find(cable.Id)!)
                .Concat(staying.Where(reading => reading.Cable.Owner is null)));
        foreach (var frame in record.Frames.Where(frame => frame is { IsWithdrawn: false, Owner: null }
            && frame.Hazards.Any(hazard => hazard.Value is Hazard.LeadAcidBattery or Hazard.LithiumBattery))) MakeSafe(frame);
        foreach (var reading in _off.First) Disconnect(reading, CableRoles.Of(record, reading.Cable) == CableRole.Outside
            ? DecablingStage.OutsideLines
            : DecablingStage.Feeders, null);
        foreach (var (lift, stage) in lifts) Pull(lift, stage);
        foreach (var reading in staying.Where(reading => reading.Cable.Owner is null))
            DisconnectAll(_off.Disconnect(reading), DecablingStage.Inside, null);
        foreach (var frame in _unitsIn.Keys.Order(StringComparer.Ordinal).ToList())
            TakeOutUnits(frame, DecablingStage.Inside, frees: false);
    }

    /// <summary>
    /// Whether every cable was disconnected in its own turn, or before all others: then the times are those that the order was found by.
    /// </summary>
    private bool IsPunctual { get; set; } = true;

    /// <summary>Writes lifts down.</summary>
    /// <param name="readings">Its labels as read.</param>
    /// <param name="pace">How long a cable takes.</param>
    /// <param name="lifts">What is pulled, in order.</param>
    /// <param name="staying">Cables that stay where they lie; those that belong to others are no steps.</param>
    public static (ImmutableArray<DecablingStep> Steps, ImmutableArray<FrameRelease> Releases, bool IsPunctual) Write(
        ArchiveModel record,
        LabelReadings readings,
        EarthTree earths,
        Pace pace,
        ImmutableArray<(PullGroup Lift, DecablingStage Stage)> lifts,
        ImmutableArray<CableReading> staying)
    {
        var writer = new StepWriter(record, readings, earths, pace, lifts, staying);
        return (writer.Steps(), writer.Releases(), writer.IsPunctual);
    }

    // Which way a cable is pulled rests on when its frames are released.
    private ImmutableArray<DecablingStep> Steps() =>
        [.. _steps.Select(step =>
            step.Pulls ? step with { Pull = PullPath.Create(_record, step.Reading!, frame => _last.GetValueOrDefault(frame)) } : step)];

    private ImmutableArray<FrameRelease> Releases() =>
    [
        .. _record.Frames.Where(frame => frame is { IsWithdrawn: false, Owner: null }).Select(frame => frame.Id)
            .Select(frame => new FrameRelease(
                frame,
                _last.GetValueOrDefault(frame),
                _last.TryGetValue(frame, out var step) ? _steps[step - 1].Elapsed : 0,
                [.. _staying[frame].Select(reading => reading.Cable.Id)]))
            .OrderBy(release => release.Step).ThenBy(release => release.Frame, StringComparer.Ordinal),
    ];

    private void MakeSafe(Frame frame) =>
        Add(0, new DecablingStep(0, StepAction.MakeSafe, DecablingStage.Batteries) { Frame = frame, Minutes = 0, Elapsed = 0 });

    private void DisconnectAll(List<CableReading> readings, DecablingStage stage, PullGroup? lift)
    {
        foreach (var reading in readings)
        {
            if (lift is null || !lift.Cables.Contains(reading.Cable)) IsPunctual = false;
            Disconnect(reading, stage, lift is { IsCycle: true } && lift.Cables.Contains(reading.Cable) ? lift : null);
        }
    }

    private void Disconnect(CableReading reading, DecablingStage stage, PullGroup? knot)
    {
        foreach (var frame in _earths.FramesOf(reading.Cable.Id)) TakeOutUnits(frame, stage, frees: false);
        Add(
            _pace.MillisecondsToDisconnect(reading.Cable),
            StepOn(reading, StepAction.Disconnect, stage, knot) with { Frees = Frees(reading), FedAlsoBy = FedAlsoBy(reading) });
    }

    // Once a frame; it frees one of which no cable comes out. Nobody has measured how long it takes.
    private void TakeOutUnits(string frame, DecablingStage stage, bool frees)
    {
        if (!_unitsIn.Remove(frame, out var units)) return;
        frees |= !_waiting.ContainsKey(frame);
        Add(0, new DecablingStep(0, StepAction.TakeOutUnits, stage)
        {
            Frame = _record.Find<Frame>(frame),
            Units = units,
            Released = frees ? [frame] : [],
            Minutes = 0,
            Elapsed = 0,
        });
        if (frees) _last[frame] = _steps.Count;
    }

    private void Pull(PullGroup lift, DecablingStage stage)
    {
        var cables = (lift.IsCycle ? Untied(lift) : lift.Cables).Select(cable => _readings.Find(cable.Id)!).ToList();
        foreach (var frame in cables.SelectMany(FramesOf)
            .CountBy(frame => frame, StringComparer.Ordinal)
            .Where(here => here.Value == _waiting[here.Key]))
        {
            // What stays is off before the frame's last cable is out: only its bolts hold it then.
            foreach (var reading in _staying[frame.Key].Where(reading => reading.Cable.Owner is null))
                DisconnectAll(_off.Disconnect(reading), stage, lift);
        }

        foreach (var reading in cables) DisconnectAll(_off.Disconnect(reading), stage, lift);
        foreach (var reading in cables)
        {
            ImmutableArray<string> free = [.. FramesOf(reading)
                .Where(frame => --_waiting[frame] == 0 && Goes(frame))
                .Order(StringComparer.Ordinal)];
            ImmutableArray<string> withUnits = [.. free.Where(_unitsIn.ContainsKey)];
            var pulled = StepOn(reading, StepAction.Pull, stage, lift.IsCycle ? lift : null) with
            {
                Under = [.. _over[reading.Cable.Id]],
                Released = [.. free.Except(withUnits)],
            };
            Add(_pace.MillisecondsToPull(reading.Cable), pulled);
            foreach (var frame in FramesOf(reading)) _last[frame] = _steps.Count;
            foreach (var frame in withUnits) TakeOutUnits(frame, stage, frees: true);
        }
    }

    private DecablingStep StepOn(CableReading reading, StepAction action, DecablingStage stage, PullGroup? knot) => new(0, action, stage)
    {
        Reading = reading,
        Cycle = knot,
        Family = CableRoles.FamilyOf(_record, reading.Cable) ?? CableFamily.Other,
        Role = CableRoles.Of(_record, reading.Cable),
        Minutes = 0,
        Elapsed = 0,
    };

    // A pull right after the same cable was disconnected is one step with it.
    private void Add(long milliseconds, DecablingStep step)
    {
        _elapsed += milliseconds;
        var minutes = Pace.Minutes(milliseconds);
        if (step.Action == StepAction.Pull && _steps is [.., { Action: StepAction.Disconnect } off] && off.Cable == step.Cable)
        {
            _steps[^1] = off with
            {
                Action = StepAction.TakeOut,
                Under = step.Under,
                Released = step.Released,
                Minutes = Pace.Minutes(_pace.Milliseconds(step.Cable!)),
                Elapsed = Pace.Minutes(_elapsed)
            };
            return;
        }

        _steps.Add(step with { Number = _steps.Count + 1, Minutes = minutes, Elapsed = Pace.Minutes(_elapsed) });
    }

    private ImmutableArray<KnownEnd> Frees(CableReading reading) =>
        PullPath.CoilEnd(_record, reading) is { } stays ? reading.Ends.RemoveAt(stays) : reading.Ends;

    // The record does not say which way current flows: what is fed is the frame with the fewest feeders.
    private OtherFeeders? FedAlsoBy(CableReading reading) =>
        CableRoles.Of(_record, reading.Cable) == CableRole.Feeder
        && FramesOf(reading).MinBy(frame => _feeders[frame].Count()) is { } fed
        && _feeders[fed].Count() - 1 is > 0 and var others
            ? new OtherFeeders(fed, [.. _feeders[fed].Where(feeder => feeder != reading.Cable.Id).Take(MostFeeders)], others)
            : null;

    // An end may name a frame that the record does not have, or one withdrawn: such a record has errors, and is published with them all the
    // same.
    private bool Goes(string frame) => _record.ById.GetValueOrDefault(frame) is Frame { IsWithdrawn: false, Owner: null };

    private static IEnumerable<string> FramesOf(CableReading reading) =>
        reading.Ends.Select(end => end.At.Frame).Distinct(StringComparer.Ordinal);

    // What releases frames early before the rest, earths last.
    private IEnumerable<Cable> Untied(PullGroup knot)
    {
        var frames = knot.Cables.Select((cable, at) => (At: at, Frames: FramesOf(_readings.Find(cable.Id)!).ToList())).ToList();
        int[][] groups =
        [
            .. frames.SelectMany(cable => cable.Frames.Select(frame => (frame, cable.At)))
                .GroupBy(at => at.frame, at => at.At, StringComparer.Ordinal)
                .Where(group => group.Count() == _waiting[group.Key])
                .OrderBy(group => group.Key, StringComparer.Ordinal)
                .Select(group => group.ToArray()),
        ];
        var none = DirectedGraph.Create(knot.Cables.Length, []);
        var work = new WorkState([.. knot.Cables.Select(_pace.Milliseconds)], none, none);
        var order = ReleaseOrder.Compute(work, groups);
        order.AddRange(work.Do([.. Enumerable.Range(0, knot.Cables.Length)]));
        return order.Select(at => knot.Cables[at]).OrderBy(cable => CableRoles.Of(_record, cable) == CableRole.Earth);
    }
}

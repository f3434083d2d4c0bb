using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Decabling;

/// <summary>Writes lifts down as steps, and finds out when each frame is released.</summary>
internal sealed class StepWriter
{
    private readonly ArchiveModel _record;
    private readonly LabelReadings _readings;
    private readonly Pace _pace;
    private readonly ILookup<string, string> _staying;
    private readonly ILookup<string, string> _over;
    private readonly Dictionary<string, int> _waiting = new(StringComparer.Ordinal);
    private readonly List<DecablingStep> _steps = [];
    private readonly Dictionary<string, int> _last = new(StringComparer.Ordinal);
    private long _elapsed;

    /// <summary>Nothing written yet.</summary>
    /// <param name="readings">Its labels as read.</param>
    /// <param name="pace">How long a cable takes.</param>
    public StepWriter(ArchiveModel record, LabelReadings readings, Pace pace)
    {
        (_record, _readings, _pace) = (record, readings, pace);
        var left = readings.Cables.Where(reading => reading.Cable.Fate?.Value == Fate.Leave).ToList();
        _staying = left.SelectMany(reading => FramesOf(reading).Select(frame => (frame, reading.Cable.Id))).ToLookup(at => at.frame, at => at.Id, StringComparer.Ordinal);
        _over = left.SelectMany(reading => reading.Cable.LiesOver.Select(under => (Under: record.Find<Cable>(under.Value)?.Id ?? under.Value, reading.Cable.Id)))
            .Distinct().ToLookup(pair => pair.Under, pair => pair.Id, StringComparer.Ordinal);
        foreach (var frame in readings.Cables.Where(reading => reading.Cable.Fate?.Value != Fate.Leave).SelectMany(FramesOf))
            _waiting[frame] = _waiting.GetValueOrDefault(frame) + 1;
    }

    /// <summary>Writes the next lift.</summary>
    public void Write(PullGroup lift, DecablingStage stage)
    {
        foreach (var cable in lift.IsCycle ? Untied(lift) : lift.Cables)
        {
            var reading = _readings.Find(cable.Id)!;
            _elapsed += _pace.Milliseconds(cable);
            _steps.Add(new DecablingStep(_steps.Count + 1, reading, stage)
            {
                Cycle = lift.IsCycle ? lift : null,
                Family = PullGraph.Family(_record, cable),
                Role = CableRoles.Of(_record, cable),
                Pull = new PullPath([], null, []),
                Minutes = Pace.Minutes(_pace.Milliseconds(cable)),
                Elapsed = Pace.Minutes(_elapsed),
                Under = [.. _over[cable.Id]],
                Released = [.. FramesOf(reading).Where(frame => --_waiting[frame] == 0 && Stands(frame)).Order(StringComparer.Ordinal)],
            });
            foreach (var frame in FramesOf(reading)) _last[frame] = _steps.Count;
        }
    }

    /// <summary>All steps and releases. Which way a cable is pulled rests on when its frames are released.</summary>
    public (ImmutableArray<DecablingStep> Steps, ImmutableArray<FrameRelease> Releases) Finish() => (
        [.. _steps.Select(step => step with { Pull = PullPath.Create(_record, step.Reading, frame => _last.GetValueOrDefault(frame)) })],
        [
            .. _record.Frames.Where(frame => !frame.IsWithdrawn).Select(frame => frame.Id)
                .Select(frame => new FrameRelease(frame, _last.GetValueOrDefault(frame), _last.TryGetValue(frame, out var step) ? _steps[step - 1].Elapsed : 0, [.. _staying[frame]]))
                .OrderBy(release => release.Step).ThenBy(release => release.Frame, StringComparer.Ordinal),
        ]);

    // An end may name a frame that the record does not have, or one withdrawn: such a record has errors, and is published with them all the same.
    private bool Stands(string frame) => _record.ById.GetValueOrDefault(frame) is Frame { IsWithdrawn: false };

    private static IEnumerable<string> FramesOf(CableReading reading) => reading.Ends.Select(end => end.At.Frame).Distinct();

    // Feeders first, earths last; else what releases frames early.
    private IEnumerable<Cable> Untied(PullGroup knot)
    {
        var frames = knot.Cables.Select((cable, at) => (At: at, Frames: FramesOf(_readings.Find(cable.Id)!).ToList())).ToList();
        int[][] groups =
        [
            .. frames.SelectMany(cable => cable.Frames.Select(frame => (frame, cable.At))).GroupBy(at => at.frame, at => at.At, StringComparer.Ordinal)
                .Where(group => group.Count() == _waiting[group.Key]).OrderBy(group => group.Key, StringComparer.Ordinal).Select(group => group.ToArray()),
        ];
        var none = DirectedGraph.Create(knot.Cables.Length, []);
        var work = new WorkState([.. knot.Cables.Select(_pace.Milliseconds)], none, none);
        var order = ReleaseOrder.Compute(work, groups);
        order.AddRange(work.Do([.. Enumerable.Range(0, knot.Cables.Length)]));
        return order.Select(at => knot.Cables[at]).OrderBy(cable => PullGraph.Family(_record, cable) switch { CableFamily.Power => 0, CableFamily.Earth => 2, _ => 1 });
    }
}

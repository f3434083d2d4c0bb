using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Decabling;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;
using Archive.Wiring.Units;

namespace Archive.Wiring.Reconnecting;

/// <summary>
/// In which order cables are connected again: as <see cref="OrderRules.Connecting"/> has it, earth first, then signal and control, feeders
/// last, outside lines last of all. Within each of these the longest run first where there is another hall, for what lay over what as found
/// would rebuild the tangle; else the lowest as found first, so that a cable comes after every cable of its role that it lies over.
/// </summary>
/// <remarks>
/// What is known of each end goes with it. Linear in cables, in what they lie over and in what photos show, but for sorting.
/// </remarks>
public sealed class ReconnectionOrder
{
    private readonly ArchiveModel _record;
    private readonly FrozenDictionary<string, ImmutableArray<RefittedCable>> _byFrame;
    private readonly UnitIndex _units;
    private readonly EarthTree _earths;
    private readonly FrozenDictionary<string, RefittedCable> _byId;
    private readonly FrameReadiness _frames;
    private readonly WorkProgress _progress;
    private readonly Func<string, LaidRun?>? _runs;
    private readonly ConcurrentDictionary<string, PuttingBackList> _lists = new(StringComparer.Ordinal);

    private ReconnectionOrder(
        ArchiveModel record, LabelReadings readings, WorkProgress progress, EndPhotoFinder photos, Func<string, LaidRun?>? runs)
    {
        _runs = runs;
        _units = new UnitIndex(record);
        (_record, _progress, _earths) = (record, progress, EarthTree.From(record, readings));
        Cables =
        [
            .. Lifts(record, runs is not null)
                .SelectMany(lift => lift.Cables.Select(cable => (Lift: lift, Cable: cable, Role: CableRoles.Of(record, cable))))
                .OrderBy(laid => OrderRules.Connecting.Rank(laid.Role))
                .ThenBy(laid => laid.Role)
                .ThenBy(laid => _earths.DepthOf(laid.Cable.Id))
                .ThenByDescending(laid => RunOf(laid.Cable))
                .Select((laid, turn) => new RefittedCable(
                    readings.Find(laid.Cable.Id)!, laid.Role, laid.Lift, turn + 1, EndsOf(readings.Find(laid.Cable.Id)!, photos))),
        ];
        _byId = Cables.ToFrozenDictionary(laid => laid.Cable.Id, StringComparer.Ordinal);
        _byFrame = Cables
            .SelectMany(laid => laid.Frames.Select(frame => (Frame: frame, Laid: laid)))
            .GroupBy(pair => pair.Frame, pair => pair.Laid, StringComparer.Ordinal)
            .ToFrozenDictionary(laid => laid.Key, laid => laid.ToImmutableArray(), StringComparer.Ordinal);
        _frames = new FrameReadiness(progress, _earths, _byFrame.Keys.ToFrozenDictionary(
            frame => frame, frame => FrameReadiness.Unearthed(frame, _earths.EarthsOf(frame), progress), StringComparer.Ordinal));
    }

    /// <summary>Every cable that stands, in the order to connect them; those of a tangle and a role side by side; ties by id.</summary>
    public ImmutableArray<RefittedCable> Cables { get; }

    /// <summary>Works the order out.</summary>
    /// <param name="readings">Its labels as read.</param>
    /// <param name="progress">What has been done; null to read it from the record.</param>
    /// <param name="photos">Which photos show which ends; null to read it from the record.</param>
    /// <param name="runs">How a cable will lie in another hall, by its id; null where the machine is put back where it was found.</param>
    public static ReconnectionOrder Compute(
        ArchiveModel record,
        LabelReadings readings,
        WorkProgress? progress = null,
        EndPhotoFinder? photos = null,
        Func<string, LaidRun?>? runs = null) =>
        new(record, readings, progress ?? WorkProgress.From(record), photos ?? new EndPhotoFinder(record), runs);

    /// <summary>A cable by its id; null for one that does not stand.</summary>
    public RefittedCable? Find(string cable) => _byId.GetValueOrDefault(cable);

    /// <summary>The cables that are known to end at a frame, in order.</summary>
    /// <returns>Empty where none is.</returns>
    public ImmutableArray<RefittedCable> At(string frame) => _byFrame.GetValueOrDefault(frame, []);

    /// <summary>Some cables, in order.</summary>
    /// <param name="cables">Their ids.</param>
    public IEnumerable<RefittedCable> Among(IReadOnlySet<string> cables) => Cables.Where(laid => cables.Contains(laid.Cable.Id));

    /// <summary>A list of cables as steps, each with what must be done before it and is no step before it in this list.</summary>
    /// <param name="cables">The cables, in order.</param>
    /// <remarks>Linear in the list, its ends, and what its cables lie over.</remarks>
    public ImmutableArray<ConnectionStep> List(ImmutableArray<RefittedCable> cables)
    {
        var done = new HashSet<string>(StringComparer.Ordinal);
        var earthed = new HashSet<string>(StringComparer.Ordinal);
        var earths = cables.Where(laid => laid.Role == CableRole.Earth).Select(laid => laid.Cable.Id).ToHashSet(StringComparer.Ordinal);
        var listed = earths.SelectMany(earth => _earths.FramesOf(earth))
            .CountBy(frame => frame, StringComparer.Ordinal)
            .ToDictionary(StringComparer.Ordinal);
        var states = new ConnectionStates(_record, _progress, _frames, cables);
        var steps = ImmutableArray.CreateBuilder<ConnectionStep>(cables.Length);
        foreach (var laid in cables)
        {
            steps.Add(new ConnectionStep(steps.Count + 1, laid)
            {
                State = states.Of(laid),
                EarthsBefore = [.. laid.Frames
                    .Where(frame => _earths.RoleAt(frame, laid.Cable.Id, laid.Role) != CableRole.Earth && earthed.Add(frame))
                    .Select(Missing)
                    .OfType<EarthBefore>()],
                LayBefore = _runs is not null
                    ? []
                    : [.. laid.Cable.LiesOver.Select(under => _record.Find<Cable>(under.Value)).OfType<Cable>()
                        .Where(under => !done.Contains(under.Id)
                            && _byId.TryGetValue(under.Id, out var below)
                            && !ReferenceEquals(below.Lift, laid.Lift)).Select(under => under.Id).Distinct()],
            });
            done.Add(laid.Cable.Id);
        }

        return steps.MoveToImmutable();

        // The rule speaks of a frame's earths, and those of the other end may be on another list.
        EarthBefore? Missing(string frame)
        {
            var all = _earths.EarthsOf(frame);
            var missing = all.Length - listed.GetValueOrDefault(frame);
            return all.IsEmpty || missing > 0
                ? new EarthBefore(frame, [.. all.Where(earth => !earths.Contains(earth)).Take(EarthBefore.MostNamed)], missing)
                : null;
        }
    }

    /// <summary>What is done to put one frame back, step by step; computed once.</summary>
    public PuttingBackList ListOf(Frame frame) => _lists.GetOrAdd(frame.Id, _ => PutBack([frame], At(frame.Id), frame.Id));

    /// <summary>What is done to put frames back together, step by step.</summary>
    /// <param name="frames">The frames, in walking order.</param>
    /// <param name="cables">Their cables, in order.</param>
    /// <param name="here">Id of the frame at which ends are connected; null for all.</param>
    public PuttingBackList PutBack(ImmutableArray<Frame> frames, ImmutableArray<RefittedCable> cables, string? here)
    {
        var states = new PuttingBackStates(_record, _units, _progress, _frames, cables, here);
        return new PuttingBackWriter(_record, _units, _earths, frames, here, _runs ?? (_ => null)).Write(cables, states.Of);
    }

    // In another hall each cable is by itself, whatever it was tangled with.
    private static IEnumerable<PullGroup> Lifts(ArchiveModel record, bool isElsewhere) =>
        isElsewhere ? record.Cables
            .Where(cable => !cable.IsWithdrawn)
            .OrderBy(cable => cable.Id, StringComparer.Ordinal)
            .Select(cable => new PullGroup([cable])) : LiesOverGraph.From(record).LowestFirst;

    // Where a run is not known, the cable's own length stands for it. Where it was found, what lies over what decides.
    private double RunOf(Cable cable) => _runs is null ? 0 : (_runs(cable.Id)?.Length ?? cable.Length?.Value)?.Meters ?? 0;

    // The end that a coil stays connected to is there already: one begins at it.
    private ImmutableArray<RefittedEnd> EndsOf(CableReading reading, EndPhotoFinder photos)
    {
        var fast = PullPath.CoilEnd(_record, reading);
        var frame = fast is { } stays ? reading.Ends[stays].At.Frame : null;
        return
        [
            .. reading.Ends.Select((end, index) => new RefittedEnd(
                    end,
                    photos.Find(reading.Cable, end.At).FirstOrDefault(),
                    StaysFast: index == fast,
                    _units.WithFront(end.At)))
                .OrderByDescending(end => end.StaysFast)
                .ThenByDescending(end => end.End.At.Frame == frame),
        ];
    }
}

/// <summary>An end of a cable connected again.</summary>
/// <param name="Photo">The photo that shows it best; null where none does.</param>
/// <param name="StaysFast">Whether the cable was coiled and lashed to this frame, and never taken off here.</param>
/// <param name="Unit">The unit on whose front it is, and after which it is connected; null for an end on the frame itself.</param>
public sealed record RefittedEnd(KnownEnd End, Photo? Photo, bool StaysFast, Unit? Unit);

/// <summary>A step of a re-connection list.</summary>
/// <param name="Number">Its number in this list, from 1.</param>
public sealed record ConnectionStep(int Number, RefittedCable Laid)
{
    /// <summary>How far it has come.</summary>
    public required StepState State { get; init; }

    /// <summary>
    /// Frames that this step is the first of the list to connect anything but earth to, and whose earths are not all on the list.
    /// </summary>
    public required ImmutableArray<EarthBefore> EarthsBefore { get; init; }

    /// <summary>Ids of cables that it lay over as found and that are no step before it in this list, those of its tangle apart.</summary>
    public required ImmutableArray<string> LayBefore { get; init; }
}

/// <summary>A frame that must be earthed before a step, by cables that are not on the list.</summary>
/// <param name="Cables">Ids of the first of these cables; empty where the record knows no earth of the frame.</param>
public sealed record EarthBefore(string Frame, ImmutableArray<string> Cables, int Count)
{
    /// <summary>Most cables that are named: a frame that all others take their earth from has many.</summary>
    public const int MostNamed = 3;
}

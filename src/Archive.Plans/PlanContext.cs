using System.Collections.Frozen;
using Archive.Halls.Layout;
using Archive.Halls.Reach;
using Archive.Halls.Trays;
using Archive.Records.Model;
using Archive.Wiring.Boxes;
using Archive.Wiring.Decabling;
using Archive.Wiring.Graph;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Reconnecting;
using Archive.Wiring.Sets;
using Archive.Wiring.Units;

namespace Archive.Plans;

/// <summary>
/// What checks and plans are calculated from: the record, and what several of them need to know of it. Found once, shared by all.
/// </summary>
/// <param name="HallLayouts">Its halls, set out.</param>
public sealed record PlanContext(ArchiveModel Record, HallLayouts HallLayouts)
{
    private readonly Lazy<JudgedPrint> _print = new(() => JudgedPrint.From(Record));
    private readonly Lazy<FrozenDictionary<string, TrayContents>> _trays = new(() => TrayContents.Compute(Record));
    private readonly Lazy<WorkProgress> _progress = new(() => WorkProgress.From(Record));
    private readonly Lazy<UnitIndex> _units = new(() => new UnitIndex(Record));
    private readonly Lazy<EndPhotoFinder> _endPhotos = new(() => new EndPhotoFinder(Record));
    private LabelReadings? _readings;
    private object? _reading;
    private DecablingOrder? _takingOut;
    private object? _takingOutGate;
    private ReconnectionOrder? _connecting;
    private object? _connectingGate;
    private WiringGraph? _graph;
    private object? _graphGate;
    private CableRuns? _runs;
    private object? _running;
    private BoxIndex? _boxes;
    private PhotoCoverage? _coverage;
    private WorkingSets? _sets;
    private object? _choosing;

    /// <summary>What is known of the cables' ends, from observation and print.</summary>
    public LabelReadings Readings => LazyInitializer.EnsureInitialized(ref _readings, ref _reading, () => LabelReadings.From(Print));

    /// <summary>What the print of each cable says, before cables are compared with each other.</summary>
    public JudgedPrint Print => _print.Value;

    /// <summary>How far cables run as found.</summary>
    public AsFoundPaths AsFoundPaths { get; } = new(Record, HallLayouts.AsFound);

    /// <summary>What has been done, by the events of the record.</summary>
    public WorkProgress Progress => _progress.Value;

    /// <summary>Plug-in units, by the frames that they were found in.</summary>
    public UnitIndex Units => _units.Value;

    /// <summary>What is in each box, and what it weighs.</summary>
    public BoxIndex Boxes => LazyInitializer.EnsureInitialized(ref _boxes, () => new BoxIndex(Record, Progress.Journeys));

    /// <summary>Which photos show which ends.</summary>
    public EndPhotoFinder EndPhotos => _endPhotos.Value;

    /// <summary>Which frames and ends photos show.</summary>
    public PhotoCoverage Coverage => LazyInitializer.EnsureInitialized(ref _coverage, () => PhotoCoverage.Compute(Record, EndPhotos));

    /// <summary>What the cables make of the frames.</summary>
    public WiringGraph Graph => LazyInitializer.EnsureInitialized(
        ref _graph, ref _graphGate, () => WiringGraph.From(Record, Readings));

    /// <summary>The smallest set of frames that each display runs with.</summary>
    public WorkingSets Sets => LazyInitializer.EnsureInitialized(ref _sets, ref _choosing, () => WorkingSets.Compute(Record, Readings));

    /// <summary>The order of taking the cables out, with the frames of all displays last.</summary>
    public DecablingOrder TakingOut => LazyInitializer.EnsureInitialized(
        ref _takingOut, ref _takingOutGate, () => DecablingOrder.Compute(Record, Readings, Sets.Wanted, Progress));

    /// <summary>The order of connecting them again.</summary>
    public ReconnectionOrder Connecting => LazyInitializer.EnsureInitialized(
        ref _connecting, ref _connectingGate, () => ReconnectionOrder.Compute(Record, Readings, Progress, EndPhotos, Runs.InOtherHalls));

    /// <summary>Frames with cables to connect, in walking order; then those that stand nowhere, by id.</summary>
    public IEnumerable<Frame> FramesToConnect => Walking.Where(frame => !Connecting.At(frame.Id).IsEmpty);

    /// <summary>All frames, in the walking order of the hall where they were found; then those that stand nowhere.</summary>
    public IEnumerable<Frame> Walking => (HallLayouts.AsFound?.PlacedFrames ?? [])
        .Select(placed => placed.Frame)
        .Concat(Record.Frames.Where(frame => !frame.IsWithdrawn))
        .DistinctBy(frame => frame.Id);

    /// <summary>What lies in each tray, by the tray's id.</summary>
    public FrozenDictionary<string, TrayContents> Trays => _trays.Value;

    /// <summary>How cables run, as found and in every other hall.</summary>
    public CableRuns Runs => LazyInitializer.EnsureInitialized(ref _runs, ref _running, () => CableRuns.Compute(this));

    /// <summary>Begins, beside other work, what was needed of an earlier state of the record: likely the same page is asked for.</summary>
    public void BeginAs(PlanContext before)
    {
        if (before._readings is null) return;
        _ = Task.Run(() =>
        {
            // All else rests on them: a thread that waited for them could do no other work.
            _ = Readings;
            Begin(before._graph is not null, () => Graph);
            Begin(before._connecting is not null, () => Connecting);
            Begin(before._takingOut is not null, () => TakingOut);
        });

        static void Begin(bool wasNeeded, Func<object> part)
        {
            if (wasNeeded) _ = Task.Run(part);
        }
    }
}

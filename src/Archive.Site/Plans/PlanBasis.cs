using System.Collections.Frozen;
using Archive.Hall;
using Archive.Records;
using Archive.Wiring;

namespace Archive.Site;

/// <summary>What plans are calculated from: the record, and what every plan needs to know of it. Found once, shared by all.</summary>
/// <param name="Record">The record.</param>
/// <param name="Standings">Its halls, set out.</param>
public sealed record PlanBasis(AsFound Record, Standings Standings)
{
    private readonly Lazy<LabelReadings> _readings = new(() => LabelReadings.Of(Record));
    private readonly Lazy<FrozenDictionary<string, TrayContents>> _trays = new(() => TrayContents.Of(Record));
    private WiringGraph? _graph;
    private CableRuns? _runs;
    private object? _running;
    private WorkingSets? _sets;
    private object? _choosing;

    /// <summary>What is known of the cables' ends, from observation and print.</summary>
    public LabelReadings Readings => _readings.Value;

    /// <summary>What the cables make of the frames.</summary>
    public WiringGraph Graph => LazyInitializer.EnsureInitialized(ref _graph, () => WiringGraph.Of(Record, Readings));

    /// <summary>The smallest set of frames that each display runs with.</summary>
    public WorkingSets Sets => LazyInitializer.EnsureInitialized(ref _sets, ref _choosing, () => WorkingSets.Of(Record, Readings));

    /// <summary>What lies in each tray, by the tray's id.</summary>
    public FrozenDictionary<string, TrayContents> Trays => _trays.Value;

    /// <summary>How cables run, as found and in every other hall.</summary>
    public CableRuns Runs => LazyInitializer.EnsureInitialized(ref _runs, ref _running, () => CableRuns.Of(this));
}

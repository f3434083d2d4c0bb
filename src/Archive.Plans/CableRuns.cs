using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Halls.Reach;
using Archive.Halls.Trays.Network;
using Archive.Records.Work;
using Archive.Wiring.Reconnecting;

namespace Archive.Plans;

/// <summary>How cables run: as found, and in every other hall.</summary>
public sealed class CableRuns
{
    private readonly FrozenDictionary<string, TrayNetwork> _networks;
    private readonly ConcurrentDictionary<string, LaidRun?> _laid = new(StringComparer.Ordinal);

    private CableRuns(PlanContext context)
    {
        var found = context.HallLayouts.AsFound;
        _networks = context.HallLayouts.Layouts.ToFrozenDictionary(
            layout => layout.Hall.Id,
            layout => layout == found ? context.AsFoundPaths.Network! : TrayNetwork.Create(layout.Trays),
            StringComparer.Ordinal);
        Cables = [.. context.Readings.Cables.Select(reading => new WiredCable(reading.Cable, [.. reading.Ends.Select(end => end.At)]))];
        Paths = [.. Cables.Select(context.AsFoundPaths.Of)];
        ByCable = Paths.ToFrozenDictionary(path => path.Cable.Id, StringComparer.Ordinal);
        Reaches =
        [
            .. SideBySide.Select(
                [.. context.HallLayouts.Layouts.Where(layout => layout != found && layout.PlacedFrames.Length > 0)],
                layout => ReachEvaluator.Evaluate(context.Record, layout, NetworkOf(layout), Cables, Paths)),
        ];
    }

    /// <summary>The cables with what is known of their ends, seen or read from print.</summary>
    public ImmutableArray<WiredCable> Cables { get; }

    /// <summary>Their ways as found.</summary>
    public ImmutableArray<AsFoundPath> Paths { get; }

    /// <summary>The same by the cable's id.</summary>
    public FrozenDictionary<string, AsFoundPath> ByCable { get; }

    /// <summary>Which of them reach in each hall that is not the as-found one and has frames set out, by the hall's id.</summary>
    public ImmutableArray<HallReach> Reaches { get; }

    /// <summary>Works them out. Linear in cables, frames and halls.</summary>
    /// <param name="context">The record and its halls.</param>
    public static CableRuns Compute(PlanContext context) => new(context);

    /// <summary>
    /// How a cable will lie in the first other hall where its frames are planned, by its id; null as a whole where no other hall has
    /// frames.
    /// </summary>
    public Func<string, LaidRun?>? InOtherHalls => Reaches.IsEmpty ? null : cable => _laid.GetOrAdd(cable, Laid);

    private LaidRun? Laid(string cable)
    {
        foreach (var hall in Reaches)
        {
            if (!hall.ByCable.TryGetValue(cable, out var reach) || !reach.IsHere) continue;
            return new LaidRun(
                reach.Path,
                reach is { Verdict: ReachVerdict.TooShort, Margin: { } margin } ? -margin : null,
                [.. hall.TraysOf(reach).Select(tray => tray.Id)]);
        }

        return null;
    }

    /// <summary>The trays of a hall as a network.</summary>
    /// <param name="layout">A hall of the record.</param>
    public TrayNetwork NetworkOf(HallLayout layout) => _networks[layout.Hall.Id];
}

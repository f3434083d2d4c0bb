using System.Collections.Concurrent;
using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using UnitsNet;

namespace Archive.Halls.Reach;

/// <summary>How far a cable runs as found: from port to port through the trays that it lies in.</summary>
/// <param name="Length">
/// The route from port to port; null where it is not known. The cable is at least as long, so this is a lower bound where its own length is
/// not recorded.
/// </param>
/// <param name="Lacks">What is missing, in a few words, lower case; empty where the length is known.</param>
public sealed record AsFoundPath(Cable Cable, Length? Length, string Lacks)
{
    /// <summary>What the cable has over as found: its length less the route. Below zero, one of the two is wrong.</summary>
    public Length? Slack => Cable.Length is { } length && Length is { } path ? length.Value - path : null;
}

/// <summary>Works out the ways of cables as found.</summary>
/// <remarks>
/// The text that this follows: run from the port's height up to the frame's top, up to the tray, and across to the tray's line; through
/// <c>lies_in</c> in that order; down likewise. The tray need not be within 900 mm of the frame: the cable was found in it.
/// A harness of more than two ends runs from its first end; each other end leaves the trays at the first of them from which the way to it
/// is shortest, and the longest of these ways is reported, which none of its tails can make too long.
/// <para>Each way is linear in the trays that the cable lies in. Safe to ask from several threads.</para>
/// </remarks>
/// <param name="layout">The as-found hall; null where there is none.</param>
public sealed class AsFoundPaths(ArchiveModel record, HallLayout? layout)
{
    private readonly PortFinder _ports = new(record);
    private readonly ConcurrentDictionary<Cable, AsFoundPath> _asSeen = new(ReferenceEqualityComparer.Instance);
    private readonly Lazy<TrayNetwork?> _network = new(() => layout is null ? null : TrayNetwork.Create(layout.Trays));

    /// <summary>The trays of the as-found hall as a network; null where there is none.</summary>
    public TrayNetwork? Network => _network.Value;

    /// <summary>The way of a cable. Between ends that were seen it is computed once: checks ask, and then plans.</summary>
    /// <param name="wired">A cable with what is known of its ends.</param>
    public AsFoundPath Of(WiredCable wired) => wired.IsAsSeen
        ? _asSeen.GetOrAdd(wired.Cable, static (_, asked) => asked.paths.Compute(asked.wired), (paths: this, wired))
        : Compute(wired);

    private AsFoundPath Compute(WiredCable wired)
    {
        if (layout is null || Network is not { } network) return Lacking("the hall where it was found");
        if (wired.Ends.Length < 2) return Lacking(wired.Ends.Length == 0 ? "both ends" : "its far end");
        var ports = wired.Ends.Select(_ports.Find).ToList();
        if (ports.Any(port => port is null)) return Lacking("a frame where it ends");
        if (wired.Cable.LiesIn.Length == 0)
        {
            // Between two ports of one frame, in no tray: it never leaves the frame.
            return WithinFrame(ports) is { } within ? new AsFoundPath(wired.Cable, within, "") : Lacking("the trays it lies in");
        }

        var trays = wired.Cable.LiesIn.Select(id => record.Find<Tray>(id.Value)).OfType<Tray>().ToImmutableArray();
        if (trays.Length < wired.Cable.LiesIn.Length || !trays.All(network.Has)) return Lacking("the height of a tray it lies in");
        foreach (var port in ports)
        {
            if (FrameTopFinder.MissingFor(layout, port!.Value.Frame) is { } lack) return Lacking(lack);
        }

        var ways = ports.Skip(1).Select(port => Way(network, layout, trays, ports[0]!.Value, port!.Value, ports.Count > 2)).ToList();
        return ways.Any(way => way is null) ? Lacking("trays that connect") : new AsFoundPath(wired.Cable, ways.Max(way => way!.Value), "");

        AsFoundPath Lacking(string what) => new(wired.Cable, null, what);
    }

    private static Length? Way(
        TrayNetwork network, HallLayout layout, ImmutableArray<Tray> trays, CablePort first, CablePort second, bool mayLeaveEarly)
    {
        var (from, to) = (FrameTopFinder.TopOf(layout, first.Frame), FrameTopFinder.TopOf(layout, second.Frame));
        var ways = Enumerable.Range(mayLeaveEarly ? 1 : trays.Length, mayLeaveEarly ? trays.Length : 1)
            .Select(count => network.Through(trays[..count], from, to)?.Length);
        return ways.Min() is { } shortest ? first.RunToTop + UnitsNet.Length.FromMillimeters(shortest) + second.RunToTop : null;
    }

    private static Length? WithinFrame(List<CablePort?> ports)
    {
        if (ports.Any(port => !ReferenceEquals(port!.Value.Frame, ports[0]!.Value.Frame) || port.Value.Height is null)) return null;
        return ports.Max(port => UnitMath.Abs(port!.Value.Height!.Value - ports[0]!.Value.Height!.Value));
    }
}

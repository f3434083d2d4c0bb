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
/// </remarks>
public sealed class AsFoundPaths
{
    private readonly ArchiveModel _record;
    private readonly HallLayout? _layout;
    private readonly TrayNetwork? _network;
    private readonly PortFinder _ports;

    private AsFoundPaths(ArchiveModel record, HallLayout? layout, TrayNetwork? network)
    {
        _record = record;
        _layout = layout;
        _network = network;
        _ports = new PortFinder(record);
    }

    /// <summary>The way of each cable, in the order given. Linear in cables and the trays they lie in.</summary>
    /// <param name="layout">The as-found hall; null where there is none.</param>
    /// <param name="cables">The cables with what is known of their ends.</param>
    public static ImmutableArray<AsFoundPath> Compute(
        ArchiveModel record, HallLayout? layout, TrayNetwork? network, IEnumerable<WiredCable> cables)
    {
        var paths = new AsFoundPaths(record, layout, network);
        return [.. cables.Select(paths.Compute)];
    }

    private AsFoundPath Compute(WiredCable wired)
    {
        if (_layout is null || _network is null) return Lacking("the hall where it was found");
        if (wired.Ends.Length < 2) return Lacking(wired.Ends.Length == 0 ? "both ends" : "its far end");
        var ports = wired.Ends.Select(_ports.Find).ToList();
        if (ports.Any(port => port is null)) return Lacking("a frame where it ends");
        if (wired.Cable.LiesIn.Length == 0)
        {
            // Between two ports of one frame, in no tray: it never leaves the frame.
            return WithinFrame(ports) is { } within ? new AsFoundPath(wired.Cable, within, "") : Lacking("the trays it lies in");
        }

        var trays = wired.Cable.LiesIn.Select(id => _record.Find<Tray>(id.Value)).OfType<Tray>().ToImmutableArray();
        if (trays.Length < wired.Cable.LiesIn.Length || !trays.All(_network.Has)) return Lacking("the height of a tray it lies in");
        foreach (var port in ports)
        {
            if (FrameTopFinder.MissingFor(_layout, port!.Value.Frame) is { } lack) return Lacking(lack);
        }

        var ways = ports.Skip(1).Select(port => Way(trays, ports[0]!.Value, port!.Value, ports.Count > 2)).ToList();
        return ways.Any(way => way is null) ? Lacking("trays that connect") : new AsFoundPath(wired.Cable, ways.Max(way => way!.Value), "");

        AsFoundPath Lacking(string what) => new(wired.Cable, null, what);
    }

    private Length? Way(ImmutableArray<Tray> trays, CablePort first, CablePort second, bool mayLeaveEarly)
    {
        var (from, to) = (FrameTopFinder.TopOf(_layout!, first.Frame), FrameTopFinder.TopOf(_layout!, second.Frame));
        var ways = Enumerable.Range(mayLeaveEarly ? 1 : trays.Length, mayLeaveEarly ? trays.Length : 1)
            .Select(count => _network!.Through(trays[..count], from, to)?.Length);
        return ways.Min() is { } shortest ? first.RunToTop + UnitsNet.Length.FromMillimeters(shortest) + second.RunToTop : null;
    }

    private static Length? WithinFrame(List<CablePort?> ports)
    {
        if (ports.Any(port => !ReferenceEquals(port!.Value.Frame, ports[0]!.Value.Frame) || port.Value.Height is null)) return null;
        return ports.Max(port => UnitMath.Abs(port!.Value.Height!.Value - ports[0]!.Value.Height!.Value));
    }
}

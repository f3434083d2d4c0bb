using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Halls.Checks;
using Archive.Halls.Layout;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using UnitsNet;

namespace Archive.Halls.Reach;

/// <summary>Judges which cables reach in a hall.</summary>
/// <remarks>
/// The text that this follows: needed = path + 2 x allowance; margin = length - needed; <c>reaches</c>, <c>short</c>, <c>unknown</c> (no
/// length: then the as-found path is a lower bound of the length, and <c>reaches</c> if needed is within it), <c>no_way</c> (a frame not
/// served, or no path).
/// <para>
/// Decided where the text is silent: cables that are left behind or cut are not judged. A harness is judged by the longest way from its
/// first end to another. Where an end, or a frame's size, is not recorded, the verdict is <c>unknown</c>. A cable that lies in no tray and
/// has both ends on one frame stays within it, and reaches wherever the frame stands. A margin of nothing reaches.
/// </para>
/// </remarks>
public sealed class ReachEvaluator
{
    // Sums of a dozen numbers of a few metres are exact to a billionth of this; a cable of exactly the length needed reaches.
    private static readonly Length Rounding = Length.FromMillimeters(1e-6);

    private readonly HallLayout _layout;
    private readonly TrayNetwork _network;
    private readonly Length _allowance;
    private readonly PortFinder _ports;
    private readonly ReachEvaluator? _others;
    private readonly Dictionary<string, FrameDrops?> _drops = new(StringComparer.Ordinal);
    private readonly Dictionary<(string, string), double> _between = [];

    // The same hall with one frame elsewhere. The places of all others are known by then.
    private ReachEvaluator(ReachEvaluator judge, PlacedFrame moved, Footprint there)
    {
        (_layout, _network, _allowance, _ports, _others) = (judge._layout, judge._network, judge._allowance, judge._ports, judge);
        _drops[moved.Frame.Id] = _network.Drops(there.Centre, FrameTopFinder.TopOf(_layout, moved.Frame).Height);
    }

    private ReachEvaluator(ArchiveModel record, HallLayout layout, TrayNetwork network)
    {
        _layout = layout;
        _network = network;
        _allowance = record.Statement.Allowance?.Value ?? Length.Zero;
        _ports = new PortFinder(record);
    }

    /// <summary>Judges all cables in a hall. Linear in cables; the ways between two frames are searched once.</summary>
    /// <param name="layout">A hall, set out.</param>
    /// <param name="cables">The cables with what is known of their ends.</param>
    /// <param name="asFound">Their ways as found, in any order.</param>
    public static HallReach Evaluate(
        ArchiveModel record, HallLayout layout, TrayNetwork network, IEnumerable<WiredCable> cables, IEnumerable<AsFoundPath> asFound)
    {
        var judge = new ReachEvaluator(record, layout, network);
        var paths = asFound.ToFrozenDictionary(path => path.Cable.Id, StringComparer.Ordinal);
        var judged = cables.Where(wired => !wired.Cable.IsWithdrawn && wired.Cable.Fate?.Value is not (Fate.Leave or Fate.Sever))
            .OrderBy(NearestFirst, StringComparer.Ordinal)
            .ToList();
        var byFrame = new Lazy<ILookup<string, WiredCable>>(() => judged
            .SelectMany(wired => wired.Ends.Select(record.FrameAt).OfType<Frame>().Select(frame => frame.Id).Distinct()
                .Select(frame => (frame, wired)))
            .ToLookup(end => end.frame, end => end.wired, StringComparer.Ordinal));
        return new HallReach(
            layout,
            network,
            judge._allowance,
            [.. judged.Select(wired => judge.Evaluate(wired, paths.GetValueOrDefault(wired.Cable.Id)))],
            judge.DropsOf,
            (placed, there) =>
            {
                var moved = new ReachEvaluator(judge, placed, there);
                return [.. byFrame.Value[placed.Frame.Id].Select(wired => moved.Evaluate(wired, paths.GetValueOrDefault(wired.Cable.Id)))];
            });
    }

    // Cables of one frame after the other: ways are searched from the frame of the lesser id, and those from the same place need no second
    // search.
    private static string NearestFirst(WiredCable wired) =>
        wired.Ends.Select(end => end.Frame).Order(StringComparer.Ordinal).FirstOrDefault("");

    private CableReach Evaluate(WiredCable wired, AsFoundPath? asFound)
    {
        var ports = wired.Ends.Select(_ports.Find).OfType<CablePort>().ToImmutableArray();
        var away = ports.Select(port => port.Frame.Id).Distinct().Where(id => !_layout.ByFrame.ContainsKey(id)).Order(
            StringComparer.Ordinal).ToList();
        var verdict = new CableReach(
            wired.Cable,
            ReachVerdict.NoWay,
            away.Count == 1 ? $"{away[0]} is not in this hall" : $"{string.Join(" and ", away)} are not in this hall")
        {
            First = ports.Length > 0 ? ports[0].Frame : null,
            Second = ports.Length > 1 ? ports[1].Frame : null,
            IsHere = away.Count == 0 && ports.Length > 0,
            Has = wired.Cable.Length?.Value ?? asFound?.Length,
            IsBound = wired.Cable.Length is null,
        };
        if (away.Count > 0) return verdict;
        if (ports.Length < 2) return verdict with
        {
            Verdict = ReachVerdict.Unknown,
            Why = ports.Length == 0 ? "both ends are unknown" : "its far end is unknown"
        };
        if (wired.Cable.LiesIn.Length == 0 && ports.All(port => ReferenceEquals(port.Frame, ports[0].Frame)))
        {
            return verdict with { Verdict = ReachVerdict.Reaches, Why = "it stays within its frame" };
        }

        return Farthest(ports) switch
        {
            { Lack: { } lack } way => verdict with { Verdict = ReachVerdict.Unknown, Why = $"{lack} is not recorded", Second = way.To },
            { Path: var path, To: var to } when double.IsPositiveInfinity(path) =>
                verdict with { Why = WhyNoWay(ports[0].Frame, to), Second = to },
            var way => Measured(verdict with
            {
                Path = Length.FromMillimeters(way.Path),
                Needed = Length.FromMillimeters(way.Path) + (2 * _allowance),
                Second = way.To
            }),
        };
    }

    private static CableReach Measured(CableReach cable) => (cable.Margin, cable.AtLeast) switch
    {
        ({ } margin, _) when margin >= -Rounding => cable with { Verdict = ReachVerdict.Reaches, Why = "its length is enough" },
        ({ }, _) => cable with { Verdict = ReachVerdict.TooShort, Why = "its length is not enough" },
        (_, { } atLeast) when atLeast >= -Rounding => cable with
        {
            Verdict = ReachVerdict.Reaches,
            Why = "its length is not recorded, but its route as found is longer than the route needed here"
        },
        _ => cable with { Verdict = ReachVerdict.Unknown, Why = "its length is not recorded" },
    };

    // The end whose way from the first is longest; one without a way before all, then one whose frame has no size.
    private (double Path, string? Lack, Frame To) Farthest(ImmutableArray<CablePort> ports)
    {
        (double Path, string? Lack, Frame To) worst = (double.NegativeInfinity, null, ports[1].Frame);
        foreach (var port in ports.Skip(1))
        {
            var lack = FrameTopFinder.MissingFor(_layout, ports[0].Frame) ?? FrameTopFinder.MissingFor(_layout, port.Frame);
            var path = lack is null
                ? (ports[0].RunToTop + port.RunToTop)!.Value.Millimeters + Between(ports[0].Frame, port.Frame)
                : double.NaN;
            if (double.IsPositiveInfinity(path)) return (path, null, port.Frame);
            if (worst.Lack is null && (lack is not null || path > worst.Path)) worst = (path, lack, port.Frame);
        }

        return worst;
    }

    private double Between(Frame one, Frame other)
    {
        var key = string.CompareOrdinal(one.Id, other.Id) <= 0 ? (one.Id, other.Id) : (other.Id, one.Id);
        if (_between.TryGetValue(key, out var known)) return known;
        return _between[key] = _network.Between(DropsOf(_layout.ByFrame[key.Item1])!, DropsOf(_layout.ByFrame[key.Item2])!);
    }

    private FrameDrops? DropsOf(PlacedFrame placed)
    {
        if (_drops.TryGetValue(placed.Frame.Id, out var known)) return known;
        if (_others is not null) return _others.DropsOf(placed);
        var top = placed.IsCertain ? FrameTopFinder.TopOf(_layout, placed.Frame) : (FrameTop?)null;
        return _drops[placed.Frame.Id] = top is { } at ? _network.Drops(at.Middle, at.Height) : null;
    }

    private string WhyNoWay(Frame one, Frame other)
    {
        var unserved = new[]
        {
            one,
            other
        }.Where(frame => DropsOf(_layout.ByFrame[frame.Id]) is { IsServed: false }).Select(frame => frame.Id).Distinct().ToList();
        return unserved.Count == 0
            ? "no trays lead from one frame to the other"
            : $"no tray comes within {Millimetres.Say(ServingTray.Reach)} of {string.Join(" or ", unserved)}";
    }
}

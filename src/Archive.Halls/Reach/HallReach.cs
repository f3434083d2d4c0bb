using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Halls.Trays;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using UnitsNet;

namespace Archive.Halls.Reach;

/// <summary>What a frame's cables say of its place in a hall.</summary>
/// <param name="Placed">The frame in its place.</param>
/// <param name="Drops">The trays that serve it; null where its size or place is not known.</param>
/// <param name="Cables">Its cables, worst first.</param>
public sealed record FrameReach(PlacedFrame Placed, FrameDrops? Drops, ImmutableArray<CableReach> Cables)
{
    /// <summary>How many of its cables have a verdict.</summary>
    public int Count(ReachVerdict verdict) => Cables.Count(cable => cable.IsHere && cable.Verdict == verdict);
}

/// <summary>Which cables reach in a hall that is not the one where they were found.</summary>
public sealed class HallReach
{
    private readonly FrozenDictionary<string, FrameReach> _byFrame;

    internal HallReach(
        HallLayout layout, TrayNetwork network, Length allowance, ImmutableArray<CableReach> cables, Func<PlacedFrame, FrameDrops?> drops)
    {
        Layout = layout;
        Network = network;
        Allowance = allowance;
        Cables = [.. cables.Order(WorstFirst)];
        ByCable = Cables.ToFrozenDictionary(cable => cable.Cable.Id, StringComparer.Ordinal);
        var ofFrame = Cables
            .SelectMany(cable =>
                new[] { cable.First, cable.Second }.OfType<Frame>().Select(frame => frame.Id).Distinct().Select(frame => (frame, cable)))
            .ToLookup(end => end.frame, end => end.cable, StringComparer.Ordinal);
        Frames =
            [.. layout.Whereabouts.Select(placement =>
                new FrameReach(placement.Placed, drops(placement.Placed), [.. ofFrame[placement.Placed.Frame.Id]]))];
        _byFrame = Frames.ToFrozenDictionary(frame => frame.Placed.Frame.Id, StringComparer.Ordinal);
    }

    /// <summary>The hall, set out.</summary>
    public HallLayout Layout { get; }

    public TrayNetwork Network { get; }

    /// <summary>Cable dressing needed at each end; none where the archive does not say.</summary>
    public Length Allowance { get; }

    /// <summary>
    /// Every cable that may be put back, worst first: no way, short (by most), unknown (needing most), reaches (by least); behind them
    /// those with a frame that does not stand in the hall.
    /// </summary>
    public ImmutableArray<CableReach> Cables { get; }

    /// <summary>The same by the cable's id.</summary>
    public FrozenDictionary<string, CableReach> ByCable { get; }

    /// <summary>The frames that stand in the hall, in its order.</summary>
    public ImmutableArray<FrameReach> Frames { get; }

    /// <summary>How many cables whose frames stand here have a verdict.</summary>
    public int Count(ReachVerdict verdict) => Cables.Count(cable => cable.IsHere && cable.Verdict == verdict);

    /// <summary>By how much all short cables are short.</summary>
    public Length Shortage => Length.FromMillimeters(Cables.Where(cable => cable.Verdict == ReachVerdict.TooShort)
        .Sum(cable => -cable.Margin!.Value.Millimeters));

    /// <summary>The shortest way of a cable on the plan; null where it has none, or it is not known.</summary>
    /// <param name="cable">A cable of this hall.</param>
    public CableRoute? RouteOf(CableReach cable) =>
        cable is { Path: not null, First: { } one, Second: { } other }
        && _byFrame.GetValueOrDefault(one.Id)?.Drops is { } from && _byFrame.GetValueOrDefault(other.Id)?.Drops is { } to
        && Network.Way(from, to) is { } way
            ? CableRoute.Between(Layout, way, one, other)
            : null;

    /// <summary>The trays that a cable runs through in this hall, in order from its first end; empty where no way is known.</summary>
    public ImmutableArray<Tray> TraysOf(CableReach cable) =>
        cable is { Path: not null, First: { } one, Second: { } other }
        && _byFrame.GetValueOrDefault(one.Id)?.Drops is { } from && _byFrame.GetValueOrDefault(other.Id)?.Drops is { } to
        && Network.Way(from, to) is { } way
            ? [.. way.Legs.Select(leg => leg.Tray).Where((tray, at) => at == 0 || !ReferenceEquals(tray, way.Legs[at - 1].Tray))]
            : [];

    private static Comparer<CableReach> WorstFirst { get; } = Comparer<CableReach>.Create(static (a, b) =>
    {
        var order = b.IsHere.CompareTo(a.IsHere);
        if (order == 0) order = a.Verdict.CompareTo(b.Verdict);
        if (order == 0 && a.Verdict is ReachVerdict.TooShort or ReachVerdict.Reaches) order = Left(a).CompareTo(Left(b));
        if (order == 0 && a.Verdict == ReachVerdict.Unknown) order = (b.Needed?.Millimeters ?? 0).CompareTo(a.Needed?.Millimeters ?? 0);
        return order != 0 ? order : string.CompareOrdinal(a.Cable.Id, b.Cable.Id);
    });

    private static double Left(CableReach cable) => (cable.Margin ?? cable.AtLeast)?.Millimeters ?? double.PositiveInfinity;
}

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
    /// <summary>How many of its cables do not reach: too short, or without a route.</summary>
    public int DoNotReach => FrameShift.CountOf(Cables);

    /// <summary>By how much all its short cables are short.</summary>
    public Length Shortage => FrameShift.ShortageOf(Cables);

    /// <summary>How many of its cables have a verdict.</summary>
    public int Count(ReachVerdict verdict) => Cables.Count(cable => cable.IsHere && cable.Verdict == verdict);
}

/// <summary>Which cables reach in a hall that is not the one where they were found.</summary>
public sealed class HallReach
{
    private static readonly ImmutableArray<Compass> _sides = [Compass.North, Compass.East, Compass.South, Compass.West];

    private readonly FrozenDictionary<string, FrameReach> _byFrame;
    private readonly Func<PlacedFrame, Footprint, ImmutableArray<CableReach>> _judgeAt;
    private readonly Lazy<FrozenDictionary<string, ImmutableArray<FrameShift>>> _shifts;
    private readonly Lazy<ImmutableArray<ShortStretch>> _stretches;

    /// <param name="drops">The trays that serve a frame.</param>
    /// <param name="judgeAt">Judges the cables of a frame as if it stood elsewhere.</param>
    internal HallReach(
        HallLayout layout,
        TrayNetwork network,
        Length allowance,
        ImmutableArray<CableReach> cables,
        Func<PlacedFrame, FrameDrops?> drops,
        Func<PlacedFrame, Footprint, ImmutableArray<CableReach>> judgeAt)
    {
        _judgeAt = judgeAt;
        _shifts = new(ComputeShifts);
        _stretches = new(() => ShortStretch.Compute(
            from cable in Cables
            where cable.Verdict == ReachVerdict.TooShort
            from leg in WayOf(cable)?.Legs ?? []
            select (leg, -cable.Margin!.Value.Millimeters)));
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
    public Length Shortage => FrameShift.ShortageOf(Cables);

    /// <summary>The stretches of trays that short cables would run through.</summary>
    public ImmutableArray<ShortStretch> ShortStretches => _stretches.Value;

    /// <summary>
    /// What moving a frame by <see cref="FrameShift.Step"/> to each side would change, while all others stay; none for a frame whose cables
    /// reach, or whose size or place is not recorded.
    /// </summary>
    /// <param name="frame">Id of a frame.</param>
    public ImmutableArray<FrameShift> ShiftsOf(string frame) => _shifts.Value.GetValueOrDefault(frame, []);

    /// <summary>
    /// The move of a frame that helps most: fewer cables that do not reach, or as many that are short by less in total; a free place comes
    /// before one that is taken. Null where no move helps.
    /// </summary>
    public FrameShift? BestShiftOf(FrameReach frame) => ShiftsOf(frame.Placed.Frame.Id)
        .Where(shift => shift.DoNotReach < frame.DoNotReach
            || (shift.DoNotReach == frame.DoNotReach && frame.Shortage - shift.Shortage >= LeastGain))
        .OrderBy(shift => shift.DoNotReach)
        .ThenBy(shift => shift.IsFree ? 0 : 1)
        .ThenBy(shift => shift.Shortage)
        .FirstOrDefault();

    // Less than this is not worth moving a frame for: it is within what a tape is off by (common practice, no source).
    private static Length LeastGain { get; } = Length.FromMillimeters(50);

    private FrozenDictionary<string, ImmutableArray<FrameShift>> ComputeShifts()
    {
        var room = new ShiftRoom(Layout);
        return Frames.Where(frame => frame.Placed.IsCertain && frame.DoNotReach > 0).ToFrozenDictionary(
            frame => frame.Placed.Frame.Id,
            frame => _sides.Select(side =>
            {
                var there = ShiftRoom.Moved(frame.Placed, side, FrameShift.Step.Millimeters);
                return room.Judge(FrameShift.From(side, _judgeAt(frame.Placed, there)), frame.Placed, there);
            }).ToImmutableArray(),
            StringComparer.Ordinal);
    }

    private TrayPath? WayOf(CableReach cable) =>
        cable is { Path: not null, First: { } one, Second: { } other }
        && _byFrame.GetValueOrDefault(one.Id)?.Drops is { } from && _byFrame.GetValueOrDefault(other.Id)?.Drops is { } to
            ? Network.Way(from, to)
            : null;

    /// <summary>The shortest way of a cable on the plan; null where it has none, or it is not known.</summary>
    /// <param name="cable">A cable of this hall.</param>
    public CableRoute? RouteOf(CableReach cable) =>
        WayOf(cable) is { } way ? CableRoute.Between(Layout, way, cable.First!, cable.Second!) : null;

    /// <summary>The trays that a cable runs through in this hall, in order from its first end; empty where no way is known.</summary>
    public ImmutableArray<Tray> TraysOf(CableReach cable) => WayOf(cable) is { } way
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

using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Records.Model;
using NetTopologySuite.Geometries.Prepared;
using UnitsNet;

namespace Archive.Halls.Reach;

/// <summary>What would be if one frame stood elsewhere and all others stayed.</summary>
/// <param name="To">The side that it is moved to.</param>
/// <param name="DoNotReach">How many of its cables would not reach: too short, or without a route.</param>
/// <param name="Shortage">By how much all that are too short would be short.</param>
public sealed record FrameShift(Compass To, int DoNotReach, Length Shortage)
{
    /// <summary>How far frames are moved to see what that changes: about what a row can be moved by.</summary>
    public static Length Step { get; } = Length.FromMeters(1);

    /// <summary>Frames that are in the place where it would then be.</summary>
    public ImmutableArray<Frame> InTheWay { get; init; } = [];

    /// <summary>Whether it would stand in a wall, outside the hall or in an obstacle.</summary>
    public bool HitsHall { get; init; }

    /// <summary>Whether nothing is in that place.</summary>
    public bool IsFree => InTheWay.IsEmpty && !HitsHall;

    /// <summary>Of a frame whose cables were judged there as they are judged in its place.</summary>
    internal static FrameShift From(Compass to, ImmutableArray<CableReach> judged) => new(to, CountOf(judged), ShortageOf(judged));

    /// <summary>How many of some cables do not reach.</summary>
    internal static int CountOf(IEnumerable<CableReach> cables) =>
        cables.Count(cable => cable is { IsHere: true, Verdict: ReachVerdict.TooShort or ReachVerdict.NoWay });

    /// <summary>By how much those of some cables are short that are.</summary>
    internal static Length ShortageOf(IEnumerable<CableReach> cables) => Length.FromMillimeters(cables
        .Where(cable => cable.Verdict == ReachVerdict.TooShort)
        .Sum(cable => -cable.Margin!.Value.Millimeters));
}

/// <summary>Finds what is in a frame's way. Made once a hall: a frame then costs the logarithm of the others.</summary>
internal sealed class ShiftRoom
{
    private const int MostNamed = 4;

    private readonly HallLayout _layout;
    private readonly FootprintTree _tree;
    private readonly IPreparedGeometry? _room;
    private readonly ImmutableArray<IPreparedGeometry> _obstacles;

    internal ShiftRoom(HallLayout layout)
    {
        _layout = layout;
        _tree = new FootprintTree([.. layout.PlacedFrames.Select(placed => placed.Footprint)]);
        if (layout.Hall.Outline is { } outline && GeometryConversion.Area(outline) is { IsEmpty: false } room)
            _room = PreparedGeometryFactory.Prepare(room);
        _obstacles =
        [
            .. layout.Hall.Obstacles.Select(obstacle => PreparedGeometryFactory.Prepare(GeometryConversion.Area(obstacle.Outline))),
        ];
    }

    /// <summary>How a frame of this hall is moved by a number of millimetres.</summary>
    internal static Footprint Moved(PlacedFrame placed, Compass to, double by)
    {
        var (x, y) = to switch { Compass.East => (by, 0d), Compass.West => (-by, 0d), Compass.South => (0d, by), _ => (0d, -by) };
        var old = placed.Footprint;
        return new Footprint(old.West + x, old.North + y, old.East + x, old.South + y);
    }

    internal FrameShift Judge(FrameShift shift, PlacedFrame placed, Footprint there)
    {
        var area = GeometryConversion.Area(there.Grown(-Footprint.Touch));
        return shift with
        {
            InTheWay =
            [
                .. _tree.Overlapping(there, int.MaxValue)
                    .Select(other => _layout.PlacedFrames[other].Frame)
                    .Where(other => other.Id != placed.Frame.Id)
                    .Take(MostNamed),
            ],
            HitsHall = (_room is not null && !_room.Covers(area)) || _obstacles.Any(obstacle => obstacle.Intersects(area)),
        };
    }
}

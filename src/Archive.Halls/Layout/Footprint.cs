using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Halls.Layout;

/// <summary>The rectangle that a frame covers on the floor, in millimetres of the hall's own axes (y grows to the south).</summary>
/// <param name="West">Least x.</param>
/// <param name="North">Least y.</param>
/// <param name="East">Greatest x.</param>
/// <param name="South">Greatest y.</param>
public readonly record struct Footprint(double West, double North, double East, double South)
{
    /// <summary>
    /// Footprints that reach into each other, into an obstacle or over a line by no more than this touch; in millimetres, a tape's error.
    /// </summary>
    public const double Touch = 1;

    /// <summary>Extent from west to east.</summary>
    public double Across => East - West;

    /// <summary>Extent from north to south.</summary>
    public double Down => South - North;

    /// <summary>Whether all its numbers are finite.</summary>
    public bool IsFinite => double.IsFinite(West + North + East + South);

    /// <summary>Its middle.</summary>
    public PlanPoint Centre => new((West + East) / 2, (North + South) / 2);

    /// <summary>Its corners: north-west, north-east, south-east, south-west.</summary>
    public ImmutableArray<PlanPoint> Corners => [new(West, North), new(East, North), new(East, South), new(West, South)];

    /// <summary>The rectangle spanned by two opposite corners, in any order.</summary>
    /// <param name="a">One corner.</param>
    /// <param name="b">The corner opposite.</param>
    public static Footprint Between(PlanPoint a, PlanPoint b) =>
        new(Math.Min(a.X, b.X), Math.Min(a.Y, b.Y), Math.Max(a.X, b.X), Math.Max(a.Y, b.Y));

    /// <summary>The least rectangle around points.</summary>
    /// <param name="points">Any points; those that are not finite are passed over.</param>
    /// <returns>The rectangle, or null where there is no point.</returns>
    public static Footprint? Around(IEnumerable<PlanPoint> points)
    {
        Footprint? around = null;
        foreach (var point in points)
        {
            if (!double.IsFinite(point.X) || !double.IsFinite(point.Y)) continue;
            var single = Between(point, point);
            around = around?.Joined(single) ?? single;
        }

        return around;
    }

    /// <summary>The least rectangle around this and another.</summary>
    /// <param name="other">Another rectangle.</param>
    public Footprint Joined(Footprint other) =>
        new(Math.Min(West, other.West), Math.Min(North, other.North), Math.Max(East, other.East), Math.Max(South, other.South));

    /// <summary>This rectangle grown outward on all sides, or shrunk by a negative distance (never past its middle).</summary>
    /// <param name="by">Distance in millimetres.</param>
    public Footprint Grown(double by)
    {
        var x = Math.Max(by, -Across / 2);
        var y = Math.Max(by, -Down / 2);
        return new Footprint(West - x, North - y, East + x, South + y);
    }

    /// <summary>Whether a point lies in it or on its edge.</summary>
    public bool Holds(PlanPoint point) => point.X >= West && point.X <= East && point.Y >= North && point.Y <= South;

    /// <summary>
    /// How far two footprints reach into each other: the lesser of the shared width and depth, in millimetres; none is 0 or less.
    /// </summary>
    public double Overlap(Footprint other) =>
        Math.Min(Math.Min(East, other.East) - Math.Max(West, other.West), Math.Min(South, other.South) - Math.Max(North, other.North));

    /// <summary>One edge as a line: west to east, or north to south.</summary>
    public (PlanPoint From, PlanPoint To) Edge(Compass side) => side switch
    {
        Compass.North => (new(West, North), new(East, North)),
        Compass.South => (new(West, South), new(East, South)),
        Compass.West => (new(West, North), new(West, South)),
        _ => (new(East, North), new(East, South)),
    };
}

using Archive.Records.Model;

namespace Archive.Halls.Layout;

/// <summary>Steps on the plan by compass: x grows to the east, y to the south.</summary>
internal static class Direction
{
    internal static PlanPoint Step(this PlanPoint point, Compass to, double millimetres) => to switch
    {
        Compass.North => point with { Y = point.Y - millimetres },
        Compass.South => point with { Y = point.Y + millimetres },
        Compass.East => point with { X = point.X + millimetres },
        _ => point with { X = point.X - millimetres },
    };
}

using Archive.Records.Model;

namespace Archive.Halls.Layout;

/// <summary>Distances in plan.</summary>
internal static class Distance
{
    /// <summary>The straight distance of two points, in millimetres.</summary>
    internal static double DistanceTo(this PlanPoint one, PlanPoint other) => double.Hypot(one.X - other.X, one.Y - other.Y);
}

using Archive.Records.Model;

namespace Archive.Halls.Views;

/// <summary>
/// The isometric drawing of ISO 5456-3: seen from above and from the south-east, so that lengths along all three axes are drawn at one
/// scale, and axes lie at 120 degrees to each other.
/// </summary>
public static class Isometry
{
    // Cosine of 30 degrees, by which horizontal axes lean.
    private static readonly double _across = Math.Sqrt(3) / 2;

    /// <summary>Where a point of the hall lies on the sheet: x to the right, y down, in millimetres at full size.</summary>
    /// <param name="height">Millimetres above the floor.</param>
    public static PlanPoint Project(PlanPoint point, double height) =>
        new((point.X - point.Y) * _across, ((point.X + point.Y) / 2) - height);
}

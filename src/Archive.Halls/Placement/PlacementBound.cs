using Archive.Halls.Trays.Network;
using Archive.Records.Terms;

namespace Archive.Halls.Placement;

/// <summary>What no arrangement can better.</summary>
internal static class PlacementBound
{
    private const double Rounding = 1e-6;

    /// <summary>
    /// Whether a cable is too short wherever its frames stand: up to the nearest tray in height from either top, and between the frames'
    /// middles at least half the lesser of width and depth of both, since two frames never stand in each other.
    /// </summary>
    public static bool IsShortAnywhere(PlacementCable cable, PlacementProblem problem, TrayNetwork network)
    {
        if (cable.Has is not { } has) return false;
        var least = cable.Ends.Max(end => end.Runs + Rise(problem.Sizes[cable.First], network) + Rise(problem.Sizes[end.Frame], network)
            + (end.Frame == cable.First ? 0 : Half(problem.Sizes[cable.First]) + Half(problem.Sizes[end.Frame])));
        return has - least < -Rounding;
    }

    private static double Half(FrameSize size) => Math.Min(size.Width.Millimeters, size.Depth.Millimeters) / 2;

    private static double Rise(FrameSize size, TrayNetwork network) =>
        network.Trays.Select(tray => Math.Abs(tray.Height!.Value.Value.Millimeters - size.Height.Millimeters)).DefaultIfEmpty(
            double.PositiveInfinity).Min();
}

using Archive.Halls.Layout;
using Archive.Records.Model;

namespace Archive.Drawings.Halls;

/// <summary>A row as one who faces its fronts sees it.</summary>
public static class RowView
{
    // A frame whose height is not recorded is drawn this high, in millimetres: a common cabinet's.
    private const double UnknownHeight = 2000;

    /// <summary>Whether the first frame of the row is seen at the left.</summary>
    public static bool IsSeenInOrder(FrameRow row) => row.Runs.Value == ToTheRight(row.Faces.Value);

    /// <summary>Where a frame begins and ends along its row, from the first frame on, in millimetres.</summary>
    public static (double Near, double Far) Ends(PlacedFrame placed) => placed.Row.Runs.Value switch
    {
        Compass.East => (placed.Footprint.West, placed.Footprint.East),
        Compass.West => (-placed.Footprint.East, -placed.Footprint.West),
        Compass.South => (placed.Footprint.North, placed.Footprint.South),
        _ => (-placed.Footprint.South, -placed.Footprint.North),
    };

    /// <summary>How high a frame is drawn, in millimetres.</summary>
    public static double Height(PlacedFrame placed) =>
        placed.Frame.Size is { Value.Height.Millimeters: > 0 and var height } ? height : UnknownHeight;

    // One who looks at a front that faces south looks north and has the east at the right hand.
    private static Compass ToTheRight(Compass faces) => faces switch
    {
        Compass.South => Compass.East,
        Compass.North => Compass.West,
        Compass.East => Compass.North,
        _ => Compass.South,
    };
}

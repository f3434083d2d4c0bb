using Archive.Halls.Layout;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Halls.Placement;

/// <summary>A stretch of floor where frames may stand side by side: a row, as long as the floor before it stays free.</summary>
/// <param name="Row">Id of the row.</param>
/// <param name="At">Front corner of the first frame.</param>
/// <param name="Runs">Direction in which it goes on.</param>
/// <param name="Faces">Side that the fronts look to.</param>
/// <param name="Length">How far frames may reach, in millimetres.</param>
internal sealed record Bay(string Row, PlanPoint At, Compass Runs, Compass Faces, double Length)
{
    /// <summary>The middle of a frame's top.</summary>
    /// <param name="size">The frame's size.</param>
    /// <param name="along">Millimetres from the bay's beginning to the frame's near side.</param>
    public FrameTop TopOf(FrameSize size, double along) => new(
        At.Step(Runs, along + (size.Width.Millimeters / 2)).Step(Faces, -size.Depth.Millimeters / 2), size.Height.Millimeters);

    /// <summary>
    /// The rectangle that the bay covers between two distances along it and two behind its front line; in front of it they are below zero.
    /// </summary>
    public Footprint Strip(double from, double to, double front, double back) =>
        Footprint.Between(At.Step(Runs, from).Step(Faces, -front), At.Step(Runs, to).Step(Faces, -back));

    /// <summary>Where along the bay a rectangle begins and ends.</summary>
    public (double From, double To) Along(Footprint box) => Runs switch
    {
        Compass.East => (box.West - At.X, box.East - At.X),
        Compass.West => (At.X - box.East, At.X - box.West),
        Compass.South => (box.North - At.Y, box.South - At.Y),
        _ => (At.Y - box.South, At.Y - box.North),
    };
}

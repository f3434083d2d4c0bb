using Archive.Halls.Layout;
using Archive.Records.Model;

namespace Archive.Halls.Trays.Network;

/// <summary>A straight stretch of a tray's line.</summary>
/// <param name="From">Where it begins.</param>
/// <param name="To">Where it ends.</param>
/// <param name="Start">How far along the tray it begins, in millimetres.</param>
internal readonly record struct TraySegment(PlanPoint From, PlanPoint To, double Start)
{
    // Sine of the angle below which stretches count as side by side, and the length below which a shared stretch is a point.
    private const double Parallel = 1e-9;
    private const double Rounding = 1e-6;

    public double Length => From.DistanceTo(To);

    /// <summary>How far from its beginning the point nearest to another lies.</summary>
    public double Nearest(PlanPoint point) => Math.Clamp(Along(point), 0, Length);

    public PlanPoint At(double along)
    {
        if (along == Length) return To;
        var share = along / Length;
        return new PlanPoint(From.X + (share * (To.X - From.X)), From.Y + (share * (To.Y - From.Y)));
    }

    /// <summary>
    /// Where two stretches come nearest: where they cross; else over the part that they share side by side; else at an end of one of them.
    /// Places are along the trays.
    /// </summary>
    public SegmentContact Contact(TraySegment other)
    {
        var cross = ((To.X - From.X) * (other.To.Y - other.From.Y)) - ((To.Y - From.Y) * (other.To.X - other.From.X));
        if (Math.Abs(cross) <= Parallel * Length * other.Length) return SideBySide(other) ?? EndToEnd(other);
        var (x, y) = (other.From.X - From.X, other.From.Y - From.Y);
        var on = ((x * (other.To.Y - other.From.Y)) - (y * (other.To.X - other.From.X))) / cross;
        var onOther = ((x * (To.Y - From.Y)) - (y * (To.X - From.X))) / cross;
        return on is >= 0 and <= 1 && onOther is >= 0 and <= 1
            ? Point(on * Length, onOther * other.Length, other, 0)
            : EndToEnd(other);
    }

    private SegmentContact? SideBySide(TraySegment other)
    {
        var (one, two) = (Along(other.From), Along(other.To));
        var (from, to) = (Math.Max(0, Math.Min(one, two)), Math.Min(Length, Math.Max(one, two)));
        if (to - from <= Rounding) return null;
        return new SegmentContact(
            other.At(other.Nearest(At(from))).DistanceTo(At(from)),
            Start + from,
            Start + to,
            other.Start + other.Nearest(At(from)),
            other.Start + other.Nearest(At(to)));
    }

    private SegmentContact EndToEnd(TraySegment other)
    {
        var best = Point(0, other.Nearest(From), other, other.At(other.Nearest(From)).DistanceTo(From));
        Take(Point(Length, other.Nearest(To), other, other.At(other.Nearest(To)).DistanceTo(To)));
        Take(Point(Nearest(other.From), 0, other, At(Nearest(other.From)).DistanceTo(other.From)));
        Take(Point(Nearest(other.To), other.Length, other, At(Nearest(other.To)).DistanceTo(other.To)));
        return best;

        void Take(SegmentContact contact)
        {
            if (contact.Distance < best.Distance) best = contact;
        }
    }

    private SegmentContact Point(double on, double onOther, TraySegment other, double distance) =>
        new(distance, Start + on, Start + on, other.Start + onOther, other.Start + onOther);

    private double Along(PlanPoint point) =>
        (((point.X - From.X) * (To.X - From.X)) + ((point.Y - From.Y) * (To.Y - From.Y))) / Length;
}

/// <summary>Where two stretches come nearest in plan.</summary>
/// <param name="Distance">How near, in millimetres.</param>
/// <param name="From">Place on the first tray.</param>
/// <param name="To">The same, or the end of the part that runs side by side.</param>
/// <param name="OtherFrom">Place on the other tray across from <paramref name="From"/>.</param>
/// <param name="OtherTo">Place on the other tray across from <paramref name="To"/>.</param>
internal readonly record struct SegmentContact(double Distance, double From, double To, double OtherFrom, double OtherTo);

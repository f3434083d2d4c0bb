using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Halls.Trays.Network;

/// <summary>The top of a frame in its place.</summary>
/// <param name="Height">Its height above the floor, in millimetres.</param>
public readonly record struct FrameTop(PlanPoint Middle, double Height);

/// <summary>The shortest way through trays whose order is given.</summary>
internal static class FixedTrayPath
{
    /// <summary>Tries every joint of each tray with the next, tray by tray: a way of least length in a graph of layers.</summary>
    /// <param name="lines">The trays in order.</param>
    /// <param name="joints">For each tray but the last, its joints with the next.</param>
    /// <param name="from">Where the way begins; null for: in the first tray, at the joint that it leaves by.</param>
    /// <param name="to">Where it ends; null likewise.</param>
    /// <returns>Its length and the stretch of each tray; null where two trays do not join.</returns>
    public static (double Length, ImmutableArray<(double From, double To)> Stretches)? Shortest(
        ImmutableArray<TrayLine> lines, TrayJoint[][] joints, FrameTop? from, FrameTop? to)
    {
        var (start, up) = Entry(lines[0], from);
        var (end, down) = Entry(lines[^1], to);
        List<Step> here = [new Step(start, double.NaN, up, null)];
        for (var i = 0; i < joints.Length; i++)
        {
            here = ReferenceEquals(lines[i].Tray, lines[i + 1].Tray)
                ? [.. here.Select(step => step with { Left = step.Entered, Before = step })]
                : Over(here, joints[i], lines[i]);
            if (here.Count == 0) return null;
        }

        var last = here.MinBy(step => step.Length + Along(lines[^1], step.Entered, end))!;
        return (last.Length + Along(lines[^1], last.Entered, end) + down, Stretches(last, end));
    }

    // Over a joint that is a place, one way is the best. Where trays run side by side, one passes over wherever one comes from, and each of
    // these places may prove the better later.
    private static List<Step> Over(List<Step> here, TrayJoint[] joints, TrayLine line)
    {
        var best = new Dictionary<double, Step>();
        foreach (var joint in joints)
        {
            foreach (var step in here)
            {
                var (on, across) = joint.Nearest(double.IsNaN(step.Entered) ? joint.On.From : step.Entered);
                var over = new Step(across, on, step.Length + Along(line, step.Entered, on) + joint.Cost, step);
                var place = Math.Round(across, 6);
                if (!best.TryGetValue(place, out var known) || over.Length < known.Length) best[place] = over;
            }
        }

        return [.. best.OrderBy(at => at.Key).Select(at => at.Value)];
    }

    private static (double Along, double Cost) Entry(TrayLine line, FrameTop? top)
    {
        if (top is not { } frame) return (double.NaN, 0);
        var (along, across) = line.Nearest(frame.Middle);
        return (along, across + Math.Abs(line.Height - frame.Height));
    }

    // A tray that is left or entered nobody knows where adds nothing.
    private static double Along(TrayLine line, double from, double to) =>
        double.IsNaN(from) || double.IsNaN(to) ? 0 : line.Between(from, to);

    private static ImmutableArray<(double From, double To)> Stretches(Step? last, double end)
    {
        var stretches = new List<(double, double)>();
        for (var leave = end; last is not null; (leave, last) = (last.Left, last.Before))
        {
            stretches.Add((double.IsNaN(last.Entered) ? leave : last.Entered, double.IsNaN(leave) ? last.Entered : leave));
        }

        stretches.Reverse();
        return [.. stretches];
    }

    private sealed record Step(double Entered, double Left, double Length, Step? Before);
}

using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;

namespace Archive.Halls.Trays.Network;

/// <summary>Finds the joints of trays.</summary>
/// <remarks>
/// Two trays join where their lines cross or touch, which is: where they come nearest to each other, by no more than
/// <see cref="TrayMeeting.Reach"/> in plan. Lines that bend may do so in several places; near a bend only the nearest place counts, so that
/// the tolerance never cuts a corner.
/// </remarks>
internal static class TrayJoints
{
    private const double Rounding = 1e-6;

    // Stretches that are compared with each other in one hall: a hall of two hundred trays needs some thousands.
    private const int MostHeld = 200_000;

    /// <summary>
    /// All joints; of each, the first tray is the one of the lesser number. n log n in stretches, and linear in those that come near.
    /// </summary>
    /// <param name="lines">The lines of one hall's trays.</param>
    /// <returns>The joints; where too many stretches come near each other, those of the first trays, and that this is not all.</returns>
    public static (List<TrayJoint> Joints, bool AreAll) Find(IReadOnlyList<TrayLine> lines)
    {
        var tree = new STRtree<(int Tray, int Segment)>();
        for (var tray = 0; tray < lines.Count; tray++)
        {
            for (var segment = 0; segment < lines[tray].Segments; segment++)
                tree.Insert(Box(lines[tray].Segment(segment)), (tray, segment));
        }

        tree.Build();
        var joints = new List<TrayJoint>();
        var left = MostHeld;
        for (var tray = 0; tray < lines.Count; tray++)
        {
            foreach (var (other, contacts) in Contacts(lines, tray, tree, ref left).OrderBy(near => near.Key))
            {
                var cost = Math.Abs(lines[tray].Height - lines[other].Height);
                joints.AddRange(Nearest(contacts, lines[tray], lines[other]).Select(contact => new TrayJoint(tray, other, contact, cost)));
            }
        }

        return (joints, left > 0);
    }

    private static Dictionary<int, Dictionary<(int, int), SegmentContact>> Contacts(
        IReadOnlyList<TrayLine> lines, int tray, STRtree<(int Tray, int Segment)> tree, ref int left)
    {
        var near = new Dictionary<int, Dictionary<(int, int), SegmentContact>>();
        for (var segment = 0; segment < lines[tray].Segments; segment++)
        {
            var stretch = lines[tray].Segment(segment);
            var box = Box(stretch);
            box.ExpandBy(TrayMeeting.Reach + Rounding);
            if (left <= 0) return near;
            foreach (var (other, otherSegment) in tree.Query(box))
            {
                if (--left <= 0) return near;
                if (other <= tray) continue;
                var contact = stretch.Contact(lines[other].Segment(otherSegment));
                if (contact.Distance > TrayMeeting.Reach + Rounding) continue;
                if (!near.TryGetValue(other, out var contacts)) near[other] = contacts = [];
                contacts[(segment, otherSegment)] = contact;
            }
        }

        return near;
    }

    // The distance of two straight stretches is a convex function of the places on them. So a place where two stretches come nearest is one
    // where the lines do, unless it lies at a bend, and the stretch behind the bend leads nearer still.
    private static List<SegmentContact> Nearest(Dictionary<(int One, int Other), SegmentContact> contacts, TrayLine line, TrayLine other)
    {
        var kept = new List<SegmentContact>();
        foreach (var (at, contact) in contacts.OrderBy(contact => contact.Key))
        {
            var ones = Beside(line, at.One, contact.From, contact.To);
            var others = Beside(other, at.Other, contact.OtherFrom, contact.OtherTo);
            var leadsNearer = ones.Any(one =>
                others.Any(two => contacts.TryGetValue((one, two), out var beside) && beside.Distance < contact.Distance - Rounding));
            if (!leadsNearer && !kept.Any(known => IsSame(known, contact))) kept.Add(contact);
        }

        return kept;
    }

    private static List<int> Beside(TrayLine line, int segment, double from, double to)
    {
        var stretch = line.Segment(segment);
        var beside = new List<int> { segment };
        if (Math.Min(from, to) <= stretch.Start + Rounding) beside.Add(segment - 1);
        if (Math.Max(from, to) >= stretch.Start + stretch.Length - Rounding) beside.Add(segment + 1);
        return beside;
    }

    private static bool IsSame(SegmentContact one, SegmentContact other) =>
        Math.Abs(one.From - other.From) <= Rounding
            && Math.Abs(one.To - other.To) <= Rounding
            && Math.Abs(one.OtherFrom - other.OtherFrom) <= Rounding;

    private static Envelope Box(TraySegment stretch) => new(stretch.From.X, stretch.To.X, stretch.From.Y, stretch.To.Y);
}

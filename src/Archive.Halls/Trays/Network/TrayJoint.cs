namespace Archive.Halls.Trays.Network;

/// <summary>A joint of two trays: one place of each, or a part over which they run side by side and one can pass anywhere.</summary>
/// <param name="First">Number of the first tray in its network.</param>
/// <param name="Second">Number of the second.</param>
/// <param name="On">Where.</param>
/// <param name="Cost">What passing costs, in millimetres: the difference in height alone. The gap in plan costs nothing.</param>
internal readonly record struct TrayJoint(int First, int Second, SegmentContact On, double Cost)
{
    public bool IsStretch => On.To > On.From;

    /// <summary>The same joint seen from the second tray; a part is turned so that it grows along that tray.</summary>
    public TrayJoint Turned => new(
        Second,
        First,
        On.OtherFrom <= On.OtherTo
            ? new SegmentContact(On.Distance, On.OtherFrom, On.OtherTo, On.From, On.To)
            : new SegmentContact(On.Distance, On.OtherTo, On.OtherFrom, On.To, On.From),
        Cost);

    /// <summary>The place of the joint nearest along the first tray, and the place across from it on the second.</summary>
    /// <param name="along">A place on the first tray.</param>
    public (double On, double Across) Nearest(double along)
    {
        var on = Math.Clamp(along, On.From, On.To);
        return (on, On.OtherFrom + ((on - On.From) * (On.OtherTo < On.OtherFrom ? -1 : 1)));
    }

    /// <summary>Whether a place of the first tray lies in the part that runs side by side.</summary>
    /// <param name="along">The place.</param>
    public bool Spans(double along) => IsStretch && along >= On.From && along <= On.To;
}

using Archive.Wiring.Decabling;

namespace Archive.Plans.HandTags;

/// <summary>How long it takes to tag by hand what labels do not say.</summary>
public static class TaggingTime
{
    /// <summary>Ends of cables that labels alone cannot rebuild; two where fewer are known.</summary>
    public static int Ends(PlanContext context) =>
        context.Readings.Cables.Where(reading => !reading.IsRebuildable).Sum(reading => Math.Max(2, reading.Cable.Ends.Length));

    /// <summary>
    /// The archive's own pace for one end: half of what disconnecting a cable takes, for an end is found and read for either.
    /// Common practice, no source.
    /// </summary>
    public static TimeSpan PerEnd(PlanContext context) =>
        TimeSpan.FromMinutes(Pace.From(context.Record, context.Progress).Each / 2);
}

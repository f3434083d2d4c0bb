using Archive.Records.Model;
using Archive.Wiring.Decabling;

namespace Archive.Plans.Now;

/// <summary>How many cables a day of work has taken out or connected so far, by the events that give a day.</summary>
/// <param name="Days">Days on which at least one was.</param>
/// <param name="Cables">How many were on those days.</param>
/// <param name="Low">A quarter of the days had no more.</param>
/// <param name="Middle">Half of the days had no more.</param>
/// <param name="High">Three quarters of the days had no more.</param>
/// <param name="People">People named on those days, on average; 0 where none is named.</param>
/// <remarks>
/// Quartiles by the inclusive method (Tukey's hinges with the median in both halves; Hyndman and Fan 1996, definition 7, from memory).
/// </remarks>
public sealed record DailyPace(int Days, int Cables, double Low, double Middle, double High, double People)
{
    /// <summary>Days of work that so many cables take at this pace: at a good day's, a middling and a poor day's.</summary>
    public (int Least, int Middle, int Most) DaysFor(int cables) => (DaysAt(High, cables), DaysAt(Middle, cables), DaysAt(Low, cables));

    /// <summary>The first and the last of these days.</summary>
    public DateOnly First { get; private init; }

    public DateOnly Last { get; private init; }

    /// <summary>Days of work with another number of people: twice as many take half, if each has room.</summary>
    /// <param name="people">How many.</param>
    /// <param name="days">Days with as many as so far.</param>
    public int DaysWith(int people, int days) => (int)Math.Ceiling(days * People / people);

    /// <summary>When so many more days of work are over, if they come as often as those so far; null beyond all calendars.</summary>
    /// <param name="from">The day up to which the record says what was done.</param>
    public DateOnly? Finished(int days, DateOnly from)
    {
        var later = Math.Ceiling(days * (Last.DayNumber - First.DayNumber + 1.0) / Days);
        return later < DateOnly.MaxValue.DayNumber - from.DayNumber ? from.AddDays((int)later) : null;
    }

    /// <summary>The pace of some work; null where fewer than three days are known.</summary>
    /// <param name="done">The events by which cables were taken out, or connected: one for each cable.</param>
    public static DailyPace? From(IEnumerable<ArchiveEvent> done)
    {
        var days = done.Where(archiveEvent => archiveEvent.On is { Value: { Earliest: { } earliest, Latest: { } latest } }
            && earliest == latest)
            .GroupBy(archiveEvent => archiveEvent.On!.Value.Value.Earliest!.Value)
            .ToList();
        if (days.Count < 3) return null;
        double[] counts = [.. days.Select(day => (double)day.Count()).Order()];
        return new DailyPace(
            days.Count,
            days.Sum(day => day.Count()),
            MeasuredPace.Quantile(counts, 0.25),
            MeasuredPace.Quantile(counts, 0.5),
            MeasuredPace.Quantile(counts, 0.75),
            days.Average(day =>
                day.SelectMany(archiveEvent => archiveEvent.By).Select(by => by.Value).Distinct(StringComparer.Ordinal).Count()))
        {
            First = days.Min(day => day.Key),
            Last = days.Max(day => day.Key),
        };
    }

    public static DailyPace? OfTakingOut(PlanContext context) =>
        From(All(context).Select(cable => context.Progress.TakenOutBy(cable)).OfType<ArchiveEvent>());

    public static DailyPace? OfConnecting(PlanContext context) =>
        From(All(context).Select(cable => context.Progress.ConnectedBy(cable)).OfType<ArchiveEvent>());

    private static IEnumerable<string> All(PlanContext context) => context.Readings.Cables.Select(reading => reading.Cable.Id);

    private static int DaysAt(double pace, int cables) => (int)Math.Ceiling(cables / Math.Max(pace, 1));
}

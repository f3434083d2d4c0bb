using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Progress;

namespace Archive.Wiring.Decabling;

/// <summary>How long cables took so far, by the events that say how long the crew worked.</summary>
/// <param name="Each">Minutes to disconnect a cable.</param>
/// <param name="PerMetre">Minutes to pull a metre.</param>
/// <param name="Events">How many events it rests on.</param>
/// <param name="Low">A quarter of the events took no more than this share of what the pace says.</param>
/// <param name="High">Three quarters of the events took no more than this share.</param>
/// <remarks>
/// Each event says: minutes = cables disconnected x each + metres pulled x per metre. The two are found by least squares, neither below
/// zero (the normal equations of two unknowns). A cable counts as disconnected in the event that took it out unless an earlier event
/// disconnected it. Events with a cable of unknown length are left out.
/// </remarks>
public sealed record MeasuredPace(double Each, double PerMetre, int Events, double Low, double High)
{
    private const int LeastEvents = 5;

    /// <summary>Measures it; null where fewer than five events say how long they took, or they do not tell the two apart.</summary>
    public static MeasuredPace? From(ArchiveModel record, WorkProgress progress)
    {
        var samples = record.Events
            .Where(happened => happened is { IsWithdrawn: false, Took: not null })
            .Select(happened => SampleOf(record, progress, happened))
            .OfType<Sample>()
            .ToImmutableArray();
        if (samples.Length < LeastEvents) return null;
        var (cc, cm, mm) = (
            samples.Sum(each => each.Cables * each.Cables),
            samples.Sum(each => each.Cables * each.Metres),
            samples.Sum(each => each.Metres * each.Metres));
        var (cy, my) = (samples.Sum(each => each.Cables * each.Minutes), samples.Sum(each => each.Metres * each.Minutes));
        var determinant = (cc * mm) - (cm * cm);
        if (determinant <= 1e-9 * cc * mm) return null;
        var (each, perMetre) = (((cy * mm) - (my * cm)) / determinant, ((my * cc) - (cy * cm)) / determinant);
        if (each < 0) (each, perMetre) = (0, my / mm);
        if (perMetre < 0) (each, perMetre) = (cy / cc, 0);
        double[] shares = [.. samples.Select(sample => sample.Minutes / ((sample.Cables * each) + (sample.Metres * perMetre))).Where(
            double.IsFinite).Order()];
        return shares.Length == 0 ? null : new MeasuredPace(each, perMetre, samples.Length, Quantile(shares, 0.25), Quantile(shares, 0.75));
    }

    /// <summary>
    /// The share of sorted values at or below which a part of them lies, by the inclusive method (Hyndman and Fan 1996, definition 7, from
    /// memory).
    /// </summary>
    public static double Quantile(double[] sorted, double part)
    {
        var at = part * (sorted.Length - 1);
        var (below, rest) = ((int)at, at - (int)at);
        return below + 1 < sorted.Length ? sorted[below] + (rest * (sorted[below + 1] - sorted[below])) : sorted[below];
    }

    private static Sample? SampleOf(ArchiveModel record, WorkProgress progress, ArchiveEvent happened)
    {
        var cables = happened.Subjects.Select(of => record.Find<Cable>(of.Value)).OfType<Cable>().Distinct().ToList();
        if (cables.Count == 0 || happened.Of.Any(of => record.Find(of.Value) is not Cable)) return null;
        var minutes = happened.Took!.Value.Value.Minutes;
        switch (happened.What?.Value)
        {
            case EventType.Disconnected:
                return new Sample(cables.Count, 0, minutes);
            case EventType.Removed or EventType.Coiled or EventType.Severed when cables.TrueForAll(cable => cable.Length is not null):
                return new Sample(
                    cables.Count(cable => !WasDisconnected(progress, cable, happened)),
                    cables.Sum(cable => cable.Length!.Value.Value.Meters),
                    minutes);
            default:
                return null;
        }
    }

    private static bool WasDisconnected(WorkProgress progress, Cable cable, ArchiveEvent before) =>
        progress.JourneyOf(cable.Id)?.Events.TakeWhile(happened =>
            !ReferenceEquals(happened, before)).Any(happened => happened.What?.Value == EventType.Disconnected) == true;

    private sealed record Sample(double Cables, double Metres, double Minutes);
}

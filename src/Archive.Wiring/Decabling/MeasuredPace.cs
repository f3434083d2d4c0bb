using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

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

    // Fewer events are enough for a part of the cables: they measure one share, not two figures.
    private const int LeastEventsOfPart = 3;

    /// <summary>How the families of cables that were worked at in three events or more compare with all cables.</summary>
    public ImmutableArray<(CableFamily Family, PaceShare Pace)> Families { get; private init; } = [];

    /// <summary>How cables at a frame compare with all cables, by the frame's id: frames worked at in three events or more.</summary>
    public ImmutableArray<(string Frame, PaceShare Pace)> Frames { get; private init; } = [];

    /// <summary>How a family compares with all cables; null where too few events say so.</summary>
    public PaceShare? ShareOf(CableFamily? family) => Families.FirstOrDefault(each => each.Family == family).Pace;

    /// <summary>How cables at a frame compare with all cables; null where too few events say so.</summary>
    public PaceShare? ShareOf(string frame) => Frames.FirstOrDefault(each => each.Frame == frame).Pace;

    /// <summary>Measures it; null where fewer than five events say how long they took, or they do not tell the two apart.</summary>
    public static MeasuredPace? From(ArchiveModel record, WorkProgress progress)
    {
        var samples = record.Events
            .Where(archiveEvent => archiveEvent is { IsWithdrawn: false, Took: not null })
            .Select(archiveEvent => SampleOf(record, progress, archiveEvent))
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
        return shares.Length == 0
            ? null
            : new MeasuredPace(each, perMetre, samples.Length, Quantile(shares, 0.25), Quantile(shares, 0.75))
            {
                Families =
                [
                    .. Shares<CableFamily>(
                        samples, each, perMetre, part => CableRoles.FamilyOf(record, part.Cable) is { } family ? [family] : [])
                        .OrderBy(pair => pair.Of),
                ],
                Frames =
                [
                    .. Shares(samples, each, perMetre, part => part.Cable.Ends
                        .Select(end => end.At is { } at ? record.FrameAt(at.Value)?.Id : null)
                        .OfType<string>()
                        .Distinct(StringComparer.Ordinal)).OrderBy(pair => pair.Of, StringComparer.Ordinal),
                ],
            };
    }

    // An event of several families says the same of all of them.
    private static IEnumerable<(T Of, PaceShare Pace)> Shares<T>(
        ImmutableArray<Sample> samples, double each, double perMetre, Func<Part, IEnumerable<T>> ofs)
        where T : notnull => samples
        .Select(sample => (sample.Parts, Share: sample.Minutes / ((sample.Cables * each) + (sample.Metres * perMetre))))
        .Where(sample => double.IsFinite(sample.Share))
        .SelectMany(sample => sample.Parts.SelectMany(ofs).Distinct().Select(of => (Of: of, sample.Share)))
        .GroupBy(one => one.Of)
        .Where(group => group.Count() >= LeastEventsOfPart)
        .Select(group =>
        {
            double[] sorted = [.. group.Select(one => one.Share).Order()];
            return (group.Key, new PaceShare(
                Quantile(sorted, 0.5), sorted.Length, Quantile(sorted, 0.25), Quantile(sorted, 0.75)));
        });

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

    private static Sample? SampleOf(ArchiveModel record, WorkProgress progress, ArchiveEvent archiveEvent)
    {
        var cables = archiveEvent.Subjects.Select(of => record.Find<Cable>(of.Value)).OfType<Cable>().Distinct().ToList();
        if (cables.Count == 0 || archiveEvent.Of.Any(of => record.Find(of.Value) is not Cable)) return null;
        var minutes = archiveEvent.Took!.Value.Value.Minutes;
        switch (archiveEvent.What?.Value)
        {
            case EventType.Disconnected:
                return new Sample(minutes, [.. cables.Select(cable => new Part(cable, Counts: true, 0))]);
            case EventType.Removed or EventType.Coiled or EventType.Severed when cables.TrueForAll(cable => cable.Length is not null):
                return new Sample(minutes, [.. cables.Select(cable => new Part(
                    cable, !WasDisconnected(progress, cable, archiveEvent), cable.Length!.Value.Value.Meters))]);
            default:
                return null;
        }
    }

    private static bool WasDisconnected(WorkProgress progress, Cable cable, ArchiveEvent before) =>
        progress.JourneyOf(cable.Id)?.Events.TakeWhile(archiveEvent =>
            !ReferenceEquals(archiveEvent, before)).Any(archiveEvent => archiveEvent.What?.Value == EventType.Disconnected) == true;

    // A cable in an event: whether it was disconnected in it, and how many metres of it were pulled.
    private sealed record Part(Cable Cable, bool Counts, double Metres);

    private sealed record Sample(double Minutes, ImmutableArray<Part> Parts)
    {
        public double Cables { get; } = Parts.Count(part => part.Counts);

        public double Metres { get; } = Parts.Sum(part => part.Metres);
    }
}

/// <summary>How a part of the cables compares with all of them.</summary>
/// <param name="Share">Minutes that the middle event took, as a share of what the pace of all cables says.</param>
/// <param name="Events">How many events it rests on.</param>
/// <param name="Low">A quarter of these events took no more than this share.</param>
/// <param name="High">Three quarters of them took no more than this share.</param>
public sealed record PaceShare(double Share, int Events, double Low, double High);

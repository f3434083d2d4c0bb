using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records;

namespace Archive.Wiring;

/// <summary>In which order cables are laid back, the lowest first: a cable comes after every cable that it lies over.</summary>
/// <remarks>What is known of each end goes with it. Linear in cables, in what they lie over and in what photos show, but for the sorting of names.</remarks>
public sealed class Reconnection
{
    private readonly FrozenDictionary<string, ImmutableArray<Relaid>> _byFrame;

    private Reconnection(AsFound record, LabelReadings readings)
    {
        var photos = new EndPhotos(record);
        Cables =
        [
            .. LiesOver.Of(record).LowestFirst.SelectMany(lift => lift.Cables.Select(cable => (Lift: lift, Cable: cable)))
                .Select((laid, turn) => new Relaid(readings.Of(laid.Cable.Id)!, laid.Lift, turn + 1, EndsOf(record, readings.Of(laid.Cable.Id)!, photos))),
        ];
        _byFrame = Cables
            .SelectMany(laid => laid.Ends.Select(end => end.End.At.Frame).Distinct(StringComparer.Ordinal).Select(frame => (Frame: frame, Laid: laid)))
            .GroupBy(pair => pair.Frame, pair => pair.Laid, StringComparer.Ordinal)
            .ToFrozenDictionary(laid => laid.Key, laid => laid.ToImmutableArray(), StringComparer.Ordinal);
    }

    /// <summary>Every cable that stands, the lowest first; those of a knot side by side; ties by id.</summary>
    public ImmutableArray<Relaid> Cables { get; }

    /// <summary>Works the order out.</summary>
    /// <param name="record">The record.</param>
    /// <param name="readings">Its labels as read.</param>
    public static Reconnection Of(AsFound record, LabelReadings readings) => new(record, readings);

    /// <summary>The cables that are known to end at a frame, the lowest first.</summary>
    /// <param name="frame">Its id.</param>
    /// <returns>Empty where none is.</returns>
    public ImmutableArray<Relaid> At(string frame) => _byFrame.GetValueOrDefault(frame, []);

    /// <summary>Some cables, the lowest first.</summary>
    /// <param name="cables">Their ids.</param>
    public IEnumerable<Relaid> Among(IReadOnlySet<string> cables) => Cables.Where(laid => cables.Contains(laid.Cable.Id));

    // The end that a coil stays fast to is there already: one begins at it.
    private static ImmutableArray<RelaidEnd> EndsOf(AsFound record, CableReading reading, EndPhotos photos)
    {
        var fast = reading.Cable is { Fate.Value: Fate.Coil, CoilTo: { } to } ? record.Find<Frame>(to.Value)?.Id : null;
        return
        [
            .. reading.Ends.OrderByDescending(end => end.At.Frame == fast)
                .Select((end, index) => new RelaidEnd(end, photos.Of(reading.Cable, end.At), StaysFast: index == 0 && end.At.Frame == fast)),
        ];
    }
}

/// <summary>A cable laid back.</summary>
/// <param name="Reading">What is known of the cable.</param>
/// <param name="Lift">The knot that it is part of, or itself alone.</param>
/// <param name="Turn">Its turn among all cables, from 1.</param>
/// <param name="Ends">Its known ends: the one that it stayed fast to first, if it was coiled.</param>
public sealed record Relaid(CableReading Reading, Lift Lift, int Turn, ImmutableArray<RelaidEnd> Ends)
{
    /// <summary>The cable.</summary>
    public Cable Cable => Reading.Cable;

    /// <summary>The knot that it is part of; null where it is part of none.</summary>
    public Lift? Knot => Lift.IsKnot ? Lift : null;
}

/// <summary>An end of a cable laid back.</summary>
/// <param name="End">The end.</param>
/// <param name="Photo">The photo that shows it as it was; null where none does.</param>
/// <param name="StaysFast">Whether the cable was coiled and lashed to this frame, and never taken off here.</param>
public sealed record RelaidEnd(KnownEnd End, Photo? Photo, bool StaysFast);

using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Records.Model;
using UnitsNet;

namespace Archive.Halls.Trays;

/// <summary>A cable in a tray, and how far along it lies, in millimetres from the first point of the tray's path.</summary>
/// <param name="IsKnown">Whether that is known; else it may lie in all of the tray.</param>
public sealed record LyingSpan(LyingCable Lying, double From, double To, bool IsKnown);

/// <summary>What lies in a tray at a place along it.</summary>
/// <param name="At">From the first point of the tray's path.</param>
/// <param name="Contents">What is known to lie there, and what may.</param>
/// <param name="Unsure">How many of those may lie there.</param>
public sealed record TrayStation(Length At, TrayContents Contents, int Unsure);

/// <summary>How far along a tray each of its cables lies: from where it comes in to where it leaves.</summary>
/// <param name="Length">The tray's length, in millimetres.</param>
/// <param name="All">Its cables in the order of its contents.</param>
public sealed record TraySpans(Tray Tray, double Length, ImmutableArray<LyingSpan> All)
{
    // Places that are looked at to find where most lies.
    private const int MostPlaces = 400;

    /// <summary>Finds them. Linear in the cables.</summary>
    /// <param name="waysOf">The ways of a cable in the hall of the tray; none where they are not known.</param>
    public static TraySpans Create(TrayContents contents, Func<Cable, ImmutableArray<CableRoute>> waysOf)
    {
        var length = contents.Tray.Path.Zip(contents.Tray.Path.Skip(1), (a, b) => a.DistanceTo(b)).Sum();
        return new TraySpans(
            contents.Tray, length, [.. contents.Cables.Select(lying => Of(lying, contents.Tray, length, waysOf(lying.Cable)))]);
    }

    /// <summary>What lies at a place.</summary>
    /// <param name="along">Millimetres from the first point of the tray's path.</param>
    public TrayStation At(double along)
    {
        var there = All.Where(span => span.From <= along && along <= span.To).ToList();
        return new TrayStation(
            UnitsNet.Length.FromMillimeters(along),
            new TrayContents(Tray, [.. there.Select(span => span.Lying)]),
            there.Count(span => !span.IsKnown));
    }

    /// <summary>
    /// A place of each stretch in which the same cables lie; where those are more than so many, of each of so many equal parts of the tray
    /// the place where most lies. None is empty, and none has the same cables as the one before.
    /// </summary>
    public ImmutableArray<TrayStation> Stations(int most)
    {
        var cuts = All.SelectMany(span => new[] { span.From, span.To }).Concat([0, Length]).Distinct().Order().ToList();
        var places = cuts.Zip(cuts.Skip(1), (from, to) => (At: (from + to) / 2, Length: to - from))
            .Where(piece => piece.Length > 1)
            .ToList();
        if (places.Count <= most) return WithoutRepetition(places.Select(place => At(place.At)));
        var step = Math.Max(1, (places.Count + MostPlaces - 1) / MostPlaces);
        return WithoutRepetition(places.Where((_, i) => i % step == 0)
            .GroupBy(place => (int)Math.Min(most - 1, place.At / Math.Max(1, Length) * most))
            .Select(part =>
                part.Select(place => At(place.At)).MaxBy(station => (station.Contents.Cables.Length, -station.At.Millimeters))!));
    }

    /// <summary>How many cables lie along the tray, place by place: from each end of one to the next.</summary>
    public IEnumerable<(double From, double To, int Count)> Profile()
    {
        var changes = All.SelectMany(span => new[] { (At: span.From, By: 1), (At: span.To, By: -1) }).OrderBy(change => change.At).ToList();
        var (count, from) = (0, 0.0);
        foreach (var change in changes)
        {
            if (change.At > from) yield return (from, change.At, count);
            from = Math.Max(from, change.At);
            count += change.By;
        }

        if (Length > from) yield return (from, Length, count);
    }

    private static ImmutableArray<TrayStation> WithoutRepetition(IEnumerable<TrayStation> all)
    {
        var stations = ImmutableArray.CreateBuilder<TrayStation>();
        foreach (var station in all.Where(station => !station.Contents.Cables.IsEmpty))
        {
            if (stations.Count == 0 || !stations[^1].Contents.Cables.SequenceEqual(station.Contents.Cables)) stations.Add(station);
        }

        return stations.ToImmutable();
    }

    // An end whose frame is not known may be anywhere in the tray that it is last seen in.
    private static LyingSpan Of(LyingCable lying, Tray tray, double length, ImmutableArray<CableRoute> ways)
    {
        var (from, to) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var way in ways)
        {
            for (var i = 0; i < way.Legs.Length; i++)
            {
                var leg = way.Legs[i];
                if (leg.Tray.Id != tray.Id) continue;
                if ((i == 0 && !way.FromFrame) || (i == way.Legs.Length - 1 && !way.ToFrame)) return new(lying, 0, length, IsKnown: false);
                from = Math.Min(from, Math.Min(leg.From, leg.To));
                to = Math.Max(to, Math.Max(leg.From, leg.To));
            }
        }

        return from <= to ? new(lying, from, to, IsKnown: true) : new(lying, 0, length, IsKnown: false);
    }
}

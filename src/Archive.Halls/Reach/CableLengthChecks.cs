using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Halls.Layout;
using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Halls.Reach;

/// <summary>AF1501 and AF1502: recorded lengths compared with the routes of their cables as found, or with the hall.</summary>
/// <remarks>
/// Linear in cables and the trays they lie in. Only ends that were seen count. Limits are common practice, without a source.
/// </remarks>
public static class CableLengthChecks
{
    // No cable with two connectors is shorter; 3.2 mm was to be 3.2 m.
    private static readonly Length Shortest = Length.FromMillimeters(30);

    // Nothing that leaves the hall is followed further: an antenna or a line may be far off, but a drum of cable is shorter than this.
    private static readonly Length Longest = Length.FromKilometers(20);

    // Crews leave loops, and reels of spare lie in trays: five times the route and a drum's rest above it is still honest.
    private const double MostTimesRoute = 5;
    private static readonly Length MostSpare = Length.FromMeters(20);

    // Where no route is known: ten times once along and once across the hall.
    private const double MostTimesHall = 10;

    // Routes follow centre lines of trays drawn to the nearest decimetre or so: a fifth, and a metre at both ends together, may be drawn.
    private const double LeastOfRoute = 0.8;
    private static readonly Length Drawn = Length.FromMeters(1);

    /// <summary>Compares all recorded lengths.</summary>
    /// <param name="layout">The as-found hall, set out; null where there is none.</param>
    /// <param name="paths">The routes as found.</param>
    /// <returns>Warnings AF1501 and AF1502, in <see cref="Diagnostic.Order"/>.</returns>
    public static ImmutableArray<Diagnostic> Check(ArchiveModel asFound, HallLayout? layout, AsFoundPaths paths) =>
        DiagnosticList.Collect(asFound.Cables
            .Where(cable => cable is { IsWithdrawn: false, Length: not null })
            .Select(WiredCable.AsSeen)
            .Select(wired => Judge(asFound, layout, paths.Of(wired), wired))
            .OfType<Diagnostic>());

    private static Diagnostic? Judge(ArchiveModel asFound, HallLayout? layout, AsFoundPath path, WiredCable wired)
    {
        var (cable, length) = (path.Cable, path.Cable.Length!.Value);
        if (length.Value < Shortest) return Unlikely(cable, "is shorter than any cable with two ends");
        if (path.Length is { } route && wired.Ends.Length == cable.Ends.Length)
        {
            if (length.Value + Drawn < route * LeastOfRoute) return TooShort(cable, $"its route as found is {Words(route)}");
            return length.Value > (route * MostTimesRoute) + MostSpare
                ? Unlikely(cable, $"is many times longer than its route as found, {Words(route)}")
                : null;
        }

        var frames = wired.Ends.Select(asFound.FrameAt);
        var places = frames.Select(frame => frame is null ? null : layout?.ByFrame.GetValueOrDefault(frame.Id)).ToList();
        if (layout is null || places.Count < 2 || places.Exists(place => place is null))
            return length.Value > Longest ? Unlikely(cable, "is longer than any drum of cable") : null;
        var apart = Length.FromMillimeters(places.Max(place => Apart(places[0]!, place!)));
        if (length.Value + Drawn < apart * LeastOfRoute) return TooShort(cable, $"the frames that it joins are {Words(apart)} apart");
        return Around(layout) is { } around && length.Value > around * MostTimesHall
            ? Unlikely(cable, $"is many times longer than hall `{layout.Hall.Id}`")
            : null;
    }

    private static Diagnostic Unlikely(Cable cable, string what) => DiagnosticDescriptors.LengthUnlikely.At(
        cable.Length!.Value.Span,
        $"cable `{cable.Id}` {what}",
        $"check the number and its unit; {AcceptedWarnings.Help(DiagnosticDescriptors.LengthUnlikely)}");

    private static Diagnostic TooShort(Cable cable, string what) => DiagnosticDescriptors.ShorterThanRoute.At(
        cable.Length!.Value.Span,
        $"cable `{cable.Id}` is {Words(cable.Length.Value.Value)} long, but {what}",
        $"check its length, its ends and `lies_in`; {AcceptedWarnings.Help(DiagnosticDescriptors.ShorterThanRoute)}");

    // Between the middles in plan, less what the frames themselves may shorten it by; millimetres.
    private static double Apart(PlacedFrame one, PlacedFrame other)
    {
        if (ReferenceEquals(one, other) || !one.IsCertain || !other.IsCertain) return 0;
        var (a, b) = (one.Footprint.Centre, other.Footprint.Centre);
        var between = Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));
        return Math.Max(0, between - HalfOf(one) - HalfOf(other));
    }

    private static double HalfOf(PlacedFrame placed) =>
        placed.Frame.Size is { Value: var size } ? (size.Width.Millimeters + size.Depth.Millimeters) / 2 : 0;

    private static Length? Around(HallLayout layout)
    {
        if (layout.Hall.Outline is not { } outline || HallScale.IsInMetres(outline)) return null;
        var (width, depth) = HallScale.Sides(outline);
        return Length.FromMillimeters(width + depth);
    }

    private static string Words(Length length) => new UnitFormatter(DisplayUnits.Metric).FormatComputed(length);
}

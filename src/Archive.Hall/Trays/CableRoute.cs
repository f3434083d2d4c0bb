using System.Collections.Immutable;
using Archive.Records;
using NetTopologySuite.LinearReferencing;

namespace Archive.Hall;

/// <summary>The way of a cable on the plan of the hall it lies in.</summary>
/// <param name="Layout">The hall, set out.</param>
/// <param name="Line">Its way; at least two points.</param>
/// <param name="FromFrame">Whether the way begins at the frame of its first end; else that end, or its place, is not known.</param>
/// <param name="ToFrame">Whether the way ends at the frame of its second end.</param>
public sealed record CableRoute(HallLayout Layout, ImmutableArray<PlanPoint> Line, bool FromFrame, bool ToFrame)
{
    /// <summary>Length in plan of what is drawn, in millimetres: rises and drops are not in it.</summary>
    public double LengthInPlan => Line.Zip(Line.Skip(1), (a, b) => new TrayMeeting(a, b).Gap).Sum();

    /// <summary>The way through trays in their order: straight from the frame's middle to the nearest point of the first, over where each meets the next, and down likewise.</summary>
    /// <param name="layout">The hall of the trays.</param>
    /// <param name="meetings">Where trays meet.</param>
    /// <param name="trays">The trays from the first end on.</param>
    /// <param name="first">The frame of the first end; null where it is not known.</param>
    /// <param name="second">The frame of the second end; null where it is not known.</param>
    /// <returns>The way, or null where there is none to draw: no trays, trays of another hall or without a meeting.</returns>
    public static CableRoute? Through(HallLayout layout, TrayMeetings meetings, ImmutableArray<Tray> trays, Frame? first, Frame? second)
    {
        if (trays.Length == 0 || !trays.All(layout.Has)) return null;
        var met = ImmutableArray.CreateBuilder<TrayMeeting>();
        for (var i = 1; i < trays.Length; i++)
        {
            if (meetings.Between(trays[i - 1], trays[i]) is not { } meeting) return null;
            met.Add(meeting);
        }

        var from = Middle(layout, first);
        var to = Middle(layout, second);
        var line = new List<PlanPoint>();
        if (from is { } start) line.Add(start);
        for (var i = 0; i < trays.Length; i++) line.AddRange(Along(trays[i], i > 0 ? met[i - 1].OnSecond : from, i < met.Count ? met[i].OnFirst : to));
        if (to is { } stop) line.Add(stop);
        var way = WithoutRepeats(line);
        return way.Length < 2 ? null : new CableRoute(layout, way, from is not null, to is not null);
    }

    private static PlanPoint? Middle(HallLayout layout, Frame? frame) =>
        frame is not null && layout.ByFrame.TryGetValue(frame.Id, out var standing) ? standing.Footprint.Centre : null;

    // The stretch of a tray between the points nearest to two others. Where one is not known the tray is shown only where the cable
    // is sure to pass; where neither is, along all its length.
    private static IEnumerable<PlanPoint> Along(Tray tray, PlanPoint? from, PlanPoint? to)
    {
        if ((from ?? to) is not { } known) return tray.Path;
        if (PlanFigure.Line(tray.Path) is not { } line) return [];
        var measure = new LengthIndexedLine(line);
        var start = measure.Project(PlanFigure.Of(from ?? known));
        var end = measure.Project(PlanFigure.Of(to ?? known));
        return measure.ExtractLine(start, end).Coordinates.Select(PlanFigure.Of);
    }

    private static ImmutableArray<PlanPoint> WithoutRepeats(List<PlanPoint> line) =>
        [.. line.Where((point, i) => i == 0 || new TrayMeeting(line[i - 1], point).Gap > 0.5)];
}

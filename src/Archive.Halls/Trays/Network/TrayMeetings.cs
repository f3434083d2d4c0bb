using System.Collections.Frozen;
using Archive.Halls.Layout;
using Archive.Records.Model;
using NetTopologySuite.Operation.Distance;

namespace Archive.Halls.Trays.Network;

/// <summary>Where the centre lines of two trays come nearest in plan.</summary>
/// <param name="OnFirst">The point on the first tray's line.</param>
/// <param name="OnSecond">The point on the second's.</param>
public readonly record struct TrayMeeting(PlanPoint OnFirst, PlanPoint OnSecond)
{
    /// <summary>Trays whose lines come within this of each other, in millimetres in plan, join.</summary>
    public const double Reach = 150;

    // Rounding in the last places must not part trays that are drawn exactly at the limit.
    private const double Rounding = 1e-6;

    /// <summary>Distance in plan between the lines, in millimetres.</summary>
    public double Gap =>
        Math.Sqrt(((OnFirst.X - OnSecond.X) * (OnFirst.X - OnSecond.X)) + ((OnFirst.Y - OnSecond.Y) * (OnFirst.Y - OnSecond.Y)));

    /// <summary>Whether a cable can pass from one to the other.</summary>
    public bool Joins => Gap <= Reach + Rounding;

    /// <summary>The same meeting seen from the other tray.</summary>
    internal TrayMeeting Turned => new(OnSecond, OnFirst);
}

/// <summary>The meetings of all trays that some cable passes between: each pair calculated once.</summary>
/// <remarks>Cost: linear in the entries of all <c>lies_in</c>, and for each pair that occurs n log n in the points of its paths.</remarks>
public sealed class TrayMeetings
{
    private readonly FrozenDictionary<(string Lesser, string Greater), TrayMeeting> _meetings;

    private TrayMeetings(FrozenDictionary<(string Lesser, string Greater), TrayMeeting> meetings) => _meetings = meetings;

    /// <summary>Works the meetings out for every two trays of one hall that stand next to each other in a <c>lies_in</c>.</summary>
    public static TrayMeetings Find(ArchiveModel asFound)
    {
        var meetings = new Dictionary<(string, string), TrayMeeting>();
        var indexes = new Dictionary<string, IndexedFacetDistance>(StringComparer.Ordinal);
        foreach (var cable in asFound.Cables)
        {
            for (var i = 1; i < cable.LiesIn.Length; i++)
            {
                if (asFound.Find<Tray>(cable.LiesIn[i - 1].Value) is not { } one
                    || asFound.Find<Tray>(cable.LiesIn[i].Value) is not { } other) continue;
                var (lesser, greater) = string.CompareOrdinal(one.Id, other.Id) <= 0 ? (one, other) : (other, one);
                if (lesser.Hall?.Value != greater.Hall?.Value || meetings.ContainsKey((lesser.Id, greater.Id))) continue;
                if (Meeting(lesser, greater, indexes) is { } meeting) meetings.Add((lesser.Id, greater.Id), meeting);
            }
        }

        return new TrayMeetings(meetings.ToFrozenDictionary());
    }

    /// <summary>Where two trays come nearest.</summary>
    /// <param name="second">The other.</param>
    /// <returns>The meeting, or null where they hang in different halls, have no path, or no cable passes between them.</returns>
    public TrayMeeting? Between(Tray first, Tray second)
    {
        var isInOrder = string.CompareOrdinal(first.Id, second.Id) <= 0;
        var key = isInOrder ? (first.Id, second.Id) : (second.Id, first.Id);
        if (!_meetings.TryGetValue(key, out var meeting)) return null;
        return isInOrder ? meeting : meeting.Turned;
    }

    private static TrayMeeting? Meeting(Tray first, Tray second, Dictionary<string, IndexedFacetDistance> indexes)
    {
        if (GeometryConversion.Line(first.Path) is not { } line || GeometryConversion.Line(second.Path) is not { } other) return null;
        if (!indexes.TryGetValue(first.Id, out var index)) indexes.Add(first.Id, index = new IndexedFacetDistance(line));
        return index.NearestPoints(other) is [var on, var onOther]
            ? new TrayMeeting(GeometryConversion.Convert(on), GeometryConversion.Convert(onOther))
            : null;
    }
}

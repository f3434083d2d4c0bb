using Archive.Halls.Layout;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.Halls.Trays;

/// <summary>Where a tray hangs, in words that someone in the hall can follow: above, behind or across rows.</summary>
public static class TrayPlace
{
    // Chosen for halls with aisles of a metre and more: a tray nearer than this to the side of a row belongs to the row.
    private const double Beside = 600;

    // A tray that crosses so near behind the last frame of a row passes its end.
    private const double PastEnd = 1500;

    // An end of a tray so near a row leads to it.
    private const double Leads = 1000;

    // A tray that shares so much of its length, or of the row's, runs along with the row.
    private const double Shared = 0.5;

    // The part of a row's depth that is its front or its rear.
    private const double Edge = 0.25;

    private const int MostNamed = 4;

    /// <summary>Where a tray hangs, such as <c>above row 3</c>; empty where it is near no row. Linear in the rows of its hall.</summary>
    /// <param name="layout">The hall it hangs in.</param>
    public static string Describe(HallLayout layout, Tray tray)
    {
        var path = tray.Path.Where(point => double.IsFinite(point.X) && double.IsFinite(point.Y)).ToList();
        if (path.Count < 2) return "";
        var (from, to) = path.Zip(path.Skip(1)).MaxBy(stretch => stretch.First.DistanceTo(stretch.Second));
        var lines = layout.Rows.Where(row => row.Extent is { IsFinite: true }).Select(row => new RowLine(row, from, to)).ToList();

        if (lines.Select(line => (line, line.Alongside())).Where(found => found.Item2.Word.Length > 0).ToList() is { Count: > 0 } along)
        {
            var (line, side) = along.MinBy(found => found.Item2.Away);
            return $"{side.Word} {line.Name}";
        }

        var across = lines.Select(line => (line.Name, Word: line.Crossing())).Where(found => found.Word.Length > 0).ToList();
        if (across.GroupBy(found => found.Word).MaxBy(group => group.Count()) is { } most)
        {
            var names = most.Select(found => found.Name).ToList();
            var where = names.Count > 1 ? most.Key.Replace(" end ", " ends ", StringComparison.Ordinal) : most.Key;
            return $"{where} {(names.Count > MostNamed ? Phrase.Count(names.Count, "row") : Phrase.Listed([.. names]))}";
        }

        var near = lines.Where(line => line.SharedLength <= 0)
            .Select(line => (line.Name, Away: Math.Min(line.DistanceTo(path[0]), line.DistanceTo(path[^1]))))
            .ToList();
        return near.Count > 0 && near.MinBy(found => found.Away) is { Away: <= Leads } nearest ? $"leading to {nearest.Name}" : "";
    }

    // A row and the longest straight stretch of a tray, in the row's own axes: u along the row, v across it.
    private sealed class RowLine(RowLayout row, PlanPoint from, PlanPoint to)
    {
        private readonly bool _isEastWest = row.Row.Runs.Value is Compass.East or Compass.West;

        public string Name => Phrase.Row(row.Row.Id.Value);

        private Footprint Extent => row.Extent!.Value;

        private (double From, double To) U => _isEastWest ? (Extent.West, Extent.East) : (Extent.North, Extent.South);

        private (double From, double To) V => _isEastWest ? (Extent.North, Extent.South) : (Extent.West, Extent.East);

        private (double U, double V) Of(PlanPoint point) => _isEastWest ? (point.X, point.Y) : (point.Y, point.X);

        private bool IsParallel => Math.Abs(Of(from).U - Of(to).U) >= Math.Abs(Of(from).V - Of(to).V);

        /// <summary>How much of the tray and of the row is side by side, in millimetres; none is 0 or less.</summary>
        public double SharedLength =>
            !IsParallel ? 0 : Math.Min(Math.Max(Of(from).U, Of(to).U), U.To) - Math.Max(Math.Min(Of(from).U, Of(to).U), U.From);

        /// <summary>On which side of the row the tray runs along with it, and how far from it; no word where it does not.</summary>
        public (string Word, double Away) Alongside()
        {
            var length = Math.Abs(Of(to).U - Of(from).U);
            if (!IsParallel || SharedLength < Shared * Math.Min(length, U.To - U.From)) return ("", 0);
            var v = (Of(from).V + Of(to).V) / 2;

            // The front is at the greater v where the row faces south or east.
            var fromRear = row.Row.Faces.Value is Compass.South or Compass.East ? v - V.From : V.To - v;
            var depth = V.To - V.From;
            return fromRear < 0 ? (fromRear >= -Beside ? "behind" : "", -fromRear)
                : fromRear > depth ? (fromRear <= depth + Beside ? "in front of" : "", fromRear - depth)
                : (fromRear < Edge * depth ? "above the rear of" : fromRear > (1 - Edge) * depth ? "above the front of" : "above", 0);
        }

        /// <summary>How the tray crosses the row's line; empty where it does not.</summary>
        public string Crossing()
        {
            var middle = (V.From + V.To) / 2;
            if (IsParallel || middle < Math.Min(Of(from).V, Of(to).V) || middle > Math.Max(Of(from).V, Of(to).V)) return "";
            var u = (Of(from).U + Of(to).U) / 2;
            return u < U.From - PastEnd || u > U.To + PastEnd ? ""
                : u < U.From ? $"past the {(_isEastWest ? "west" : "north")} end of"
                : u > U.To ? $"past the {(_isEastWest ? "east" : "south")} end of"
                : "across";
        }

        /// <summary>How far a point is from the row's frames.</summary>
        public double DistanceTo(PlanPoint point) => double.Hypot(
            Math.Max(0, Math.Max(Extent.West - point.X, point.X - Extent.East)),
            Math.Max(0, Math.Max(Extent.North - point.Y, point.Y - Extent.South)));
    }
}

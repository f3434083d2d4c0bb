using System.Collections.Immutable;
using Archive.LabelRecognition.Assignment;
using Archive.PhotoLabels.Grammars;
using Archive.PhotoLabels.Reading;
using Archive.Records.Model;

namespace Archive.PhotoLabels.Joining;

/// <summary>Lines side by side in one photo hang at ports side by side: so neighbours weigh the readings of each.</summary>
internal static class PhotoRows
{
    // How much of the smaller of two neighbours overlaps the other, seen along the row.
    private const double LeastOverlap = 0.5;

    /// <summary>The lines, with the probabilities of their readings weighed by the order of the declared ports.</summary>
    /// <returns>In the order of the lines.</returns>
    internal static List<LineInPhoto> Weighed(IReadOnlyList<LineInPhoto> lines, SchemeGrammars grammars)
    {
        var weighed = lines.ToList();
        var ports = grammars.Places.Ports;
        foreach (var photo in Enumerable.Range(0, lines.Count).GroupBy(at => lines[at].Photo.Id, StringComparer.Ordinal))
        {
            // A row runs from left to right; what is in none may stand in a column.
            var rows = Rows([.. photo], at => Across(lines[at].Box), at => Down(lines[at].Box));
            var single = rows.Where(row => row.Count == 1).Select(row => row[0]).ToList();
            var columns = Rows(single, at => Down(lines[at].Box), at => Across(lines[at].Box));
            foreach (var row in rows.Concat(columns).Where(row => row.Count > 1))
            {
                var probabilities = NeighbourOrder.Weigh([.. row.Select(at => ReadingsOf(lines[at].Line, grammars))], ports.Count);
                foreach (var (at, number) in row.Select((at, number) => (at, number)))
                    weighed[at] = lines[at] with { Line = With(lines[at].Line, probabilities[number]) };
            }
        }

        return weighed;
    }

    // Each line joins the nearest row whose last line it is beside.
    private static List<List<int>> Rows(
        IEnumerable<int> lines, Func<int, (double From, double To)> along, Func<int, (double From, double To)> across)
    {
        var rows = new List<List<int>>();
        foreach (var line in lines.OrderBy(line => along(line).From + along(line).To))
        {
            var row = rows.Where(row => IsBeside(across(row[^1]), across(line))).MaxBy(row => along(row[^1]).To);
            if (row is null) rows.Add([line]);
            else row.Add(line);
        }

        return rows;
    }

    private static bool IsBeside((double From, double To) one, (double From, double To) other) =>
        Math.Min(one.To, other.To) - Math.Max(one.From, other.From) >= LeastOverlap * Math.Min(one.To - one.From, other.To - other.From);

    private static (double From, double To) Across(ImageBox box) => (box.Left, box.Left + box.Width);

    private static (double From, double To) Down(ImageBox box) => (box.Top, box.Top + box.Height);

    private static ImmutableArray<RowReading> ReadingsOf(PhotoLine line, SchemeGrammars grammars) =>
        [.. line.Readings.Select(reading =>
        {
            var meaning = grammars.Schemes[reading.Scheme].Read(reading.Label, out _);
            // A tag hangs at the end that it names first; a label of a cable may hang at any that it names.
            var places = meaning is null ? [] : meaning.Scheme.IsForEnds ? meaning.Means.Take(1) : meaning.Means;
            return new RowReading(
                [.. places.Where(grammars.Places.Ports.ContainsKey).Select(place => grammars.Places.Ports[place])], reading.Probability);
        })];

    private static PhotoLine With(PhotoLine line, ImmutableArray<double> probabilities) => line with
    {
        Readings = [.. line.Readings.Zip(probabilities, (reading, probability) => reading with { Probability = probability })
            .OrderByDescending(reading => reading.Probability)],
    };
}

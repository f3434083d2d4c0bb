using System.Collections.Immutable;
using System.Globalization;
using Archive.LabelRecognition.Assignment;
using Archive.LabelRecognition.Readings;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>Sleeves at the ports of one shelf, from left to right as a photo shows them; each says both ends of its cable.</summary>
internal static class ShelfRow
{
    private const int Shelves = 94;
    private const int PortsOfShelf = 16;

    /// <summary>Sleeves of a machine in which shelves have all their ports; they are sorted.</summary>
    internal static LabelFamily Family { get; } = LabelFamily.Sleeve with
    {
        Name = "sleeves of a shelf",
        Ports = [.. LabelFamily.Sleeve.Ports.Select(port => port[..3]).DistinctBy(shelf => string.Join('/', shelf)).Take(Shelves)
            .OrderBy(shelf => string.Join('/', shelf), StringComparer.Ordinal)
            .SelectMany(shelf => Enumerable.Range(1, PortsOfShelf).Select(port =>
                shelf.Add(port.ToString("00", CultureInfo.InvariantCulture))))],
    };

    private static readonly ImmutableDictionary<string, int> PlaceOf =
        Family.Ports.Select((port, at) => (Name: $"{port[0]}{port[1]}-{port[2]}J{port[3]}", At: at))
            .ToImmutableDictionary(port => port.Name, port => port.At, StringComparer.Ordinal);

    /// <summary>Draws a row: some ports of a shelf are free, and from behind the ports run the other way.</summary>
    internal static List<LabelPicture> Draw(Typeface typeface, Wear wear, int count, int seed)
    {
        var random = new Random(seed);
        var first = random.Next(Shelves) * PortsOfShelf;
        var taken = Enumerable.Range(first, PortsOfShelf).OrderBy(_ => random.Next()).Take(count).Order().ToList();
        if (random.Next(2) == 0) taken.Reverse();
        return taken.ConvertAll(here =>
        {
            var there = random.Next(Family.Ports.Length);
            var ends = random.Next(2) == 0 ? (here, there) : (there, here);
            var says = Family.Write([[.. Family.Ports[ends.Item1]], [.. Family.Ports[ends.Item2]]]);
            return LabelPicture.Draw(Family, typeface, wear, random.Next(), says: says);
        });
    }

    /// <summary>What each line of a row says once its neighbours are looked at, best first.</summary>
    internal static List<ImmutableArray<EndReading>> Weighed(IReadOnlyList<RecognizedLine> row)
    {
        var weighed = NeighbourOrder.Weigh(
            [.. row.Select(line =>
                line.Best.Select(reading => new RowReading(PlacesOf(reading.Label), reading.Probability)).ToImmutableArray())],
            Family.Ports.Length);
        return [.. row.Select((line, at) => line.Best
            .Select((reading, number) => new EndReading(reading.Label, reading.Label, weighed[at][number]))
            .OrderByDescending(reading => reading.Probability)
            .ToImmutableArray())];
    }

    private static ImmutableArray<int> PlacesOf(string label) =>
        [.. label.Split(' ').Where(PlaceOf.ContainsKey).Select(end => PlaceOf[end])];
}

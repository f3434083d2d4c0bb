using System.Collections.Immutable;

namespace Archive.LabelRecognition.Assignment;

/// <summary>A label that one cable end may have, and the port that it then is in.</summary>
/// <param name="Label">The label, or whatever names the reading.</param>
/// <param name="Port">What holds one end only.</param>
/// <param name="Probability">Of the reading taken alone, from 0 to 1.</param>
public sealed record EndReading(string Label, string Port, double Probability);

/// <summary>What was photographed at one end: the photos of one sleeve together.</summary>
/// <param name="Id">Names it in the result.</param>
/// <param name="Readings">What it may say.</param>
public sealed record ReadEnd(string Id, ImmutableArray<EndReading> Readings);

/// <summary>What an end most likely is, once all ends are looked at together.</summary>
/// <param name="Id">The end.</param>
/// <param name="Reading">Null where it is more likely that the right label is none of its readings.</param>
public sealed record JointReading(string Id, EndReading? Reading)
{
    // No reading is impossible, and none is free.
    private const double Least = 1e-12;

    /// <summary>
    /// Chooses a reading for each end so that no port holds two, and the product of the probabilities is the greatest: min-cost matching
    /// over negative logarithms. An end may go without a reading, at the probability that its readings leave.
    /// </summary>
    /// <param name="ends">The ends; their probabilities add up to 1 at most.</param>
    /// <returns>In the order of the ends.</returns>
    public static ImmutableArray<JointReading> Choose(IReadOnlyList<ReadEnd> ends)
    {
        var portAt = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var reading in ends.SelectMany(end => end.Readings)) portAt.TryAdd(reading.Port, portAt.Count);
        // After the ports, each end has a column of its own for having none.
        var entries = ends.Select((end, at) => (IReadOnlyList<(int Column, double Cost)>)
            [.. end.Readings.Select(reading => (portAt[reading.Port], Cost(reading.Probability))),
                (portAt.Count + at, Cost(1 - end.Readings.Sum(reading => reading.Probability)))]).ToList();
        var columns = MinimumCostMatching.Find(entries, portAt.Count + ends.Count)!;
        return [.. ends.Select((end, at) => new JointReading(end.Id, columns[at] >= portAt.Count ? null : Best(end, columns[at])))];

        EndReading Best(ReadEnd end, int port) =>
            end.Readings.Where(reading => portAt[reading.Port] == port).MaxBy(reading => reading.Probability)!;
    }

    /// <summary>Joins the readings of photos of one sleeve: they are of the same label, and each is evidence by itself.</summary>
    /// <param name="photos">For each photo, what it may say.</param>
    /// <returns>Labels that a photo does not list share what its list leaves.</returns>
    public static ImmutableArray<EndReading> Join(IReadOnlyList<ImmutableArray<EndReading>> photos)
    {
        var labels = photos.SelectMany(readings => readings).DistinctBy(reading => reading.Label).ToList();
        var weights = labels.Select(label => photos.Sum(readings => -Cost(ProbabilityIn(readings, label.Label)))).ToList();
        var unlisted = photos.Sum(readings => -Cost(Left(readings)));
        var greatest = weights.Append(unlisted).Max();
        var all = weights.Append(unlisted).Sum(weight => Math.Exp(weight - greatest));
        return [.. labels.Select((label, at) => label with { Probability = Math.Exp(weights[at] - greatest) / all })
            .OrderByDescending(reading => reading.Probability)
            .ThenBy(reading => reading.Label, StringComparer.Ordinal)];

        static double ProbabilityIn(ImmutableArray<EndReading> readings, string label) =>
            readings.FirstOrDefault(reading => reading.Label == label)?.Probability ?? Left(readings);

        static double Left(ImmutableArray<EndReading> readings) => 1 - readings.Sum(reading => reading.Probability);
    }

    private static double Cost(double probability) => -Math.Log(Math.Max(probability, Least));
}

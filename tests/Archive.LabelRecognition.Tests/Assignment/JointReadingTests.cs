using System.Collections.Immutable;
using Archive.LabelRecognition.Assignment;
using CsCheck;
using Xunit;

namespace Archive.LabelRecognition.Tests.Assignment;

public class JointReadingTests
{
    // Rows with a few of seven columns, by costs of either sign, some the same.
    private static readonly Gen<(int Column, double Cost)[][]> Entries =
        Gen.Select(Gen.Int[0, 6], Gen.Int[-4, 9], (column, cost) => (column, cost / 2.0)).Array[0, 6].Array[0, 5];

    private static readonly Gen<ReadEnd[]> Ends =
        Gen.Select(Gen.Int[0, 4], Gen.Double[0.01, 1]).Array[1, 3].Array[1, 5].Select(ends => ends.Select((readings, at) =>
            new ReadEnd($"end{at}", [.. readings.DistinctBy(reading => reading.Item1)
                .Select(reading => new EndReading($"L{reading.Item1}", $"P{reading.Item1}", reading.Item2 / 3.1))])).ToArray());

    /// <summary>A worked example often printed with the Hungarian method; from memory. Its least cost is 400 + 350 + 200.</summary>
    [Fact]
    public void A_matching_of_the_textbooks()
    {
        double[][] costs = [[250, 400, 350], [400, 600, 350], [200, 400, 250]];
        var entries = costs.Select(row => (IReadOnlyList<(int, double)>)[.. row.Select((cost, column) => (column, cost))]).ToList();
        Assert.Equal([1, 2, 0], MinimumCostMatching.Find(entries, 3)!);
    }

    [Fact]
    public void No_other_matching_costs_less() =>
        Entries.Sample(entries =>
        {
            var found = MinimumCostMatching.Find(entries, 7);
            var expected = Cheapest(entries, 0, []);
            Assert.Equal(double.IsPositiveInfinity(expected), found is null);
            if (found is null) return;
            Assert.Equal(found.Length, found.Distinct().Count());
            var costs = entries.Zip(found).Select(row => row.First.Where(entry => entry.Column == row.Second).Min(entry => entry.Cost));
            Assert.Equal(expected, costs.Sum(), 9);
        }, iter: 3000);

    [Fact]
    public void No_port_holds_two_ends_and_no_other_choice_is_likelier() =>
        Ends.Sample(ends =>
        {
            var chosen = JointReading.Choose(ends);
            Assert.Equal(ends.Select(end => end.Id), chosen.Select(one => one.Id));
            var ports = chosen.Where(one => one.Reading is not null).Select(one => one.Reading!.Port).ToList();
            Assert.Equal(ports.Count, ports.Distinct().Count());
            var product = ends.Zip(chosen).Aggregate(1.0, (before, one) => before * Of(one.First, one.Second.Reading));
            Assert.Equal(1, product / Likeliest(ends, 0, []), 9);
        }, iter: 1000);

    [Fact]
    public void The_other_ends_decide_what_one_alone_cannot()
    {
        ReadEnd[] ends =
        [
            new("worn", [new("0104-05J08", "J08", 0.55), new("0104-05J03", "J03", 0.44)]),
            new("clear", [new("0104-05J08", "J08", 0.98)]),
        ];
        Assert.Equal(["J03", "J08"], JointReading.Choose(ends).Select(one => one.Reading!.Port));
    }

    [Fact]
    public void A_reading_is_given_up_where_none_is_likely() =>
        Assert.Null(JointReading.Choose([new("gone", [new("A", "1", 0.02), new("B", "2", 0.01)])]).Single().Reading);

    [Fact]
    public void Two_photos_of_a_sleeve_are_surer_than_one()
    {
        ImmutableArray<EndReading> one = [new("A8", "8", 0.6), new("A3", "3", 0.3)];
        var joined = JointReading.Join([one, one]);
        // 0.36, 0.09, and 0.01 for all others.
        Assert.Equal(["A8", "A3"], joined.Select(reading => reading.Label));
        Assert.Equal(0.36 / 0.46, joined[0].Probability, 9);
        Assert.Equal(0.09 / 0.46, joined[1].Probability, 9);
        Assert.Equal(0.6, JointReading.Join([one])[0].Probability, 9);
    }

    private static double Of(ReadEnd end, EndReading? reading) =>
        reading?.Probability ?? 1 - end.Readings.Sum(other => other.Probability);

    private static double Likeliest(ReadEnd[] ends, int at, ImmutableHashSet<string> taken) =>
        at == ends.Length ? 1 : ends[at].Readings.Where(reading => !taken.Contains(reading.Port))
            .Select(reading => reading.Probability * Likeliest(ends, at + 1, taken.Add(reading.Port)))
            .Append(Of(ends[at], null) * Likeliest(ends, at + 1, taken))
            .Max();

    private static double Cheapest((int Column, double Cost)[][] entries, int at, ImmutableHashSet<int> taken) =>
        at == entries.Length ? 0 : entries[at].Where(entry => !taken.Contains(entry.Column))
            .Select(entry => entry.Cost + Cheapest(entries, at + 1, taken.Add(entry.Column)))
            .DefaultIfEmpty(double.PositiveInfinity)
            .Min();
}

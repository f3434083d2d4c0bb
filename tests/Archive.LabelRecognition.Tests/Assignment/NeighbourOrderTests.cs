using System.Collections.Immutable;
using Archive.LabelRecognition.Assignment;
using CsCheck;
using Xunit;

namespace Archive.LabelRecognition.Tests.Assignment;

public sealed class NeighbourOrderTests
{
    private const int Places = 40;

    private static readonly Gen<ImmutableArray<RowReading>[]> Rows =
        Gen.Select(Gen.Int[0, Places - 1].Array[0, 2], Gen.Double[0.01, 0.33]).Array[1, 3]
            .Select(readings => readings.Select(one => new RowReading([.. one.Item1], one.Item2)).ToImmutableArray())
            .Array[1, 4];

    /// <summary>All that a row may say, one by one: what the two passes sum up.</summary>
    [Fact]
    public void It_is_the_sum_over_all_that_the_row_may_say() =>
        Rows.Sample(row =>
        {
            var sums = row.Select(readings => new double[readings.Length]).ToArray();
            var all = 0.0;
            foreach (var (step, prior) in new[] { (1, 0.25), (-1, 0.25), (0, 0.5) }) Walk(0, null, prior, [], step);
            var found = NeighbourOrder.Weigh(row, Places);
            for (var at = 0; at < row.Length; at++)
            {
                var listed = row[at].Sum(reading => reading.Probability);
                Assert.All(sums[at].Zip(found[at]), pair => Assert.Equal(listed * pair.First / all, pair.Second, 9));
            }

            void Walk(int at, int? before, double weight, ImmutableList<int> chosen, int step)
            {
                if (at == row.Length)
                {
                    all += weight;
                    for (var line = 0; line < row.Length; line++) sums[line][chosen[line]] += weight;
                    return;
                }

                for (var reading = 0; reading < row[at].Length; reading++)
                {
                    var places = row[at][reading].Places;
                    var probability = row[at][reading].Probability / row[at].Sum(one => one.Probability);
                    if (places.IsEmpty) Walk(at + 1, null, weight * probability, chosen.Add(reading), step);
                    foreach (var place in places)
                    {
                        var by = before is { } from ? (place - from) * step : 0;
                        var beside = before is null || step == 0 ? 1 : by > 0 ? 0.1 + (0.9 * Places / (by * (by + 1))) : 0.1;
                        Walk(at + 1, place, weight * probability / places.Length * beside, chosen.Add(reading), step);
                    }
                }
            }
        }, iter: 300);

    [Theory]
    [InlineData(4, 5, 6)]
    [InlineData(6, 5, 4)]
    public void Neighbours_decide_between_two_readings_that_are_alike(int before, int there, int after)
    {
        var found = NeighbourOrder.Weigh(
            [
                [new RowReading([before], 0.99)],
                [new RowReading([there, 700], 0.4), new RowReading([90, 700], 0.5)],
                [new RowReading([after], 0.99)],
            ],
            1000);
        Assert.InRange(found[1][0], 0.89, 0.9);
    }

    [Fact]
    public void A_clear_reading_out_of_order_stays()
    {
        var found = NeighbourOrder.Weigh(
            [
                [new RowReading([4], 0.9999)],
                [new RowReading([900], 0.99999), new RowReading([5], 0.000001)],
                [new RowReading([6], 0.9999)],
            ],
            1000);
        Assert.InRange(found[1][0], 0.8, 1);
    }
}

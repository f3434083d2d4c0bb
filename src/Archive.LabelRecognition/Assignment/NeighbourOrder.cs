using System.Collections.Immutable;

namespace Archive.LabelRecognition.Assignment;

/// <summary>What a line in a row of lines may say.</summary>
/// <param name="Places">
/// The declared places that it may hang at, as their numbers where places are sorted: one for each end that the label names; none where
/// the label means no declared place.
/// </param>
/// <param name="Probability">Of the reading taken alone, from 0 to 1.</param>
public sealed record RowReading(ImmutableArray<int> Places, double Probability);

/// <summary>
/// Weighs the readings of lines that hang side by side: along a row of ports the places rise, or fall, mostly by small steps. Exact: the
/// forward and backward passes over the row (Rabiner, A tutorial on hidden Markov models, 1989), for each of three rows it may be: rising,
/// falling, or in no order.
/// </summary>
public static class NeighbourOrder
{
    // How likely a row is in no order, and how likely two neighbours of a row in order are not. Ours; the README says what it adds.
    private const double Unordered = 0.5;
    private const double Broken = 0.1;

    /// <summary>Weighs them.</summary>
    /// <param name="row">For each line, from one end of the row to the other, what it may say. Probabilities add up to 1 at most.</param>
    /// <param name="places">Number of declared places.</param>
    /// <returns>
    /// The probabilities of the readings, in the same order, as their neighbours leave them. That a line says none of its readings stays as
    /// likely as it was: such a label may be in order too.
    /// </returns>
    public static ImmutableArray<ImmutableArray<double>> Weigh(IReadOnlyList<ImmutableArray<RowReading>> row, int places)
    {
        var states = row.Select(StatesOf).ToList();
        var orders = new[] { (Step: 1, Prior: (1 - Unordered) / 2), (Step: -1, Prior: (1 - Unordered) / 2), (Step: 0, Prior: Unordered) }
            .Select(order => (order.Prior, Chain: Chain(states, order.Step, places)))
            .ToList();
        var most = orders.Max(order => order.Chain.LogLikelihood);
        var weights = orders.ConvertAll(order => order.Prior * Math.Exp(order.Chain.LogLikelihood - most));
        var sum = weights.Sum();
        return [.. row.Select((readings, at) => readings.Select((_, reading) => Listed(readings)
            * orders.Zip(weights, (order, weight) => weight / sum
                * states[at].Select((state, number) => state.Reading == reading ? order.Chain.Posteriors[at][number] : 0).Sum()).Sum())
            .ToImmutableArray())];
    }

    private static double Listed(ImmutableArray<RowReading> readings) => readings.Sum(reading => reading.Probability);

    // Each reading at each of its places.
    private static List<State> StatesOf(ImmutableArray<RowReading> readings) => Listed(readings) <= 0
        ? [new State(-1, null, 1)]
        : [.. readings.SelectMany((reading, at) => reading.Places.IsEmpty
            ? [new State(at, null, reading.Probability / Listed(readings))]
            : reading.Places.Select(place => new State(at, place, reading.Probability / Listed(readings) / reading.Places.Length)))];

    private static (double LogLikelihood, double[][] Posteriors) Chain(List<List<State>> states, int step, int places)
    {
        var forward = new double[states.Count][];
        var backward = new double[states.Count][];
        var logLikelihood = 0.0;
        for (var at = 0; at < states.Count; at++)
        {
            forward[at] = [.. states[at].Select(state => state.Probability * (at == 0
                ? 1
                : states[at - 1].Select((before, number) => forward[at - 1][number] * Weight(before, state, step, places)).Sum()))];
            logLikelihood += Math.Log(Scaled(forward[at]));
        }

        for (var at = states.Count - 1; at >= 0; at--)
        {
            backward[at] = [.. states[at].Select(state => at + 1 == states.Count
                ? 1
                : states[at + 1].Select((after, number) =>
                    after.Probability * backward[at + 1][number] * Weight(state, after, step, places)).Sum())];
            Scaled(backward[at]);
        }

        var posteriors = forward.Zip(backward, (before, after) => before.Zip(after, (one, other) => one * other).ToArray()).ToArray();
        foreach (var posterior in posteriors) Scaled(posterior);
        return (logLikelihood, posteriors);
    }

    // How much more likely the second place is beside the first than anywhere: steps of n have the probability 1/(n(n+1)), whose sum is 1.
    private static double Weight(State before, State after, int step, int places)
    {
        if (step == 0 || before.Place is not { } from || after.Place is not { } to) return 1;
        var by = (to - from) * step;
        return Broken + (by > 0 ? (1 - Broken) * places / (by * (by + 1.0)) : 0);
    }

    private static double Scaled(double[] values)
    {
        var sum = values.Sum();
        for (var at = 0; at < values.Length; at++) values[at] /= sum;
        return sum;
    }

    private readonly record struct State(int Reading, int? Place, double Probability);
}

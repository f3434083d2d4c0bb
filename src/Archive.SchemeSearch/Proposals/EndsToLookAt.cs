using System.Collections.Immutable;

namespace Archive.SchemeSearch.Proposals;

/// <summary>A cable to go and look at.</summary>
/// <param name="Label">As typed.</param>
/// <param name="Predictions">What each proposal expects, in their order; empty where it expects nothing.</param>
/// <param name="Bits">How much it is expected to tell about which proposal is right (Shannon's entropy of the answers).</param>
public sealed record EndToLookAt(string Label, ImmutableArray<ImmutableArray<string>> Predictions, double Bits);

/// <summary>Chooses cables whose ends decide between proposals, one after the other, each given the answers to those before.</summary>
internal static class EndsToLookAt
{
    private const double Least = 1e-3;

    /// <param name="proposals">Shortest first.</param>
    /// <param name="listed">Of how many the predictions are given.</param>
    /// <param name="count">How many cables.</param>
    internal static ImmutableArray<EndToLookAt> Choose(ImmutableArray<SchemeCandidate> proposals, int listed, int count, SearchData data)
    {
        if (proposals.IsEmpty) return [];
        // A proposal may be better than the measure knows: none counts for less than a thousandth.
        var weights = proposals.Select(scheme => Math.Max(Least, Math.Pow(2, proposals[0].Bits - scheme.Bits))).ToArray();
        var asked = new int[proposals.Length];
        var chosen = ImmutableArray.CreateBuilder<EndToLookAt>();
        var open = Enumerable.Range(0, data.Labels.Length).Where(label => data.Seen[label].Length < 2).ToHashSet();
        var rarity = Rarity(proposals[0]);
        while (chosen.Count < count && open.Count > 0)
        {
            var best = open
                .Select(label => (Label: label, Bits: Entropy(Parts(label, asked, proposals), weights) - Entropy(asked, weights)))
                .OrderByDescending(label => Math.Round(label.Bits, 9))
                .ThenByDescending(label => rarity[label.Label])
                .ThenBy(label => label.Label)
                .First();
            open.Remove(best.Label);
            asked = Parts(best.Label, asked, proposals);
            chosen.Add(new EndToLookAt(
                data.Labels[best.Label].Text,
                [.. proposals.Take(listed).Select(scheme => Addresses(scheme.Meanings[best.Label]))],
                Math.Max(0, best.Bits)));
        }

        return chosen.ToImmutable();

        ImmutableArray<string> Addresses(ImmutableArray<int> ports) => [.. ports.Select(port => data.Catalog.Ports[port].Address)];
    }

    // Proposals that the answers would still not separate have the same number.
    private static int[] Parts(int label, int[] asked, ImmutableArray<SchemeCandidate> proposals)
    {
        var parts = new Dictionary<(int, int, int), int>();
        return
        [
            .. proposals.Select((scheme, at) =>
            {
                var means = scheme.Meanings[label];
                var (low, high) = means.IsEmpty ? (-1, -1) : (means.Min(), means.Max());
                var key = (asked[at], low, high);
                if (!parts.TryGetValue(key, out var part)) parts[key] = part = parts.Count;
                return part;
            }),
        ];
    }

    private static double Entropy(int[] parts, double[] weights)
    {
        var total = weights.Sum();
        return parts.Zip(weights)
            .GroupBy(pair => pair.First, pair => pair.Second)
            .Select(group => group.Sum() / total)
            .Sum(share => -share * Math.Log2(share));
    }

    // A cable whose text in the table is on few others tests the table best; where nothing is in dispute, any explained one will do.
    private static int[] Rarity(SchemeCandidate scheme)
    {
        var rarity = new int[scheme.Meanings.Length];
        var cut = CutLabel.Cut(scheme.Form);
        var texts = cut.Where(label => !scheme.Meanings[label.Label].IsEmpty)
            .Select(label => (label.Label, Texts: label.Ends.OfType<string[]>().Select(Text).ToList()))
            .ToList();
        var counts = texts.SelectMany(label => label.Texts).GroupBy(text => text, StringComparer.Ordinal)
            .ToDictionary(group => group.Key, group => group.Count(), StringComparer.Ordinal);
        foreach (var (label, own) in texts) rarity[label] = texts.Count * 2 - own.Min(text => counts[text]) + 1;
        return rarity;

        string Text(string[] groups) => (scheme.Learned, EndText.From(groups, scheme.Fields)) switch
        {
            (Structures.Field.Shelf, var end) => end.Shelf,
            (Structures.Field.Term, var end) => end.Term,
            (_, var end) => end.Row,
        };
    }
}

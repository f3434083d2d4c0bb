using System.Collections.Immutable;
using Archive.SchemeSearch.Labels;

namespace Archive.SchemeSearch.Lengths;

/// <summary>The null model: labels written out letter by letter, by how often each letter is used.</summary>
/// <remarks>
/// Two-part code lengths in bits (Rissanen, "Modeling by shortest data description", Automatica 14, 1978; Grünwald, "The Minimum
/// Description Length Principle", 2007): letters by their estimated frequency (Krichevsky and Trofimov's half), and half a logarithm
/// of the number of observations for each free frequency, and the names of the letters used. The shorter of two codes is taken: one
/// frequency for the whole text, or one for each place of labels of one length. So a scheme must beat what can be gained by knowing
/// what stands in which column.
/// </remarks>
internal sealed class LetterModel
{
    private readonly double _perLetter;

    private LetterModel(IReadOnlyList<TypedLabel> labels, Func<string, int, (int, int)> context)
    {
        var counts = new Dictionary<(int, int), Dictionary<char, int>>();
        foreach (var label in labels)
        {
            for (var at = 0; at < label.Text.Length; at++)
            {
                var key = context(label.Text, at);
                if (!counts.TryGetValue(key, out var letters)) counts[key] = letters = [];
                letters[label.Text[at]] = letters.GetValueOrDefault(label.Text[at]) + 1;
            }
        }

        var totals = counts.ToDictionary(pair => pair.Key, pair => pair.Value.Values.Sum());
        _perLetter = Math.Log2(Math.Max(2, counts.Values.SelectMany(letters => letters.Keys).Distinct().Count()));
        Frequencies = counts.Sum(pair => ((pair.Value.Count - 1) / 2.0 * Math.Log2(totals[pair.Key])) + (pair.Value.Count * _perLetter));
        Labels =
        [
            .. labels.Select(label => Enumerable.Range(0, label.Text.Length).Sum(at =>
            {
                var key = context(label.Text, at);
                var letters = counts[key];
                return Math.Log2((totals[key] + (letters.Count / 2.0)) / (letters[label.Text[at]] + 0.5));
            })),
        ];
    }

    /// <summary>Bits of the frequencies; they are needed once, for one label or for all.</summary>
    internal double Frequencies { get; }

    /// <summary>Bits of each label, once the frequencies are known.</summary>
    internal ImmutableArray<double> Labels { get; }

    /// <summary>Bits of all labels.</summary>
    internal double Total => Frequencies + Labels.Sum();

    internal static LetterModel Create(IReadOnlyList<TypedLabel> labels)
    {
        var whole = new LetterModel(labels, (_, _) => (0, 0));
        var columns = new LetterModel(labels, (text, at) => (text.Length, at));
        return whole.Total <= columns.Total ? whole : columns;
    }

    /// <summary>Bits of some of the labels: with the frequencies, or, where they are few, without.</summary>
    /// <param name="bits">Sum of their <see cref="Labels"/>.</param>
    /// <param name="letters">Sum of their lengths.</param>
    internal double Rest(double bits, int letters) => letters == 0 ? 0 : Math.Min(Frequencies + bits, letters * _perLetter);
}

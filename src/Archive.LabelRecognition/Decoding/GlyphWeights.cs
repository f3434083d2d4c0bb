using System.Collections.Immutable;

namespace Archive.LabelRecognition.Decoding;

/// <summary>How well what a recogniser sees speaks for each character that may be printed.</summary>
/// <remarks>
/// A recogniser of all writing reads O for 0 and c for C. A character has the probability of its own class, and a share of the classes of
/// those that it is confused with.
/// </remarks>
public sealed class GlyphWeights
{
    /// <summary>Share of a class that the scheme says a character is mistaken for.</summary>
    public const double Confused = 0.3;

    /// <summary>Share of the same letter in the other case.</summary>
    public const double OtherCase = 0.3;

    /// <summary>Share of an empty frame that may be a space: recognisers leave spaces out.</summary>
    public const double Unprinted = 0.05;

    // No character of a frame is less likely than this: a recogniser can be quite sure, and wrong.
    private const double Least = 1e-9;

    private readonly ImmutableArray<ImmutableArray<(int Class, double Share)>> _shares;

    private GlyphWeights(ImmutableArray<ImmutableArray<(int Class, double Share)>> shares) => _shares = shares;

    /// <summary>Weighs the classes of a recogniser.</summary>
    /// <param name="glyphs">The characters of an automaton.</param>
    /// <param name="classes">What each class of the recogniser stands for; class <see cref="CtcFrames.Blank"/> for nothing.</param>
    /// <param name="confusions">Sets of characters that are mistaken for each other, such as <c>O0</c>.</param>
    public static GlyphWeights From(
        ImmutableArray<char> glyphs, IReadOnlyList<string> classes, params IReadOnlyCollection<string> confusions)
    {
        var classOf = new Dictionary<char, int>();
        for (var at = 1; at < classes.Count; at++)
        {
            if (classes[at] is [var only]) classOf.TryAdd(only, at);
        }

        return new GlyphWeights([.. glyphs.Select(SharesOf)]);

        ImmutableArray<(int Class, double Share)> SharesOf(char glyph)
        {
            var shares = new SortedDictionary<int, double>();
            if (glyph == ' ') shares[CtcFrames.Blank] = Unprinted;
            foreach (var other in CasesOf(glyph)) Add(other, OtherCase);
            foreach (var confused in confusions.Where(set => set.Contains(glyph, StringComparison.Ordinal)).SelectMany(set => set))
                Add(confused, Confused);
            Add(glyph, 1);
            return [.. shares.Select(share => (share.Key, share.Value))];

            void Add(char other, double share)
            {
                if (classOf.TryGetValue(other, out var at)) shares[at] = share;
            }
        }
    }

    /// <summary>The likelihood of each character in one frame.</summary>
    /// <param name="probabilities">The probability of each class.</param>
    /// <param name="likelihoods">Room for one number a character.</param>
    internal void Weigh(ReadOnlySpan<float> probabilities, Span<double> likelihoods)
    {
        for (var glyph = 0; glyph < likelihoods.Length; glyph++)
        {
            double sum = 0;
            foreach (var (at, share) in _shares[glyph]) sum += probabilities[at] * share;
            likelihoods[glyph] = Math.Max(sum, Least);
        }
    }

    private static IEnumerable<char> CasesOf(char glyph) =>
        [char.ToUpperInvariant(glyph), char.ToLowerInvariant(glyph)];
}

using System.Collections.Immutable;

namespace Archive.SchemeSearch.Structures;

/// <summary>Every way in which a stretch of a label can be cut into pieces.</summary>
internal static class ChunkForms
{
    internal const int WidestPiece = 4;
    internal const int MostPieces = 4;
    private const double Usual = 0.8;

    /// <param name="texts">The stretch as it is in each label.</param>
    internal static ImmutableArray<ImmutableArray<LabelPiece>> Of(IReadOnlyList<string> texts)
    {
        var usual = texts.GroupBy(KindsOf, StringComparer.Ordinal)
            .OrderByDescending(group => group.Count())
            .ThenBy(group => group.Key, StringComparer.Ordinal)
            .First();
        var runs = usual.Select(RunsOf).ToList();
        var forms = new List<ImmutableArray<LabelPiece>> { ImmutableArray<LabelPiece>.Empty };
        for (var run = 0; run < usual.Key.Length; run++)
        {
            var choices = Choices(usual.Key[run], [.. runs.Select(label => label[run])]);
            forms = [.. forms.SelectMany(form => choices.Select(choice => form.AddRange(choice)))
                .Where(form => form.Count(piece => piece.IsGroup) <= MostPieces)];
        }

        forms.AddRange(Merged(texts));
        return [.. forms];
    }

    private static List<ImmutableArray<LabelPiece>> Choices(char kind, List<string> texts)
    {
        var (text, width) = (Mode(texts), Mode(texts.Select(text => text.Length)));
        if (kind == 'L')
        {
            if (text.Count >= Usual * texts.Count) return [[Constant(text.Value)]];
            return width.Count >= Usual * texts.Count
                ? [[Letters(width.Value)], .. WithConstant([.. texts.Where(run => run.Length == width.Value)], width.Value)]
                : [[Letters(0)]];
        }

        if (width.Count >= Usual * texts.Count)
        {
            var cuts = Cuts(width.Value).Select(cut => cut.Select(Figures).ToImmutableArray());
            return width.Count == texts.Count ? [.. cuts] : [[Figures(0)], .. cuts];
        }

        var forms = new List<ImmutableArray<LabelPiece>> { ImmutableArray.Create(Figures(0)) };
        for (var fixedWidth = 1; fixedWidth <= 2; fixedWidth++)
        {
            forms.Add([Figures(fixedWidth), Figures(0)]);
            forms.Add([Figures(0), Figures(fixedWidth)]);
        }

        return forms;
    }

    // Letters of which the first or the last are always the same, as in AJ, BJ, CJ.
    private static IEnumerable<ImmutableArray<LabelPiece>> WithConstant(List<string> texts, int width)
    {
        for (var length = 1; length < width; length++)
        {
            var (first, last) = (Mode(texts.Select(text => text[..length])), Mode(texts.Select(text => text[^length..])));
            if (first.Count >= Usual * texts.Count) yield return [Constant(first.Value), Letters(width - length)];
            if (last.Count >= Usual * texts.Count) yield return [Letters(width - length), Constant(last.Value)];
        }
    }

    // Letters and figures as one piece, the rest figures: R205 and PW03 are R2, PW and two figures.
    private static IEnumerable<ImmutableArray<LabelPiece>> Merged(IReadOnlyList<string> texts)
    {
        if (!texts.Any(text => text.Any(char.IsLetter)) || !texts.Any(text => text.Any(char.IsAsciiDigit))) yield break;
        var width = Mode(texts.Select(text => text.Length));
        if (width.Count < Usual * texts.Count) yield break;
        for (var first = 1; first < width.Value && first <= WidestPiece; first++)
        {
            var rest = texts.Where(text => text.Length == width.Value).Count(text => text.Skip(first).All(char.IsAsciiDigit));
            if (rest < Usual * texts.Count) continue;
            foreach (var cut in Cuts(width.Value - first)) yield return [new LabelPiece(GlyphKind.Both, first, ""), .. cut.Select(Figures)];
        }
    }

    private static IEnumerable<ImmutableArray<int>> Cuts(int width)
    {
        if (width == 0)
        {
            yield return [];
            yield break;
        }

        for (var first = 1; first <= Math.Min(width, WidestPiece); first++)
        {
            foreach (var rest in Cuts(width - first))
            {
                if (rest.Length < MostPieces) yield return [first, .. rest];
            }
        }
    }

    private static LabelPiece Constant(string text) => new(GlyphKind.Constant, text.Length, text);

    private static LabelPiece Letters(int width) => new(GlyphKind.Letters, width, "");

    private static LabelPiece Figures(int width) => new(GlyphKind.Figures, width, "");

    private static (T Value, int Count) Mode<T>(IEnumerable<T> values) where T : notnull
    {
        var most = values.GroupBy(value => value).OrderByDescending(group => group.Count()).ThenBy(group => group.Key).First();
        return (most.Key, most.Count());
    }

    private static string KindsOf(string text) => string.Concat(RunsOf(text).Select(run => char.IsAsciiDigit(run[0]) ? 'D' : 'L'));

    private static List<string> RunsOf(string text)
    {
        var runs = new List<string>();
        for (var at = 0; at < text.Length;)
        {
            var start = at;
            while (at < text.Length && char.IsAsciiDigit(text[at]) == char.IsAsciiDigit(text[start])) at++;
            runs.Add(text[start..at]);
        }

        return runs;
    }
}

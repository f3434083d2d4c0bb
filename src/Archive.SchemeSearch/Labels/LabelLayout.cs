using System.Collections.Immutable;

namespace Archive.SchemeSearch.Labels;

/// <summary>A stretch in a layout: which end it is of, the how-manieth of that end, and what separates it from the next.</summary>
internal readonly record struct LayoutPart(int End, int Index, string Separator);

/// <summary>How the stretches of a label are divided between its ends.</summary>
/// <param name="Name">In words, for people.</param>
/// <param name="Ends">One or two.</param>
/// <param name="Parts">In the order of the label.</param>
/// <param name="Labels">Each label's stretches, by end.</param>
internal sealed record LabelLayout(
    string Name,
    int Ends,
    ImmutableArray<LayoutPart> Parts,
    ImmutableArray<(int Label, ImmutableArray<ImmutableArray<string>> Ends)> Labels)
{
    /// <summary>All layouts of a group: one place; two places, one after the other; divided in the middle of a stretch; two lines that
    /// both say something of each end.</summary>
    internal static IEnumerable<LabelLayout> Of(LabelGroup group)
    {
        var count = group.Separators.Length;
        yield return Arranged(group, "one place", 1, [.. group.Separators.Select((separator, at) => new LayoutPart(0, at, separator))]);
        if (count % 2 == 0 && IsTwice(group.Separators, 0, count))
            yield return Arranged(group, "two places, one after the other", 2, [.. Halves(group.Separators, 0, count, 0)]);
        if (count % 2 == 1 && Divided(group) is { } divided) yield return divided;
        for (var line = 2; line < count; line += 2)
        {
            if ((count - line) % 2 != 0 || !group.Separators[line - 1].Contains('\n', StringComparison.Ordinal)) continue;
            if (!IsTwice(group.Separators, 0, line) || !IsTwice(group.Separators, line, count)) continue;
            yield return Arranged(
                group,
                "two lines, each with a part of both places",
                2,
                [.. Halves(group.Separators, 0, line, 0), .. Halves(group.Separators, line, count, line / 2)]);
        }
    }

    private static bool IsTwice(ImmutableArray<string> separators, int from, int to)
    {
        var half = (to - from) / 2;
        return Enumerable.Range(from, half - 1).All(at => separators[at] == separators[at + half]);
    }

    private static IEnumerable<LayoutPart> Halves(ImmutableArray<string> separators, int from, int to, int index)
    {
        var half = (to - from) / 2;
        return Enumerable.Range(from, to - from)
            .Select(at => new LayoutPart((at - from) / half, index + ((at - from) % half), separators[at]));
    }

    private static LabelLayout Arranged(LabelGroup group, string name, int ends, ImmutableArray<LayoutPart> parts) =>
        new(name, ends, parts, [.. group.Members.Select(member => (member.Label, ByEnd(member.Chunks, ends, parts)))]);

    private static ImmutableArray<ImmutableArray<string>> ByEnd(ImmutableArray<Chunk> chunks, int ends, ImmutableArray<LayoutPart> parts) =>
    [
        .. Enumerable.Range(0, ends).Select(end => parts
            .Select((part, at) => (part, chunks[at].Text))
            .Where(pair => pair.part.End == end)
            .OrderBy(pair => pair.part.Index)
            .Select(pair => pair.Text)
            .ToImmutableArray())
    ];

    // Nothing stands between the two places: both halves are of one length.
    private static LabelLayout? Divided(LabelGroup group)
    {
        var middle = group.Separators.Length / 2;
        if (Enumerable.Range(0, middle).Any(at => group.Separators[at] != group.Separators[middle + at])) return null;
        var parts = Enumerable.Range(0, middle + 1).Select(at => new LayoutPart(0, at, at == middle ? "" : group.Separators[at]))
            .Concat(Enumerable.Range(0, middle + 1).Select(at => new LayoutPart(1, at, group.Separators[middle + at])));
        var labels = group.Members.Select(member => (member.Label, Ends: DividedChunks(member.Chunks, middle)))
            .Where(member => !member.Ends.IsEmpty)
            .ToImmutableArray();
        return labels.Length == 0 ? null : new LabelLayout("two places with nothing between", 2, [.. parts], labels);
    }

    private static ImmutableArray<ImmutableArray<string>> DividedChunks(ImmutableArray<Chunk> chunks, int middle)
    {
        var length = chunks.Sum(chunk => chunk.Text.Length + chunk.Separator.Length);
        var before = chunks.Take(middle).Sum(chunk => chunk.Text.Length + chunk.Separator.Length);
        var (text, cut) = (chunks[middle].Text, (length / 2) - before);
        if (length % 2 != 0 || cut <= 0 || cut >= text.Length) return [];
        return
        [
            [.. chunks.Take(middle).Select(chunk => chunk.Text), text[..cut]],
            [text[cut..], .. chunks.Skip(middle + 1).Select(chunk => chunk.Text)],
        ];
    }
}

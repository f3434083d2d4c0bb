using System.Collections.Immutable;
using Archive.SchemeSearch.Structures;

namespace Archive.SchemeSearch.Proposals;

/// <summary>The description length of labels with a scheme: the scheme, then each label by its ends, or letter by letter.</summary>
internal static class CandidateLength
{
    private const double LetterOfPattern = 6;

    /// <param name="space">Bits that say which scheme of the space it is.</param>
    internal static SchemeCandidate Measure(SchemeCandidate scheme, CutLabel[] cut, double space, SearchData data)
    {
        var reachable = Math.Log2(Math.Max(2, Reachable(scheme, cut, data)));
        var means = new ImmutableArray<int>[data.Labels.Length];
        Array.Fill(means, []);
        var misread = ImmutableArray.CreateBuilder<(char, char)>();
        var (asTyped, corrected, read, bits) = (0, 0, 0, space + OfScheme(scheme, cut, data));
        Span<int> ports = stackalloc int[2];
        foreach (var label in cut)
        {
            var ends = scheme.Form.Layout.Ends;
            var isRead = true;
            for (var end = 0; end < ends && isRead; end++)
            {
                ports[end] = label.Ends[end] is { } groups ? scheme.Find(EndText.From(groups, scheme.Fields), data.Catalog) : -1;
                isRead = ports[end] >= 0;
            }

            data.Work += ends;
            if (label.Ends.All(end => end is not null)) read++;
            if (!isRead) continue;
            var meant = ports[..ends].ToArray();
            if (!data.Agrees(label.Label, meant)) continue;
            means[label.Label] = [.. meant];
            var seen = meant.Count(data.Seen[label.Label].Contains);
            bits += ((ends - seen) * reachable) + (seen > 0 ? 1 : 0);
            bits += label.Misread.Count * (Math.Log2(data.Labels[label.Label].Text.Length) + 1);
            misread.AddRange(label.Misread);
            if (label.Misread.Count > 0) corrected++;
            else asTyped++;
        }

        var rest = Enumerable.Range(0, means.Length).Where(label => means[label].IsEmpty).ToList();
        bits += data.Letters.Rest(rest.Sum(label => data.Letters.Labels[label]), rest.Sum(label => data.Labels[label].Text.Length));
        bits += Kinds(asTyped, corrected, data.Labels.Length - asTyped - corrected);
        return scheme with { Bits = bits, Meanings = [.. means], Misread = misread.ToImmutable(), Read = read };
    }

    // Which labels are as typed, corrected, or not explained.
    private static double Kinds(params ReadOnlySpan<int> counts)
    {
        var (total, bits) = (0, 0.0);
        foreach (var count in counts) total += count;
        foreach (var count in counts) bits += count == 0 ? 0 : count * Math.Log2((double)total / count);
        return bits + Math.Log2(Math.Max(2, total));
    }

    // What the pattern sets between the groups, and the lines of the table.
    private static double OfScheme(SchemeCandidate scheme, CutLabel[] cut, SearchData data)
    {
        var letters = scheme.Form.Layout.Parts.Sum(part => part.Separator.Length)
            + scheme.Form.Chunks.Sum(chunk => chunk.Where(piece => !piece.IsGroup).Sum(piece => piece.Width));
        if (scheme.Table.IsEmpty) return letters * LetterOfPattern;
        return (letters * LetterOfPattern) + (scheme.Table.Count * LineOfTable(scheme.Learned, data, cut.Length));
    }

    /// <summary>What a line of a table costs: one of the texts seen, one of the values there are.</summary>
    internal static double LineOfTable(Field? field, SearchData data, int texts)
    {
        var values = field switch
        {
            Field.Row => data.Catalog.Rows.Length,
            Field.Term => data.Catalog.Stems.Length,
            _ => data.Catalog.Shelves.Length,
        };
        return 1 + Math.Log2(Math.Max(2, values)) + Math.Log2(Math.Max(2, texts));
    }

    // The ports that the scheme can mean: only between these must a label decide.
    private static int Reachable(SchemeCandidate scheme, CutLabel[] cut, SearchData data)
    {
        if (scheme.IsByTerm)
        {
            return cut.SelectMany(label => label.Ends.OfType<string[]>())
                .Select(groups => scheme.ShelfOf(EndText.From(groups, scheme.Fields), data.Catalog))
                .Distinct()
                .Sum(scheme.Family.OnShelf);
        }

        return scheme.Row >= 0 ? scheme.Family.InRow(scheme.Row) : scheme.Family.Count;
    }
}

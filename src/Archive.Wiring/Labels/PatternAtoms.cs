using System.Globalization;

namespace Archive.Wiring.Labels;

// The parts of a pattern that take one character each, wherever they stand: `^(?<row>\d\d)-[A-F]$` has `\d`, `-` and `[A-F]`.
internal static class PatternAtoms
{
    // Null for a pattern with options of its own, such as (?i): what its atoms take is not what they say. The library has compiled it
    // before.
    internal static IReadOnlyCollection<string>? Parse(string pattern)
    {
        // `$` looks at a line's end, `\b` at letters.
        var atoms = new SortedSet<string>(StringComparer.Ordinal) { @"\n" };
        foreach (var (kind, start, end) in PatternParts.Of(pattern))
        {
            if (kind == PatternPartKind.Options) return null;
            if (kind == PatternPartKind.Boundary) atoms.Add(@"\w");
            if (kind == PatternPartKind.Atom) atoms.Add(Written(pattern, start, end));
        }

        return atoms;
    }

    // An atom as it can stand alone: a brace that opens no count is escaped.
    internal static string Written(string pattern, int start, int end) => pattern[start] == '{' ? @"\{" : pattern[start..end];

    // How many atoms the pattern has with its counts written out: `(ab){3}\d*` has seven. A count without an upper end counts as its lower
    // one.
    internal static long CountWrittenOut(string pattern)
    {
        const long Most = 1L << 40;
        var groups = new Stack<long>();
        long sum = 0, last = 0;
        foreach (var (kind, start, end) in PatternParts.Of(pattern))
        {
            switch (kind)
            {
                case PatternPartKind.Atom:
                    last = 1;
                    sum++;
                    break;
                case PatternPartKind.Opening or PatternPartKind.Options when pattern[end - 1] != ')':
                    groups.Push(sum);
                    sum = last = 0;
                    break;
                case PatternPartKind.Closing when groups.TryPop(out var before):
                    last = sum;
                    sum = Math.Min(Most, before + sum);
                    break;
                case PatternPartKind.Count when pattern[start] == '{':
                    // The group or atom itself is in the sum already.
                    sum = Math.Min(Most, sum + (last * (Math.Max(1, HighestOf(pattern[(start + 1)..(end - 1)])) - 1)));
                    break;
            }
        }

        return sum;
    }

    private static long HighestOf(string count) =>
        count.Split(',')
            .Max(number => number.Length == 0 ? 0 : number.Length > 9 ? int.MaxValue : long.Parse(number, CultureInfo.InvariantCulture));
}

namespace Archive.Records.Wording;

/// <summary>
/// A text that sorts as people expect: runs of digits by their number (<c>J2</c> before <c>J10</c>), the rest by ordinal.
/// </summary>
public readonly record struct NaturalSortKey(string Text) : IComparable<NaturalSortKey>
{
    public int CompareTo(NaturalSortKey other)
    {
        var (a, b) = (Text, other.Text);
        int i = 0, j = 0;
        while (i < a.Length && j < b.Length)
        {
            int by;
            if (char.IsAsciiDigit(a[i]) && char.IsAsciiDigit(b[j]))
            {
                var one = Digits(a, ref i);
                var two = Digits(b, ref j);
                by = one.Length != two.Length ? one.Length - two.Length : one.SequenceCompareTo(two);
            }
            else
            {
                by = a[i++].CompareTo(b[j++]);
            }

            if (by != 0) return by;
        }

        var rest = (a.Length - i).CompareTo(b.Length - j);
        return rest != 0 ? rest : string.CompareOrdinal(a, b);
    }

    // A run of digits without its leading zeros.
    private static ReadOnlySpan<char> Digits(string text, ref int at)
    {
        var start = at;
        while (at < text.Length && char.IsAsciiDigit(text[at])) at++;
        return text.AsSpan(start, at - start).TrimStart('0');
    }
}

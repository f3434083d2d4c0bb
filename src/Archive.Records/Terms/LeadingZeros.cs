namespace Archive.Records.Terms;

/// <summary>Compares parts of addresses: leading zeros in a run of digits don't matter, letter case does.</summary>
public static class LeadingZeros
{
    /// <summary>Equality and hash by that rule: <c>S07</c> equals <c>S7</c>.</summary>
    public static IEqualityComparer<string> Comparer { get; } = new PartComparer();

    /// <summary>The canonical spelling: no leading zeros in any run of digits (a run of zeros becomes one zero).</summary>
    /// <param name="part">Part of an address.</param>
    public static string Strip(string part)
    {
        Span<char> buffer = part.Length <= 256 ? stackalloc char[part.Length] : new char[part.Length];
        var length = Strip(part, buffer);
        return length == part.Length ? part : new string(buffer[..length]);
    }

    /// <summary>Writes the canonical spelling.</summary>
    /// <param name="part">Part of an address.</param>
    /// <param name="buffer">As long as the part at least.</param>
    /// <returns>How much of the buffer it takes.</returns>
    internal static int Strip(string part, Span<char> buffer)
    {
        if (!part.Contains('0', StringComparison.Ordinal))
        {
            part.CopyTo(buffer);
            return part.Length;
        }

        var length = 0;
        for (var i = 0; i < part.Length; i++)
        {
            if (!IsSkipped(part, i)) buffer[length++] = part[i];
        }

        return length;
    }

    // A zero is skipped when no digit stands before it in its run but zeros, and a digit follows.
    private static bool IsSkipped(string part, int i)
    {
        if (part[i] != '0' || i + 1 >= part.Length || !char.IsAsciiDigit(part[i + 1])) return false;
        var before = i - 1;
        while (before >= 0 && part[before] == '0') before--;
        return before < 0 || !char.IsAsciiDigit(part[before]);
    }

    private sealed class PartComparer : IEqualityComparer<string>
    {
        public bool Equals(string? x, string? y)
        {
            if (string.Equals(x, y, StringComparison.Ordinal)) return true;
            if (x is null || y is null) return false;
            int i = 0, j = 0;
            while (true)
            {
                while (i < x.Length && IsSkipped(x, i)) i++;
                while (j < y.Length && IsSkipped(y, j)) j++;
                if (i == x.Length || j == y.Length) return i == x.Length && j == y.Length;
                if (x[i++] != y[j++]) return false;
            }
        }

        public int GetHashCode(string obj)
        {
            if (!obj.Contains('0', StringComparison.Ordinal)) return obj.GetHashCode(StringComparison.Ordinal);
            Span<char> buffer = obj.Length <= 256 ? stackalloc char[obj.Length] : new char[obj.Length];
            return string.GetHashCode(buffer[..Strip(obj, buffer)], StringComparison.Ordinal);
        }
    }
}

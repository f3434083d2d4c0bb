using System.Globalization;
using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>Ports as a position declares them: one (<c>TB1</c>), or a range (<c>J1..J24</c>). Never expanded: a range may be long.</summary>
/// <param name="Prefix">What stands before the number; the whole name for a single port without one.</param>
/// <param name="First">First number, or null for a single port named as <paramref name="Prefix"/>.</param>
/// <param name="Last">Last number, not below the first.</param>
/// <param name="Span">Where it is written.</param>
public readonly record struct PortRange(string Prefix, int? First, int? Last, SourceSpan Span)
{
    /// <summary>Number of ports.</summary>
    public int Count => First is { } first && Last is { } last ? last - first + 1 : 1;

    /// <summary>All port names in order, without leading zeros.</summary>
    public IEnumerable<string> Names
    {
        get
        {
            if (First is not { } first || Last is not { } last)
            {
                yield return Prefix;
                yield break;
            }

            for (var n = first; n <= last; n++) yield return Prefix + n.ToString(CultureInfo.InvariantCulture);
        }
    }

    /// <summary>Whether a port is of this range; leading zeros don't matter.</summary>
    /// <param name="port">A port as written.</param>
    public bool Contains(string port)
    {
        if (First is not { } first || Last is not { } last) return LeadingZeros.Comparer.Equals(Prefix, port);
        var digits = port.Length;
        while (digits > 0 && char.IsAsciiDigit(port[digits - 1])) digits--;
        return digits < port.Length
            && LeadingZeros.Comparer.Equals(Prefix, port[..digits])
            && int.TryParse(port.AsSpan(digits), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            && number >= first && number <= last;
    }
}

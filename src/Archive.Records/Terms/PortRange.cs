using System.Globalization;
using Archive.Diagnostics;

namespace Archive.Records.Terms;

/// <summary>
/// Ports as a position declares them: one (<c>TB1</c>), or a range (<c>J1..J24</c>). Never expanded: a range may be long.
/// </summary>
/// <param name="Prefix">What stands before the number; the whole name for a single port without one.</param>
/// <param name="First">First number, or null for a single port named as <paramref name="Prefix"/>.</param>
/// <param name="Last">Last number, not below the first.</param>
/// <remarks>
/// A single port whose name ends in digits is a range of one. Leading zeros don't matter when ports are compared, and are kept where they
/// are named.
/// </remarks>
public readonly record struct PortRange(string Prefix, int? First, int? Last, SourceSpan Span)
{
    private const int MostPorts = 10_000;

    /// <summary>Digits that a number has at least: those of the first as written, so that <c>J01..J24</c> begins with J01.</summary>
    public int Digits { get; init; }

    /// <summary>Number of ports.</summary>
    public int Count => First is { } first && Last is { } last ? last - first + 1 : 1;

    /// <summary>Name of the first port.</summary>
    public string FirstName => First is { } first ? Name(first) : Prefix;

    /// <summary>Name of the last port.</summary>
    public string LastName => Last is { } last ? Name(last) : Prefix;

    /// <summary>All port names in order.</summary>
    public IEnumerable<string> Names
    {
        get
        {
            if (First is not { } first || Last is not { } last)
            {
                yield return Prefix;
                yield break;
            }

            for (var n = first; n <= last; n++) yield return Name(n);
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

    /// <summary>Reads a port, or a range of ports whose names differ only by the number at their end.</summary>
    /// <param name="text">Such as <c>TB1</c>, <c>J1..J24</c>, <c>J01..J24</c>.</param>
    /// <param name="span">Where the text stands.</param>
    /// <param name="why">What is wrong, where it is neither; lower case, no full stop.</param>
    public static bool TryParse(string text, SourceSpan span, out PortRange range, out string? why)
    {
        range = default;
        var dots = text.IndexOf("..", StringComparison.Ordinal);
        var from = (dots < 0 ? text : text[..dots]).Trim();
        var to = (dots < 0 ? text : text[(dots + 2)..]).Trim();
        why = !RecordId.IsValid(from) ? $"`{from}` is not a port name" : !RecordId.IsValid(to) ? $"`{to}` is not a port name" : null;
        if (why is not null) return false;
        var (prefix, first) = Apart(from);
        var (lastPrefix, last) = Apart(to);
        if (dots < 0 && RangeMeant(from) is { } meant)
        {
            why = $"`{from}` is one port of that name; a range is written `{meant}`";
            return false;
        }

        if (dots < 0)
        {
            range = first is null
                ? new PortRange(from, null, null, span)
                : new PortRange(prefix, first, first, span) { Digits = from.Length - prefix.Length };
            return true;
        }

        why = first is null || last is null ? "a range must run from one number to another"
            : !LeadingZeros.Comparer.Equals(prefix, lastPrefix) ? $"`{from}` and `{to}` differ in more than the number"
            : last < first ? $"the range runs backwards, from {first} to {last}"
            : last - first >= MostPorts ? $"the range has more than {MostPorts.ToString("N0", CultureInfo.InvariantCulture)} ports"
            : null;
        if (why is null) range = new PortRange(prefix, first, last, span) { Digits = from.Length - prefix.Length };
        return why is null;
    }

    // J1-J20: two numbered ports with the same letters. Two that follow each other may well be one double port, J1-J2.
    private static string? RangeMeant(string text)
    {
        var hyphen = text.IndexOf('-', StringComparison.Ordinal);
        if (hyphen <= 0 || hyphen == text.Length - 1) return null;
        var (prefix, first) = Apart(text[..hyphen]);
        var (lastPrefix, last) = Apart(text[(hyphen + 1)..]);
        return prefix.Length > 0 && first is { } from && last is { } to && LeadingZeros.Comparer.Equals(prefix, lastPrefix) && to > from + 1
            ? $"{text[..hyphen]}..{text[(hyphen + 1)..]}"
            : null;
    }

    private string Name(int number) =>
        Prefix + number.ToString("D" + Digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    // The name and the number at its end; none where it has no letters before, no digits, or too many to be counted.
    private static (string Prefix, int? Number) Apart(string port)
    {
        var digits = port.Length;
        while (digits > 0 && char.IsAsciiDigit(port[digits - 1])) digits--;
        return int.TryParse(port.AsSpan(digits), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? (port[..digits], number)
            : (port, null);
    }
}

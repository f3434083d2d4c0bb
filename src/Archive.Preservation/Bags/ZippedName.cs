using System.Buffers;
using System.Text;

namespace Archive.Preservation.Bags;

/// <summary>Names in a ZIP file that unpackers, on whatever system, would not write as they stand.</summary>
internal static class ZippedName
{
    // What common file systems hold: NAME_MAX and PATH_MAX of Linux, in bytes.
    private const int LongestPart = 255, LongestName = 4095;

    private static readonly SearchValues<char> NotOnWindows = SearchValues.Create("<>\"|?*");

    /// <summary>Why a name leads out of its folder, or into another one on some system; null where it does not.</summary>
    internal static string? Danger(string name) =>
        BagPath.Danger(name) ?? (name.Contains('\\', StringComparison.Ordinal)
            ? "contains a backslash, which some systems treat as a folder separator"
            : null);

    /// <summary>Why some unpackers write it under another name; null where all of them write it as it is.</summary>
    /// <param name="name">The name; of a folder with the stroke behind it.</param>
    internal static string? Change(string name)
    {
        if (Encoding.UTF8.GetByteCount(name) > LongestName) return $"is longer than {LongestName} bytes, which many systems cannot hold";
        var path = name.EndsWith('/') ? name.AsSpan(0, name.Length - 1) : name;
        foreach (var range in path.Split('/'))
        {
            if (Change(path[range]) is { } why) return why;
        }

        return null;
    }

    private static string? Change(ReadOnlySpan<char> part)
    {
        if (part.IsEmpty) return "has an empty part, which unpackers leave out";
        if (part is ".") return "has a part `.`, which unpackers leave out";
        if (part is "..") return "has a part `..`, which leads to another folder";
        foreach (var letter in part)
        {
            if (char.IsControl(letter)) return "contains a control character, which some unpackers leave out";
        }

        if (part[^1] is ' ' or '.') return "has a part that ends with a space or full stop, which Windows leaves out";
        if (part.Contains(':')) return "contains a colon, which starts a hidden stream on Windows";
        if (part.IndexOfAny(NotOnWindows) is >= 0 and var at) return $"contains `{part[at]}`, which unpackers replace on Windows";
        if (BagPath.IsDevice(part)) return $"has a part `{part}`, which is a device on Windows";
        if (IsVersion(part)) return "ends like a version number of VMS, which some unpackers leave out";
        return Encoding.UTF8.GetByteCount(part) > LongestPart
            ? $"has a part of more than {LongestPart} bytes, which many systems cannot hold"
            : null;
    }

    // A semicolon and digits: Info-ZIP's unzip takes them off.
    private static bool IsVersion(ReadOnlySpan<char> part)
    {
        var at = part.LastIndexOf(';');
        return at >= 0 && !part[(at + 1)..].ContainsAnyExceptInRange('0', '9');
    }
}

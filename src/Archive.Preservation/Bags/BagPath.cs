using System.Buffers;
using System.Text;

namespace Archive.Preservation.Bags;

/// <summary>Names of files as a bag writes them, and those it must not write.</summary>
public static class BagPath
{
    internal const string Payload = "data/";

    // Windows takes the small figures 1, 2 and 3 of Latin-1 for those of a device too.
    private static readonly HashSet<string> Devices = new(
        [
            "CON",
            "PRN",
            "AUX",
            "NUL",
            "CONIN$",
            "CONOUT$",
            "COM\u00B9",
            "COM\u00B2",
            "COM\u00B3",
            "LPT\u00B9",
            "LPT\u00B2",
            "LPT\u00B3",
            .. Enumerable.Range(1, 9).SelectMany(n => new[] { $"COM{n}", $"LPT{n}" })
        ], StringComparer.OrdinalIgnoreCase);

    private static readonly SearchValues<char> NotOnWindows = SearchValues.Create("<>:\"|?*\\");

    // What HFS+ passes over when it compares names: joiners, marks of direction, the byte order mark.
    private static readonly SearchValues<char> NotShown = SearchValues.Create(
        "\u200C\u200D\u200E\u200F\u202A\u202B\u202C\u202D\u202E\u206A\u206B\u206C\u206D\u206E\u206F\uFEFF");

    private static readonly HashSet<string> LeftBySystems = new(
        ["Thumbs.db", ".DS_Store", "desktop.ini"], StringComparer.OrdinalIgnoreCase);

    /// <summary>
    /// The name that was meant: from 1.0 on LF, CR and % are percent-encoded and nothing else is; before, nothing (RFC 8493, 2.1.3).
    /// </summary>
    /// <param name="written">The name as written.</param>
    /// <param name="version">The bag's version.</param>
    internal static string Decode(string written, BagVersion version)
    {
        if (!version.IsStandard || !written.Contains('%', StringComparison.Ordinal)) return written;
        var name = new StringBuilder(written.Length);
        for (var i = 0; i < written.Length; i++)
        {
            var letter = written[i] != '%' || i + 2 >= written.Length ? (char?)null : written.AsSpan(i + 1, 2) switch
            {
                ['0', 'A' or 'a'] => '\n',
                ['0', 'D' or 'd'] => '\r',
                ['2', '5'] => '%',
                _ => null,
            };
            name.Append(letter ?? written[i]);
            if (letter is not null) i += 2;
        }

        return name.ToString();
    }

    /// <summary>A name as a 1.0 bag writes it.</summary>
    internal static string Encode(string path) => path
        .Replace("%", "%25", StringComparison.Ordinal)
            .Replace("\n", "%0A", StringComparison.Ordinal)
            .Replace("\r", "%0D", StringComparison.Ordinal);

    /// <summary>Why a name must not be followed, on whatever system (RFC 8493, 5.1); null where it stays in the bag.</summary>
    /// <param name="path">The name, decoded.</param>
    public static string? Danger(string path)
    {
        if (path.Length == 0) return "is empty";
        if (path.Contains('\0', StringComparison.Ordinal)) return "contains a zero byte";
        if (path[0] == '/') return "is an absolute path";
        if (path[0] == '\\') return path.StartsWith(@"\\", StringComparison.Ordinal)
            ? "is the path of another machine or of a device"
            : "is an absolute path on some systems";
        if (path[0] == '~') return "is a home folder to a shell";
        if (path.Length > 1 && path[1] == ':' && char.IsAsciiLetter(path[0])) return "is a path on a drive";
        return path.Split('/', '\\').Contains("..") ? "leads out of its folder by `..`" : null;
    }

    /// <summary>Why a name will be trouble on some system; null where it is plain (RFC 8493, 6.1.2).</summary>
    internal static string? Trouble(string path)
    {
        foreach (var part in path.Split('/'))
        {
            if (LeftBySystems.Contains(part)) return $"`{part}` is a system file that changes or disappears by itself";
            if (IsDevice(part)) return $"`{part}` is the name of a device on Windows";
            if (part.AsSpan().IndexOfAny(NotOnWindows) is >= 0 and var at) return $"`{part[at]}` cannot be in a name on Windows";
            if (part.Any(char.IsControl)) return "a control character cannot be in a name on Windows";
            if (part.EndsWith('.') || part.EndsWith(' ')) return "Windows drops a full stop or space at the end of a name";
        }

        return null;
    }

    /// <summary>Whether a part of a path is the name of a device on Windows, with whatever extension.</summary>
    internal static bool IsDevice(ReadOnlySpan<char> part) =>
        Devices.GetAlternateLookup<ReadOnlySpan<char>>().Contains((part.IndexOf('.') is >= 0 and var at ? part[..at] : part).TrimEnd(' '));

    /// <summary>
    /// What two names have in common that only some systems tell apart: letter case, Unicode's ways to write one letter, and letters that
    /// are not shown.
    /// </summary>
    internal static string Fold(string path)
    {
        if (Ascii.IsValid(path)) return path.ToUpperInvariant();
        var shown = path.AsSpan().ContainsAny(NotShown) ? string.Concat(path.Where(letter => !NotShown.Contains(letter))) : path;

        // The runtime leaves the long s out of the simple case mapping of Unicode.
        return CanonicalLetters.Apart(shown.ToUpperInvariant().Replace('\u017F', 'S'));
    }
}

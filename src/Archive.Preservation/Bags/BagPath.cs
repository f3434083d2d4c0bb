using System.Buffers;
using System.Text;

namespace Archive.Preservation;

/// <summary>Names of files as a bag writes them, and those it must not write.</summary>
internal static class BagPath
{
    internal const string Payload = "data/";

    private static readonly HashSet<string> Devices = new(
        ["CON", "PRN", "AUX", "NUL", .. Enumerable.Range(1, 9).SelectMany(n => new[] { $"COM{n}", $"LPT{n}" })], StringComparer.OrdinalIgnoreCase);

    private static readonly SearchValues<char> NotOnWindows = SearchValues.Create("<>:\"|?*\\");

    private static readonly HashSet<string> LeftBySystems = new(["Thumbs.db", ".DS_Store", "desktop.ini"], StringComparer.OrdinalIgnoreCase);

    /// <summary>The name that was meant: from 1.0 on LF, CR and % are percent-encoded and nothing else is; before, nothing (RFC 8493, 2.1.3).</summary>
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
    /// <param name="path">The name.</param>
    internal static string Encode(string path) => path
        .Replace("%", "%25", StringComparison.Ordinal).Replace("\n", "%0A", StringComparison.Ordinal).Replace("\r", "%0D", StringComparison.Ordinal);

    /// <summary>Why a name must not be followed, on whatever system (RFC 8493, 5.1); null where it stays in the bag.</summary>
    /// <param name="path">The name, decoded.</param>
    internal static string? Danger(string path)
    {
        if (path.Length == 0) return "is empty";
        if (path.Contains('\0', StringComparison.Ordinal)) return "holds a zero byte";
        if (path[0] == '/') return "is an absolute path";
        if (path[0] == '\\') return path.StartsWith(@"\\", StringComparison.Ordinal) ? "is the path of another machine or of a device" : "is an absolute path on some systems";
        if (path[0] == '~') return "is somebody's home folder to a shell";
        if (path.Length > 1 && path[1] == ':' && char.IsAsciiLetter(path[0])) return "is a path on a drive";
        return path.Split('/', '\\').Contains("..") ? "leads out of its folder by `..`" : null;
    }

    /// <summary>Why a name will be trouble on some system; null where it is plain (RFC 8493, 6.1.2).</summary>
    /// <param name="path">The name.</param>
    internal static string? Trouble(string path)
    {
        foreach (var part in path.Split('/'))
        {
            if (LeftBySystems.Contains(part)) return $"`{part}` is left behind by a system and changes or vanishes by itself";
            if (Devices.Contains(part.Split('.')[0])) return $"`{part}` is the name of a device on Windows";
            if (part.AsSpan().IndexOfAny(NotOnWindows) is >= 0 and var at) return $"`{part[at]}` cannot stand in a name on Windows";
            if (part.Any(char.IsControl)) return "a control character cannot stand in a name on Windows";
            if (part.EndsWith('.') || part.EndsWith(' ')) return "Windows drops a full stop or blank at the end of a name";
        }

        return null;
    }

    /// <summary>What two names have in common that only some systems tell apart: letter case and Unicode's ways to write one letter.</summary>
    /// <param name="path">The name.</param>
    internal static string Fold(string path) => CanonicalLetters.Apart(path.ToUpperInvariant());
}

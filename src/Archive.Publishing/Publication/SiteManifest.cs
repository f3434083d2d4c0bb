using System.Buffers;
using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Text;

namespace Archive.Publishing.Publication;

/// <summary>
/// <c>site.sha256</c>: every other file of the site with its checksum, in ordinal order, as <c>sha256sum -c</c> reads it. It is also what
/// tells a site of ours from a stranger's folder.
/// </summary>
public static class SiteManifest
{
    /// <summary>Its name at the site's root.</summary>
    public const string FileName = "site.sha256";

    /// <summary>Hexadecimal digits of a checksum.</summary>
    public const int SumLength = 64;

    private static readonly SearchValues<char> LowerHex = SearchValues.Create("0123456789abcdef");

    /// <summary>The manifest's text.</summary>
    /// <param name="files">The site's files, ordinal by path.</param>
    public static string Write(ImmutableArray<PublishedFile> files)
    {
        var text = new StringBuilder(files.Length * 100);
        foreach (var file in files)
        {
            var escaped = Escape(file.Path);
            if (escaped.Length != file.Path.Length) text.Append('\\');
            text.Append(file.Sha256).Append("  ").Append(escaped).Append('\n');
        }

        return text.ToString();
    }

    /// <summary>Reads a manifest.</summary>
    /// <returns>The checksum of each file that it lists, by path; null where a line is not of its form or contradicts another.</returns>
    public static FrozenDictionary<string, string>? Read(string text)
    {
        var sums = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var line in text.AsSpan().EnumerateLines())
        {
            if (line.IsEmpty) continue;
            if (Entry(line) is not { } entry || (!sums.TryAdd(entry.Path, entry.Sha256) && sums[entry.Path] != entry.Sha256)) return null;
        }

        return sums.ToFrozenDictionary(StringComparer.Ordinal);
    }

    /// <summary>Reads a line of a manifest.</summary>
    /// <param name="line">The line, without its end.</param>
    /// <returns>The file's path, its checksum, and where in the line the path begins; null where the line is not of the form.</returns>
    public static (string Path, string Sha256, int PathAt)? Entry(ReadOnlySpan<char> line)
    {
        var at = line.StartsWith("\\") ? 1 : 0;
        if (line.Length < at + SumLength + 3
            || line.Slice(at, SumLength).ContainsAnyExcept(LowerHex)
            || line.Slice(at + SumLength, 2) is not "  ") return null;
        var path = line[(at + SumLength + 2)..].ToString();
        return (at == 1 ? Unescape(path) : path, line.Slice(at, SumLength).ToString(), at + SumLength + 2);
    }

    // As GNU coreutils write it: a leading backslash says that the name is escaped.
    private static string Escape(string path) => path
        .Replace("\\", "\\\\", StringComparison.Ordinal)
            .Replace("\n", "\\n", StringComparison.Ordinal)
            .Replace("\r", "\\r", StringComparison.Ordinal);

    private static string Unescape(string path)
    {
        var name = new StringBuilder(path.Length);
        for (var i = 0; i < path.Length; i++)
        {
            if (path[i] != '\\' || i + 1 == path.Length) name.Append(path[i]);
            else name.Append(path[++i] switch { 'n' => '\n', 'r' => '\r', var other => other });
        }

        return name.ToString();
    }
}

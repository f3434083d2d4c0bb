namespace Archive.Records.Reading;

/// <summary>Arithmetic of paths as curators write them; no disk is asked.</summary>
public static class ArchivePath
{
    /// <summary>
    /// Whether a file or folder of this name is not part of the record: a name that begins with a dot, or what desktops and word
    /// processors leave behind.
    /// </summary>
    public static bool IsIgnored(string name) =>
        name.StartsWith('.')
        || name.StartsWith("~$", StringComparison.Ordinal)
        || name.Equals("Thumbs.db", StringComparison.OrdinalIgnoreCase)
        || name.Equals("desktop.ini", StringComparison.OrdinalIgnoreCase);

    /// <summary>Whether a path within the archive is part of the record: none of its names is ignored.</summary>
    public static bool IsOfRecord(string path) => !path.Split('/').Any(IsIgnored);

    /// <summary>Where a path leads from a file, both within the archive.</summary>
    /// <param name="fromFile">Path of the file that names it.</param>
    /// <param name="written">The path as written.</param>
    /// <returns>A path within the archive, or null where it leaves it or can be none: absolute, a web address, with a drive, a backslash or
    /// a control character.</returns>
    internal static string? Resolve(string fromFile, string written)
    {
        if (written.StartsWith('/') || written.Any(letter => char.IsControl(letter) || letter == '\\')) return null;
        if (written.Contains("://", StringComparison.Ordinal)) return null;
        if (written.Length > 1 && written[1] == ':' && char.IsAsciiLetter(written[0])) return null;
        var parts = new List<string>(fromFile.Split('/')[..^1]);
        foreach (var part in written.Split('/'))
        {
            if (part is "" or ".") continue;
            if (part != "..")
            {
                parts.Add(part);
                continue;
            }

            if (parts.Count == 0) return null;
            parts.RemoveAt(parts.Count - 1);
        }

        return parts.Count == 0 ? null : string.Join('/', parts);
    }
}

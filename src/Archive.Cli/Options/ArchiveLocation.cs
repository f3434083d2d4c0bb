namespace Archive.Cli.Options;

/// <summary>Finds the archive that a command is typed in.</summary>
internal static class ArchiveLocation
{
    /// <summary>Where an archive is, seen from the folder that contains it.</summary>
    internal const string Usual = "content";

    /// <summary>The file by which a folder is an archive.</summary>
    internal const string Statement = "archive.yaml";

    /// <summary>
    /// The archive's folder: <c>content</c> if there is one here; else the nearest folder, from here upwards, that holds archive.yaml
    /// or a folder <c>content</c> that does; <c>content</c> where there is none.
    /// </summary>
    /// <param name="here">Full path of the working folder.</param>
    /// <returns>The folder, relative to the working folder where that is short.</returns>
    internal static string Find(string here)
    {
        if (!File.Exists(Path.Combine(here, Statement)) && Directory.Exists(Path.Combine(here, Usual))) return Usual;
        for (var folder = here; folder is not null; folder = Path.GetDirectoryName(folder))
        {
            if (File.Exists(Path.Combine(folder, Statement))) return Path.GetRelativePath(here, folder);
            var usual = Path.Combine(folder, Usual);
            if (File.Exists(Path.Combine(usual, Statement))) return Path.GetRelativePath(here, usual);
        }

        return Usual;
    }

    /// <summary>The archive's folder that a path is in.</summary>
    /// <param name="path">Full path; there need not be anything.</param>
    /// <returns>Full path of the nearest folder above it that holds archive.yaml; null if there is none.</returns>
    internal static string? Around(string path)
    {
        for (var folder = Path.GetDirectoryName(path); folder is not null; folder = Path.GetDirectoryName(folder))
        {
            if (File.Exists(Path.Combine(folder, Statement))) return folder;
        }

        return null;
    }
}

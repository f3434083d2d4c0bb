namespace Archive.Storage;

/// <summary>Makes a folder with files, whole or not at all.</summary>
public static class WholeFolder
{
    /// <summary>
    /// Makes a folder. One that does not exist appears in one step. One that exists and is empty keeps its place and permissions, and its
    /// entries appear one after the other, in the order of the files.
    /// </summary>
    /// <param name="path">Full path; folders above it are made.</param>
    /// <param name="files">Paths within it, separated by <c>/</c>, and their bytes.</param>
    /// <exception cref="IOException">It cannot be written, or is not empty; all is as it was.</exception>
    public static void Create(string path, IReadOnlyList<(string Path, byte[] Bytes)> files)
    {
        var isThere = Directory.Exists(path);
        if (isThere && Directory.EnumerateFileSystemEntries(path).Any()) throw new IOException($"{path} is not empty");

        // A name that was free, on the same disk.
        var draft = Path.Combine(
            isThere ? path : Directory.CreateDirectory(Path.GetDirectoryName(path)!).FullName, $".{Guid.NewGuid():N}.part");
        var moved = new List<(string From, string To)>();
        try
        {
            foreach (var (name, bytes) in files)
            {
                var file = Path.Combine(draft, name);
                Directory.CreateDirectory(Path.GetDirectoryName(file)!);
                using var stream = new FileStream(file, FileMode.CreateNew, FileAccess.Write, FileShare.None);
                stream.Write(bytes);
            }

            if (!isThere)
            {
                Directory.Move(draft, path);
                return;
            }

            foreach (var entry in files.Select(file => file.Path.Split('/')[0]).Distinct(StringComparer.Ordinal))
            {
                var (from, to) = (Path.Combine(draft, entry), Path.Combine(path, entry));
                Directory.Move(from, to); // files too
                moved.Add((from, to));
            }

            Directory.Delete(draft);
        }
        catch
        {
            foreach (var (from, to) in moved) Directory.Move(to, from);
            if (Directory.Exists(draft)) Directory.Delete(draft, recursive: true);
            throw;
        }
    }
}

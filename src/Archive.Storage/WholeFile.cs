namespace Archive.Storage;

/// <summary>Writes a file whole or not at all.</summary>
public static class WholeFile
{
    /// <summary>
    /// Puts a file in its place in one step. What has its name is replaced, a link too: what that leads to is left alone.
    /// </summary>
    /// <param name="path">Full path; folders above it are made.</param>
    /// <param name="write">Writes the bytes.</param>
    /// <param name="drafts">Folder on the same disk for the file while it is written; null for the folder it belongs in.</param>
    /// <param name="verify">Looks at the finished draft, by its full path; where it throws, nothing is replaced.</param>
    /// <exception cref="IOException">It cannot be written; what had its name is as it was.</exception>
    public static void Replace(string path, Action<FileStream> write, string? drafts = null, Action<string>? verify = null)
    {
        var folder = Directory.CreateDirectory(Path.GetDirectoryName(path)!).FullName;

        // A name that was free, and is not opened through a link: an archive may bring one for a name that can be guessed.
        var draft = Path.Combine(drafts is null ? folder : Directory.CreateDirectory(drafts).FullName, $".{Guid.NewGuid():N}.part");
        try
        {
            using (var stream = new FileStream(draft, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1 << 16)) write(stream);
            verify?.Invoke(draft);
            File.Move(draft, path, overwrite: true);
        }
        catch
        {
            File.Delete(draft);
            throw;
        }
    }
}

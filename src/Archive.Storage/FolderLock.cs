namespace Archive.Storage;

/// <summary>The right to work in a folder: anyone who holds its file <c>lock</c> is alone there.</summary>
/// <remarks>The lock is the operating system's: it ends with the process, however that ends.</remarks>
public sealed class FolderLock : IDisposable
{
    public const string FileName = "lock";

    private readonly string _folder;
    private readonly FileStream _held;

    private FolderLock(string folder, FileStream held)
    {
        _folder = folder;
        _held = held;
    }

    /// <summary>The file, open.</summary>
    public Microsoft.Win32.SafeHandles.SafeFileHandle Handle => _held.SafeFileHandle;

    /// <summary>Takes the lock of a private folder, which is made where it is not there.</summary>
    /// <param name="folder">Full path of the folder.</param>
    /// <returns>Null while another process holds it.</returns>
    /// <exception cref="IOException">The folder cannot be made, or there is a link in its place or in it.</exception>
    public static FolderLock? Take(string folder)
    {
        for (var attempt = 0; attempt < 10; attempt++)
        {
            Directory.CreateDirectory(folder);
            if (new DirectoryInfo(folder) is { LinkTarget: not null }
                || new DirectoryInfo(folder).EnumerateFileSystemInfos().Any(entry => entry.LinkTarget is not null))
            {
                throw new IOException($"{folder} is or contains a link that asfound did not create");
            }

            if (!TryLock(Path.Combine(folder, FileName), out var held)) return null;
            if (held is not null) return new FolderLock(folder, held);
        }

        return null;
    }

    /// <summary>Lets it go; the folder goes with it unless something else is left in it.</summary>
    public void Dispose()
    {
        try
        {
            // Deleted while it is still held, so that nobody can take a lock that is about to lose its name; Windows deletes only what is
            // closed.
            if (OperatingSystem.IsWindows()) _held.Dispose();
            File.Delete(_held.Name);
            Directory.Delete(_folder);
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            // Not empty, or already another's.
        }
        finally
        {
            _held.Dispose();
        }
    }

    // False: another holds it. True without a file: the holder before deleted it just then; try again.
    private static bool TryLock(string path, out FileStream? held)
    {
        held = null;
        try
        {
            held = new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, bufferSize: 1);
        }
        catch (DirectoryNotFoundException)
        {
            return true;
        }
        catch (IOException)
        {
            return false;
        }

        // Between our opening and our locking the file may have lost its name to the holder before. Its length, drawn by lot,
        // says whether the file of that name is the one we hold.
        held.SetLength(Random.Shared.Next(1, 1 << 24));
        var named = new FileInfo(path);
        if (named.Exists && named.Length == held.Length) return true;
        held.Dispose();
        held = null;
        return true;
    }
}

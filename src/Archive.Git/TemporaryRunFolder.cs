using Archive.Storage;

namespace Archive.Git;

/// <summary>
/// A folder for one run, in a folder of the user's own among the temporary ones. A run that is killed leaves it there; the next run deletes
/// what no run holds any more.
/// </summary>
internal sealed class TemporaryRunFolder : IDisposable
{
    private const string LockEnding = ".lock";
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    // Held while the folder is in use; null where there can be no folder of the user's own.
    private readonly FileStream? _lock;

    private TemporaryRunFolder(string path, FileStream? held) => (Path, _lock) = (path, held);

    /// <summary>Its full path.</summary>
    internal string Path { get; }

    /// <summary>Makes one, and deletes what killed runs left.</summary>
    /// <param name="purpose">What for, in one word.</param>
    /// <exception cref="IOException">There is no room for it.</exception>
    internal static TemporaryRunFolder Make(string purpose)
    {
        var shared = PrivateFolder.Within(System.IO.Path.GetTempPath(), purpose);
        try
        {
            if (OperatingSystem.IsWindows()) Directory.CreateDirectory(shared);
            else if (!PrivateFolder.IsFolder(shared)) Directory.CreateDirectory(shared, OwnerOnly);
            else File.SetUnixFileMode(shared, OwnerOnly); // which only the owner can: another user may have made a folder of this name

            foreach (var left in Directory.EnumerateFiles(shared, "*" + LockEnding)) DeleteIfLeft(left);
            var path = System.IO.Path.Combine(shared, Guid.NewGuid().ToString("N"));
            var held = new FileStream(
                path + LockEnding, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
            Directory.CreateDirectory(path);
            return new TemporaryRunFolder(path, held);
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            return new TemporaryRunFolder(Directory.CreateTempSubdirectory(purpose + "-").FullName, null);
        }
    }

    public void Dispose()
    {
        Delete(Path);
        _lock?.Dispose();
    }

    private static void DeleteIfLeft(string lockFile)
    {
        try
        {
            using var held = new FileStream(lockFile, FileMode.Open, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
            Delete(lockFile[..^LockEnding.Length]);
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            // A run holds it, or another has just deleted it.
        }
    }

    private static void Delete(string folder)
    {
        try
        {
            PrivateFolder.Delete(folder);
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            // A few small files in the folder for temporary ones, which the system clears.
        }
    }
}

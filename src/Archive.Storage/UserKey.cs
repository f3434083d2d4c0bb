using System.Security.Cryptography;

namespace Archive.Storage;

/// <summary>A random key that only this user has. It never leaves the machine and is part of nothing that is published.</summary>
internal static class UserKey
{
    private const int Length = 32;
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    private static readonly Lazy<byte[]> Own = new(() => Find(Places()));

    /// <summary>The user's key; made at the first use.</summary>
    internal static ReadOnlySpan<byte> Value => Own.Value;

    /// <summary>The key in the first folder that has one or can hold one. Where none can, it lasts as long as the process.</summary>
    /// <param name="folders">Full paths, best first.</param>
    internal static byte[] Find(IEnumerable<string> folders)
    {
        foreach (var folder in folders)
        {
            try
            {
                return In(folder);
            }
            catch (Exception exception) when (DiskErrors.Is(exception))
            {
                // The next folder may do.
            }
        }

        return RandomNumberGenerator.GetBytes(Length);
    }

    // https://specifications.freedesktop.org/basedir-spec/: what should outlive a run but is worth no backup. A service may have no home;
    // it still has a folder for temporary files.
    private static IEnumerable<string> Places()
    {
        if (Environment.GetEnvironmentVariable("XDG_STATE_HOME") is { Length: > 0 } state && Path.IsPathRooted(state))
            yield return Path.Combine(state, "asfound");
        var home = Environment.GetFolderPath(Environment.SpecialFolder.UserProfile, Environment.SpecialFolderOption.DoNotVerify);
        var local = OperatingSystem.IsWindows()
            ? Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify)
            : Path.Combine(home, ".local", "state");
        if (Path.IsPathRooted(local)) yield return Path.Combine(local, "asfound");
        yield return Path.Combine(Path.GetTempPath(), $"asfound-{Environment.UserName}");
    }

    private static byte[] In(string folder)
    {
        Directory.CreateDirectory(folder);

        // Only the owner of a folder can set its mode: in a folder for temporary files, one that another user made is not used.
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(folder, OwnerOnly);
        var path = Path.Combine(folder, "key");
        if (Read(path) is { } standing) return standing;
        var draft = Path.Combine(folder, $"{Guid.NewGuid():N}.part");
        try
        {
            File.WriteAllBytes(draft, RandomNumberGenerator.GetBytes(Length));
            // A second name is given only where there is none yet: the first of several processes wins, and its key is as good. A move
            // that may not replace looks first and renames then, so two could both see a free place. A file that was torn by a power cut
            // is replaced, and so it is done where the disk knows no second names.
            if (!NativeFolder.TryLink(draft, path) && Read(path) is null) File.Move(draft, path, overwrite: true);
            return Read(path) ?? throw new IOException($"{path} was written but cannot be read");
        }
        finally
        {
            File.Delete(draft);
        }
    }

    private static byte[]? Read(string path)
    {
        if (!File.Exists(path)) return null;

        // Without a lock: a process that is being started may still hold the writer's for a moment, and there would seem to be no key.
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        var bytes = new byte[Length];
        return file.Length == Length && file.ReadAtLeast(bytes, Length, throwOnEndOfStream: false) == Length ? bytes : null;
    }
}

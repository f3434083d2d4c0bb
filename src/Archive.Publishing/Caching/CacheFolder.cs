using System.Security.Cryptography;
using System.Text;
using Archive.Publishing.Publication;
using Archive.Storage;

namespace Archive.Publishing.Caching;

/// <summary>
/// Where a build keeps what it would otherwise do again: developed photos, checksums of inputs, what was published and what was reported
/// about it, and the folders of the tree that a site was before.
/// </summary>
/// <remarks>
/// The cache's laws. What lies in it is never changed, only replaced whole. An entry depends on nothing but its own key, and everything
/// that it was made from is in the key: the bytes of the inputs, the options, the build of the tool. Deleting the folder, or any file in
/// it, costs time and changes nothing else. Nothing in it is published without being checked against what it claims to be. Only the
/// folders of a site's former tree are taken out of it and changed. It is a private folder: a cache that came with an archive is never
/// looked into.
/// </remarks>
/// <param name="Folder">Full path of the private folder.</param>
public sealed record CacheFolder(string Folder)
{
    private const string IgnoreFile = ".gitignore";

    /// <summary>The usual name of the folder that it lies in, beside the archive's folder.</summary>
    public const string UsualName = ".asfound";

    /// <summary>Where developed photos lie.</summary>
    public string Photos => Path.Combine(Folder, "photos");

    /// <summary>
    /// Finds or makes the cache of an archive: the one asked for, else <c>.asfound</c> beside the archive, else one in the user's own cache
    /// folder.
    /// </summary>
    /// <param name="asked">The folder asked for, or null.</param>
    /// <param name="content">The archive's folder.</param>
    /// <exception cref="IOException">The folder asked for cannot be written, or none of the usual ones.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder asked for must not be written.</exception>
    public static CacheFolder Open(string? asked, string content)
    {
        var full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(content));
        if (asked is not null) return Make(Path.GetFullPath(asked));
        try
        {
            var beside = Path.Combine(Path.GetDirectoryName(full) ?? full, UsualName);
            return new DirectoryInfo(beside).LinkTarget is null ? Make(beside) : throw new IOException($"{beside} is a link");
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            var own = Environment.GetFolderPath(
                Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
            var root = Environment.GetEnvironmentVariable("XDG_CACHE_HOME") is { Length: > 0 } named ? named
                : OperatingSystem.IsWindows() ? own
                : Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".cache");
            return MakeOwn(root, KeyOf(full));
        }
    }

    // Anyone who has no home has no cache folder in it: and one below the working folder is not meant.
    private static CacheFolder MakeOwn(string root, string key)
    {
        const string Mend =
            "there is no place for the cache: neither the folder beside the archive nor your own cache folder can be written. Name a folder with --cache";
        if (!Path.IsPathRooted(root)) throw new IOException(Mend);
        try
        {
            return Make(Path.Combine(root, "asfound", key));
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            throw new IOException(Mend, exception);
        }
    }

    /// <summary>Where the folders of the tree that a site was before are kept.</summary>
    /// <param name="site">Full path of the site's folder.</param>
    public string SpareOf(string site) => Path.Combine(Folder, SpareTree.Prefix + KeyOf(Path.GetFullPath(site)));

    /// <summary>A short name for a path or another text: 32 hexadecimal digits of its SHA-256.</summary>
    internal static string KeyOf(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..32];

    /// <summary>Deletes all that is kept; what another run works with there is missing to it, and made again.</summary>
    /// <exception cref="IOException">Something in it cannot be deleted.</exception>
    public void Clear()
    {
        foreach (var entry in new DirectoryInfo(Folder).EnumerateFileSystemInfos().Where(entry => entry.Name != IgnoreFile))
            PrivateFolder.Delete(entry.FullName);
    }

    /// <summary>Replaces a file of the cache whole, or leaves it as it was. A cache that cannot be written is no reason to fail.</summary>
    /// <param name="name">Path below the cache.</param>
    /// <param name="write">Writes the bytes; their checksum is put before them.</param>
    public void Replace(string name, Action<Stream> write)
    {
        try
        {
            using var bytes = new MemoryStream();
            write(bytes);
            var content = bytes.ToArray();
            WholeFile.Replace(Path.Combine(Folder, name), stream =>
            {
                stream.Write(SHA256.HashData(content));
                stream.Write(content);
            });
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            // It is as it was.
        }
    }

    /// <summary>A file of the cache, as it was written; null where there is none, or it is damaged.</summary>
    /// <param name="name">Path below the cache.</param>
    public MemoryStream? Read(string name)
    {
        try
        {
            var path = Path.Combine(Folder, name);
            if (!File.Exists(path)) return null;
            var file = File.ReadAllBytes(path);
            if (file.Length < SHA256.HashSizeInBytes) return null;
            var content = file.AsSpan(SHA256.HashSizeInBytes);
            return SHA256.HashData(content).AsSpan().SequenceEqual(file.AsSpan(0, SHA256.HashSizeInBytes))
                ? new MemoryStream(file, SHA256.HashSizeInBytes, content.Length, writable: false)
                : null;
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            return null;
        }
    }

    private static CacheFolder Make(string folder)
    {
        var own = PrivateFolder.Within(folder, "cache");
        if (new DirectoryInfo(own).LinkTarget is not null) throw new IOException($"{own} is a link that asfound did not create");
        Directory.CreateDirectory(own);

        // Writable or not shows only by writing; the file also keeps the cache out of the curator's repository.
        var ignore = Path.Combine(own, IgnoreFile);
        if (!File.Exists(ignore)) File.WriteAllText(ignore, "*\n");
        var trial = Path.Combine(own, $"{Guid.NewGuid():N}.part");
        File.WriteAllBytes(trial, []);
        File.Delete(trial);
        return new CacheFolder(own);
    }
}

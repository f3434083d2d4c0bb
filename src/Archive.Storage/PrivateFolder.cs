using System.Security.Cryptography;
using System.Text;

namespace Archive.Storage;

/// <summary>
/// Folders that asfound makes for its own work where an archive may come from a stranger: beside a site, beside a bag, in a cache. Part of
/// such a folder's name can be computed only with the user's key, from the folder's purpose and place. So nobody who wrote an archive
/// elsewhere can have put anything into it: what is found there was left by this user's asfound. A folder of any other name is a
/// stranger's. It is never looked into, followed, or deleted.
/// </summary>
public static class PrivateFolder
{
    // 64 bits: enough that no archive can carry every name.
    private const int TagLength = 16;

    /// <summary>The folder that serves a purpose beside a file or folder: <c>.NAME.PURPOSE-0123456789abcdef</c>.</summary>
    /// <param name="path">Full path of the file or folder, which need not exist.</param>
    /// <param name="purpose">One word.</param>
    public static string Beside(string path, string purpose)
    {
        var real = RealPath.Resolve(path) ?? path;
        return Path.Combine(
            Path.GetDirectoryName(real) ?? real, $".{Path.GetFileName(real)}.{purpose}-{Tag(UserKey.Value, purpose, real)}");
    }

    /// <summary>The folder that serves a purpose within another: <c>PURPOSE-0123456789abcdef</c>.</summary>
    /// <param name="folder">Full path of the other, which need not exist.</param>
    /// <param name="purpose">One word.</param>
    public static string Within(string folder, string purpose)
    {
        var real = RealPath.Resolve(folder) ?? folder;
        return Path.Combine(real, $"{purpose}-{Tag(UserKey.Value, purpose, real)}");
    }

    /// <summary>Deletes a folder with all that is in it; a link is deleted itself, never what it leads to.</summary>
    /// <param name="folder">Full path; there need not be anything.</param>
    /// <exception cref="IOException">Something in it cannot be deleted.</exception>
    public static void Delete(string folder)
    {
        if (!IsFolder(folder))
        {
            File.Delete(folder);
            return;
        }

        // A site's second level is where nearly all of it is.
        foreach (var part in Directory.GetDirectories(folder).Where(IsFolder))
            Parallel.ForEach(Directory.GetDirectories(part).Where(IsFolder), below => Directory.Delete(below, recursive: true));
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>Whether a path names a folder itself, not a link to one.</summary>
    /// <param name="path">Full path.</param>
    public static bool IsFolder(string path) => new DirectoryInfo(path) is { Exists: true, LinkTarget: null };

    /// <summary>The part of a name that nobody else can compute.</summary>
    /// <param name="key">The user's key.</param>
    /// <param name="purpose">What the folder is for.</param>
    /// <param name="place">Where it is.</param>
    internal static string Tag(ReadOnlySpan<byte> key, string purpose, string place) =>
        Convert.ToHexStringLower(HMACSHA256.HashData(key, Encoding.UTF8.GetBytes($"{purpose}\n{place}")))[..TagLength];
}

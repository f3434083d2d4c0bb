using System.Collections.Immutable;

namespace Archive.Storage;

/// <summary>A file that is to be changed, or made.</summary>
/// <param name="Path">Its path below the folder, separated by <c>/</c>.</param>
/// <param name="Before">The bytes from which the change was made; null for a file that did not exist.</param>
/// <param name="After">Its new bytes.</param>
public sealed record FileChange(string Path, byte[]? Before, byte[] After);

/// <summary>What came of changes.</summary>
/// <param name="Written">Paths that were written.</param>
/// <param name="Refused">Paths that were not, with the reason; a sentence without capital and full stop.</param>
public sealed record FileChangeOutcome(ImmutableArray<string> Written, ImmutableArray<(string Path, string Why)> Refused);

/// <summary>Changes files that someone may be editing meanwhile, and that may come from a stranger.</summary>
public static class FileChanges
{
    /// <summary>
    /// Changes files: each whole or not at all, none that is no longer what it was, and nothing through a link. All are looked at first: if
    /// one is refused, none is written.
    /// </summary>
    /// <param name="root">The folder that they are in; it may itself be reached through links.</param>
    public static FileChangeOutcome Write(string root, IReadOnlyCollection<FileChange> changes)
    {
        var refused = changes.Select(change => (change.Path, Why: WhyNot(root, change))).Where(change => change.Why is not null).ToList();
        if (refused.Count > 0) return new FileChangeOutcome([], [.. refused.Select(change => (change.Path, change.Why!))]);
        var written = ImmutableArray.CreateBuilder<string>();
        foreach (var change in changes)
        {
            try
            {
                Replace(root, change);
                written.Add(change.Path);
            }
            catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
            {
                return new FileChangeOutcome(written.ToImmutable(), [(change.Path, WhyNot(root, change) ?? "it cannot be written")]);
            }
        }

        return new FileChangeOutcome(written.ToImmutable(), []);
    }

    private static void Replace(string root, FileChange change)
    {
        var path = FullPath(root, change.Path);
        WholeFile.Replace(
            path,
            stream =>
            {
                if (!OperatingSystem.IsWindows() && change.Before is not null)
                    File.SetUnixFileMode(stream.SafeFileHandle, File.GetUnixFileMode(path));
                stream.Write(change.After);
            },
            verify: _ =>
            {
                if (WhyNot(root, change) is { } why) throw new IOException(why);
            });
    }

    private static string? WhyNot(string root, FileChange change)
    {
        try
        {
            if (System.IO.Path.IsPathRooted(change.Path) || change.Path.Split('/', '\\').Any(part => part is "" or "." or ".."))
                return "it is not in the folder";
            if (IsThroughLink(root, change.Path)) return "it is a link, or in a folder that is one";
            var path = FullPath(root, change.Path);
            if (change.Before is null) return System.IO.Path.Exists(path) ? "a file of this name was made meanwhile" : null;
            if (!File.Exists(path)) return "it is no longer there";

            // A pipe has no length, and reading it may have no end.
            if (new FileInfo(path).Length is var length && (length != change.Before.Length || length == 0))
                return length == change.Before.Length ? null : "it was changed meanwhile";
            return File.ReadAllBytes(path).AsSpan().SequenceEqual(change.Before) ? null : "it was changed meanwhile";
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            return "it cannot be read";
        }
    }

    private static bool IsThroughLink(string root, string path)
    {
        var at = root;
        foreach (var part in path.Split('/'))
        {
            at = System.IO.Path.Combine(at, part);
            if (new FileInfo(at).LinkTarget is not null) return true;
        }

        return false;
    }

    private static string FullPath(string root, string path) =>
        System.IO.Path.Combine(root, path.Replace('/', System.IO.Path.DirectorySeparatorChar));
}

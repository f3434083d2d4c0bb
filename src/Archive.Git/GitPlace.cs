using Archive.Records.Reading;
using Archive.Storage;

namespace Archive.Git;

/// <summary>
/// Where the repository of a folder lies: found by looking for <c>.git</c> upwards, as git does, but a bare repository is never one. Such a
/// repository can lie in an archive as ordinary files and arrive with a plain clone; <c>.git</c> cannot.
/// </summary>
/// <param name="Folder">The folder, without links in it.</param>
/// <param name="WorkTree">The folder that holds <c>.git</c>.</param>
/// <param name="Own">The git folder of this work tree: its HEAD and index.</param>
/// <param name="Common">The git folder that all work trees of a repository share: its branches and objects.</param>
internal sealed record GitPlace(string Folder, string WorkTree, string Own, string Common)
{
    // Such files hold a path or the name of an object.
    private const int LongestNote = 1 << 13;

    // As git does: a repository borrows from another, which borrows, and so on five times.
    private const int MostBorrowings = 6;

    /// <summary>Finds it; null where a folder is not kept in git.</summary>
    /// <param name="folder">Full path of the folder.</param>
    internal static GitPlace? Find(string folder)
    {
        if (RealPath.Resolve(folder) is not { } real) return null;
        for (var tree = real; tree is not null; tree = Path.GetDirectoryName(tree))
        {
            var git = Path.Combine(tree, ".git");
            var own = Directory.Exists(git)
                ? git
                : Note(git) is { } note && note.StartsWith("gitdir: ", StringComparison.Ordinal)
                ? Path.GetFullPath(note["gitdir: ".Length..], tree)
                : null;
            if (own is null || !Path.Exists(Path.Combine(own, "HEAD"))) continue;
            return new GitPlace(
                real, tree, own, Note(Path.Combine(own, "commondir")) is { Length: > 0 } common ? Path.GetFullPath(common, own) : own);
        }

        return null;
    }

    /// <summary>The folder within the work tree, separated as the system does; empty for the work tree itself.</summary>
    internal string Prefix => Path.GetRelativePath(WorkTree, Folder) is var path && path == "." ? "" : path;

    /// <summary>The folder of its objects.</summary>
    internal string Objects => Path.Combine(Common, "objects");

    /// <summary>
    /// Why its objects cannot be read, in a few words; null where they can: git would wait for ever at a pipe, and read a device without
    /// end.
    /// </summary>
    internal string? WhyUnreadable => WhyNot(Objects, MostBorrowings, new HashSet<string>(StringComparer.Ordinal));

    private string? WhyNot(string objects, int more, HashSet<string> seen)
    {
        if (more == 0 || !Directory.Exists(objects) || !seen.Add(objects)) return null;
        if (ObjectFiles(objects).FirstOrDefault(file => SpecialFile.KindOf(file) is not null) is { } special)
            return $"{Path.GetRelativePath(WorkTree, special)} is {SpecialFile.KindOf(special)}";
        var list = Path.Combine(objects, "info", "alternates");
        if (!Path.Exists(list) || new FileInfo(list) is { LinkTarget: null, Length: 0 }) return null;
        if (Note(list) is not { } borrowed)
            return $"{Path.GetRelativePath(WorkTree, list)}, the list of borrowed objects, is not an ordinary file, or is very long";
        foreach (var line in borrowed.Split('\n').Where(line => line.Length > 0 && line[0] != '#'))
        {
            // Git takes a line in quotes for a path with letters of another kind.
            if (line[0] == '"') return $"{Path.GetRelativePath(WorkTree, list)} names a folder in quotes";
            if (WhyNot(Path.GetFullPath(line, objects), more - 1, seen) is { } why) return why;
        }

        return null;
    }

    // Where git looks: objects one by one in folders of two digits, packs and their lists, and what is said of them.
    private static IEnumerable<string> ObjectFiles(string objects)
    {
        var options = new EnumerationOptions { AttributesToSkip = 0 };
        var folders = Directory.EnumerateDirectories(objects, "*", options)
            .Where(folder => Path.GetFileName(folder) is { Length: 2 } or "info" or "pack")
            .Append(Path.Combine(objects, "info", "commit-graphs"));
        return folders.Where(Directory.Exists).SelectMany(folder => Directory.EnumerateFiles(folder, "*", options));
    }

    /// <summary>The text of a small file of git's, without the line's end; null where it is none: a link, a pipe, or too long.</summary>
    /// <param name="file">Full path.</param>
    internal static string? Note(string file) => IsFile(file, LongestNote)
        ? File.ReadAllText(file).TrimEnd('\r', '\n') is var text && !text.Contains('\0', StringComparison.Ordinal) ? text : null
        : null;

    /// <summary>Whether there is an ordinary file with something in it; pipes and devices say that nothing is in them.</summary>
    /// <param name="file">Full path.</param>
    /// <param name="most">Bytes at most.</param>
    internal static bool IsFile(string file, long most) =>
        new FileInfo(file) is { Exists: true, LinkTarget: null, Length: > 0 and var length } && length <= most;
}

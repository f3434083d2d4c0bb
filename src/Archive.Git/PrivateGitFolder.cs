using System.Text;

namespace Archive.Git;

/// <summary>
/// A git folder of our own, in which git works in place of the repository's. It takes over the branches, HEAD and index as copies, reads
/// the objects where they are, and has settings of its own: git never reads the repository's, so none can do anything. Deleted when done.
/// </summary>
internal sealed class PrivateGitFolder : IDisposable
{
    // A branch's file holds the name of an object or of a branch.
    private const int LongestBranch = 1 << 13;

    private static readonly string[] HeadNames = ["HEAD", "ORIG_HEAD", "FETCH_HEAD", "MERGE_HEAD", "CHERRY_PICK_HEAD", "REVERT_HEAD"];

    private readonly GitPlace _place;
    private readonly TemporaryRunFolder _root;
    private bool _hasIndex, _hasLogs;

    private PrivateGitFolder(GitPlace place, TemporaryRunFolder root)
    {
        (_place, _root) = (place, root);
        Directory.CreateDirectory(Own);
        Directory.CreateDirectory(Standing(isOfFiles: false));
        Directory.CreateDirectory(Path.Combine(Common, "refs"));
        File.WriteAllText(NoFile, "");

        // The variable alone is not enough: a branch is looked for where this file says.
        if (IsFurther) File.WriteAllText(Path.Combine(Own, "commondir"), Common + "\n");
        foreach (var name in HeadNames)
        {
            if (Head(Path.Combine(place.Own, name)) is { } head) File.WriteAllText(Path.Combine(Own, name), head + "\n");
        }

        Copy(Path.Combine(place.Common, "refs"), Path.Combine(Common, "refs"), LongestBranch);
        CopyFile(place.Common, Common, "packed-refs", long.MaxValue);
        CopyFile(place.Common, Common, "shallow", long.MaxValue);
        Copy(Path.Combine(place.Common, "reftable"), Path.Combine(Common, "reftable"), long.MaxValue);
        if (IsFurther) Copy(Path.Combine(place.Own, "reftable"), Path.Combine(Own, "reftable"), long.MaxValue);
        WriteSettings([]);
    }

    /// <summary>Full path of the folder.</summary>
    internal string Root => _root.Path;

    /// <summary>Full path of a file with nothing in it.</summary>
    internal string NoFile => Path.Combine(Root, "none");

    /// <summary>What tells git to work in it.</summary>
    /// <param name="isOfFiles">Whether it sees the archive's files as they are; else it sees an empty work tree.</param>
    internal IEnumerable<(string Name, string Value)> Environment(bool isOfFiles) =>
        [
                ("GIT_DIR", Own),
                ("GIT_COMMON_DIR", Common),
                ("GIT_WORK_TREE", isOfFiles ? _place.WorkTree : WorkTree),
                ("GIT_OBJECT_DIRECTORY", _place.Objects)
            ];

    /// <summary>Where git stands: in the archive's folder, or in its place in the empty work tree.</summary>
    /// <param name="isOfFiles">Whether it sees the archive's files.</param>
    internal string Standing(bool isOfFiles) => isOfFiles ? _place.Folder : Path.Combine(WorkTree, _place.Prefix);

    /// <summary>The empty work tree.</summary>
    internal string WorkTree => Path.Combine(Root, "tree");

    // Of a further work tree of a repository there are two folders; of the first there is one.
    private string Own => IsFurther ? Path.Combine(Root, "own") : Common;

    private bool IsFurther => _place.Own != _place.Common;

    private string Common => Path.Combine(Root, "common");

    /// <summary>Makes one.</summary>
    /// <param name="place">Where the repository lies.</param>
    /// <exception cref="IOException">There is no room for it.</exception>
    internal static PrivateGitFolder Create(GitPlace place, CancellationToken cancellation)
    {
        var folder = new PrivateGitFolder(place, TemporaryRunFolder.Make("asfound-git"));
        try
        {
            var users = GitProcess.StartForUserSettings(folder, GitSettings.UsersQuery);
            var settings = GitSettings.Parse(GitProcess.Read(users, cancellation, out _));
            var file = Path.Combine(place.Common, "config");
            if (GitPlace.IsFile(file, GitSettings.LargestFile))
            {
                // Taken as a file of data: what it includes is not read.
                using var repository = GitProcess.Start(
                    folder, isOfFiles: false, ["config", "--file", file, "--no-includes", .. GitSettings.Query]);
                settings = [.. settings, .. GitSettings.Parse(GitProcess.Read(repository, cancellation, out _))];
            }

            folder.WriteSettings(settings);
            users?.Dispose();
            return folder;
        }
        catch
        {
            folder.Dispose();
            throw;
        }
    }

    /// <summary>Takes over the index, which says what the work tree's files were when they were last looked at.</summary>
    internal void TakeIndex()
    {
        if (_hasIndex) return;
        _hasIndex = true;
        foreach (var name in Directory.EnumerateFiles(_place.Own, "sharedindex.*").Select(Path.GetFileName).Prepend("index"))
            CopyFile(_place.Own, Own, name!, long.MaxValue);
    }

    /// <summary>Gives the index that was taken over the time of the repository's own.</summary>
    internal void DateIndex()
    {
        if (File.Exists(Path.Combine(Own, "index"))) Date(Path.Combine(_place.Own, "index"), Path.Combine(Own, "index"));
    }

    /// <summary>Takes over a file of the archive, so that git can be asked of it as it is.</summary>
    /// <param name="path">Its path below the archive's folder.</param>
    /// <returns>Whether it could be.</returns>
    internal bool TakeFile(string path)
    {
        var copy = Path.GetFullPath(Path.Combine(Standing(isOfFiles: false), path));
        var file = Path.Combine(_place.Folder, path);
        if (!copy.StartsWith(Standing(isOfFiles: false) + Path.DirectorySeparatorChar, StringComparison.Ordinal)
            || !GitPlace.IsFile(file, long.MaxValue)) return false;
        Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
        File.Copy(file, copy, overwrite: true);
        return true;
    }

    /// <summary>Takes over where branches stood before, as <c>main@{yesterday}</c> asks.</summary>
    internal void TakeLogs()
    {
        if (_hasLogs) return;
        _hasLogs = true;
        Copy(Path.Combine(_place.Own, "logs"), Path.Combine(Own, "logs"), long.MaxValue);
        if (IsFurther) Copy(Path.Combine(_place.Common, "logs"), Path.Combine(Common, "logs"), long.MaxValue);
    }

    public void Dispose() => _root.Dispose();

    private void WriteSettings(IReadOnlyCollection<GitSetting> settings)
    {
        var version = settings.Any(setting => setting.Section == "extensions") ? 1 : 0;
        var text = new StringBuilder(FormattableString.Invariant($"[core]\n\trepositoryformatversion = {version}\n\tbare = false\n"))
            .Append("\tcommitGraph = false\n\tquotePath = false\n\tsafecrlf = false\n\tfsmonitor = false\n[protocol]\n\tallow = never\n[gc]\n\tauto = 0\n");
        foreach (var setting in settings) text.Append(setting.Written);
        File.WriteAllText(Path.Combine(Common, "config"), text.ToString());
    }

    // Old repositories hold a link to the branch in place of its name.
    private static string? Head(string file) => new FileInfo(file).LinkTarget is { } target
        ? target.StartsWith("refs/", StringComparison.Ordinal) ? $"ref: {target}" : null
        : GitPlace.Note(file);

    private static void Copy(string from, string to, long most)
    {
        var folder = new DirectoryInfo(from);
        if (!folder.Exists || folder.LinkTarget is not null) return;
        Directory.CreateDirectory(to);
        foreach (var file in folder.EnumerateFiles()) CopyFile(from, to, file.Name, most);
        foreach (var inner in folder.EnumerateDirectories()) Copy(inner.FullName, Path.Combine(to, inner.Name), most);
    }

    private static void CopyFile(string from, string to, string name, long most)
    {
        var file = Path.Combine(from, name);
        if (!GitPlace.IsFile(file, most)) return;
        var copy = Path.Combine(to, name);
        File.Copy(file, copy, overwrite: true);
        Date(file, copy);
    }

    // Git compares the index's own time with those of files, to see which changed in the same moment.
    private static void Date(string like, string file) => File.SetLastWriteTimeUtc(file, File.GetLastWriteTimeUtc(like));
}

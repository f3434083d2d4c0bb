using System.Collections.Frozen;
using System.Globalization;
using System.Text;
using Archive.Git;
using Archive.Records.Reading;

namespace Archive.Comparison;

/// <summary>
/// Reads an archive's folder as a commit holds it. Only files that hold records are read; of others it is known that they are there.
/// </summary>
/// <param name="name">What the commit is called, exactly as typed.</param>
internal sealed class RevisionReader(GitRepository repository, string name)
{
    // A few small objects can describe folders without end, and one object can be many files; no archive comes near these.
    private const int MostFiles = 250_000;
    private const long MostBytes = 1L << 30;

    /// <summary>Whether a file holds records or what is said of them, by its name.</summary>
    internal static bool HoldsText(string path) =>
        Path.GetExtension(path).ToLowerInvariant() is ".yaml" or ".yml" or ".csv" or ".md" or ".txt";

    /// <param name="commit">Full name of the commit.</param>
    /// <param name="why">Why it is no state of the archive.</param>
    internal ArchiveVersion? Read(string commit, out string why)
    {
        why = "";
        var (files, error) = List(commit);
        if (error is not null) return Unreadable(error);
        if (files.CountBy(file => file.Path).FirstOrDefault(file => file.Value > 1).Key is { } twice)
            return Unreadable($"one of its folders has two files with the same name, {twice}");
        var texts = files.Where(file => HoldsText(file.Path)).ToList();
        if (texts.Count == 0)
        {
            why = $"{name} has no archive in this place; if the archive was in another folder then, check that revision out with `git worktree add` and name its folder";
            repository.Dispose();
            return null;
        }

        (var sizes, error) = Sizes(files);
        if (error is not null) return Unreadable(error);
        var missing = texts.Where(file => !sizes.ContainsKey(file.Blob)).ToList();
        if (missing.Count > 0) return Missing(missing);
        if (texts.Sum(file => sizes[file.Blob]) > MostBytes) return Unreadable("its records exceed 1 GB");
        (var contents, error) = Contents(texts);
        if (error is not null) return Unreadable(error);
        var folder = InMemoryFolder.Empty;
        foreach (var file in files)
            folder = folder.With(file.Path, contents.GetValueOrDefault(file.Blob) is { } bytes && HoldsText(file.Path) ? bytes : []);
        var blobs = files.ToFrozenDictionary(
            file => file.Path,
            file => new OriginalFile(sizes.TryGetValue(file.Blob, out var size) ? size : null, file.Blob, null),
            StringComparer.Ordinal);
        return new ArchiveVersion(name, folder) { Repository = repository, Commit = commit, Blobs = blobs };
    }

    private ArchiveVersion Unreadable(string error) =>
        new(name, InMemoryFolder.Empty) { Repository = repository, Unreadable = HistoryDiagnostics.Unreadable(name, error) };

    private ArchiveVersion Missing(List<GitFile> missing)
    {
        var what = missing.Count == 1
            ? missing[0].Path
            : FormattableString.Invariant($"the content of {missing.Count:N0} files, the first of them {missing[0].Path},");
        return new ArchiveVersion(name, InMemoryFolder.Empty)
        {
            Repository = repository,
            Unreadable = HistoryDiagnostics.Missing(name, what, missing[0].Blob)
        };
    }

    private (List<GitFile> Files, string? Error) List(string commit)
    {
        using var git = repository.Start("ls-tree", "-r", "-z", commit, "--", ".");
        if (git is null) return ([], "git cannot be started");
        git.Process.StandardInput.Close();
        var files = new List<GitFile>();
        foreach (var entry in Entries(git.Process.StandardOutput))
        {
            if (GitFile.Parse(entry) is { } file) files.Add(file);
            if (files.Count > MostFiles) return ([], FormattableString.Invariant($"it has more than {MostFiles:N0} files"));
        }

        return (files, git.Ended());
    }

    private static IEnumerable<string> Entries(StreamReader said)
    {
        var entry = new StringBuilder();
        var letters = new char[1 << 14];
        for (var count = said.Read(letters); count > 0; count = said.Read(letters))
        {
            for (var from = 0; from < count;)
            {
                var end = Array.IndexOf(letters, '\0', from, count - from);
                entry.Append(letters, from, (end < 0 ? count : end) - from);
                if (end < 0) break;
                yield return entry.ToString();
                entry.Clear();
                from = end + 1;
            }
        }
    }

    // All through one process: the names go in, each comes out as "HASH blob SIZE", or as "HASH missing".
    private (Dictionary<string, long> Sizes, string? Error) Sizes(List<GitFile> files)
    {
        var sizes = new Dictionary<string, long>(StringComparer.Ordinal);
        using var git = repository.Start("cat-file", "--batch-check");
        if (git is null) return (sizes, "git cannot be started");
        var asking = Name(git, files);
        while (git.Process.StandardOutput.ReadLine() is { } line)
        {
            if (line.Split(' ') is [var blob, "blob", var size]) sizes[blob] = long.Parse(size, CultureInfo.InvariantCulture);
        }

        asking.GetAwaiter().GetResult();
        return (sizes, git.Ended());
    }

    // The same with "\n", the bytes, "\n" behind each line.
    private (Dictionary<string, byte[]> Contents, string? Error) Contents(List<GitFile> files)
    {
        var contents = new Dictionary<string, byte[]>(StringComparer.Ordinal);
        using var git = repository.Start("cat-file", "--batch");
        if (git is null) return (contents, "git cannot be started");
        var asking = Name(git, files);
        using var stream = new BufferedStream(git.Process.StandardOutput.BaseStream, 1 << 16);
        string head;
        while ((head = Line(stream)).Split(' ') is [var blob, "blob", var size])
        {
            var bytes = contents[blob] = new byte[int.Parse(size, CultureInfo.InvariantCulture)];
            if (stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false) < bytes.Length || stream.ReadByte() != '\n') break;
        }

        if (head.Length > 0) GitProcess.End(git.Process); // it would wait for what it says to be read
        asking.GetAwaiter().GetResult();
        if (git.Ended() is { } error) return (contents, error);
        return (
            contents,
            files.FirstOrDefault(file => !contents.ContainsKey(file.Blob)).Path is { } path ? $"git does not return {path}" : null);
    }

    private static Task Name(GitTalk git, List<GitFile> files) =>
        Task.Run(() => GitProcess.Give(
            git.Process, string.Concat(files.Select(file => file.Blob).Distinct(StringComparer.Ordinal).Select(blob => blob + "\n"))));

    private static string Line(Stream stream)
    {
        var line = new StringBuilder();
        for (var letter = stream.ReadByte(); letter is not ('\n' or -1) && line.Length < 200; letter = stream.ReadByte())
            line.Append((char)letter);
        return line.ToString();
    }
}

/// <summary>A file in a commit.</summary>
/// <param name="Path">Its path below the archive's folder.</param>
/// <param name="Blob">Name of its content.</param>
internal readonly record struct GitFile(string Path, string Blob)
{
    /// <summary>
    /// Reads what <c>ls-tree</c> says: MODE blob HASH, a tab, PATH. A link (120000) or a repository within it (160000) is no file.
    /// </summary>
    /// <param name="entry">What it says of one.</param>
    internal static GitFile? Parse(string entry)
    {
        var tab = entry.IndexOf('\t', StringComparison.Ordinal);
        return tab >= 0 && entry[..tab].Split(' ') is [['1', '0', ..], "blob", var blob] ? new GitFile(entry[(tab + 1)..], blob) : null;
    }
}

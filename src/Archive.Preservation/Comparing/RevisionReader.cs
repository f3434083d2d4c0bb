using System.Collections.Frozen;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using Archive.Records;

namespace Archive.Preservation;

/// <summary>Reads an archive's folder as a commit holds it. Only files that hold records are read; of others it is known that they are there.</summary>
/// <param name="repository">The repository.</param>
/// <param name="name">What the commit is called, as it was typed.</param>
internal sealed class RevisionReader(GitRepository repository, string name)
{
    // A few small objects can describe a tree without end; no archive comes near these.
    private const int MostFiles = 1_000_000;
    private const long MostBytes = 1L << 30;

    /// <summary>Whether a file holds records or what is said of them, by its name.</summary>
    /// <param name="path">Its path.</param>
    internal static bool HoldsText(string path) => Path.GetExtension(path).ToLowerInvariant() is ".yaml" or ".yml" or ".csv" or ".md" or ".txt";

    /// <summary>Reads it.</summary>
    /// <param name="commit">Full name of the commit.</param>
    /// <param name="why">Why it is no state of the archive.</param>
    internal Edition? Read(string commit, out string why)
    {
        why = "";
        var (files, error) = List(commit);
        if (error is not null) return Unreadable(error);
        var texts = files.Where(file => HoldsText(file.Path)).ToList();
        if (texts.Count == 0)
        {
            why = $"{name} holds no archive where this one is; if it was in another folder then, take that state out with `git worktree add` and name its folder";
            repository.Dispose();
            return null;
        }

        if (texts.Sum(file => file.Size ?? 0) > MostBytes) return Unreadable("its records are more than 1 GB");
        var folder = MemoryFolder.Empty;
        foreach (var file in files.Where(file => !HoldsText(file.Path))) folder = folder.With(file.Path, []);
        if (Add(texts, ref folder) is { } fault) return fault;
        var blobs = files.ToFrozenDictionary(file => file.Path, file => new OriginalFile(file.Size, file.Blob, null), StringComparer.Ordinal);
        return new Edition(name, folder) { Repository = repository, Commit = commit, Blobs = blobs };
    }

    private Edition Unreadable(string error) => new(name, MemoryFolder.Empty) { Repository = repository, Unreadable = HistoryFaults.Unreadable(name, error) };

    private (List<GitFile> Files, string? Error) List(string commit)
    {
        using var git = repository.Start("ls-tree", "-r", "-l", "-z", commit, "--", ".");
        if (git is null) return ([], "git cannot be started");
        git.StandardInput.Close();
        var complaint = git.StandardError.ReadToEndAsync();
        var files = new List<GitFile>();
        foreach (var entry in Entries(git.StandardOutput))
        {
            if (GitFile.Of(entry) is { } file) files.Add(file);
            if (files.Count <= MostFiles) continue;
            git.Kill();
            return ([], FormattableString.Invariant($"it holds more than {MostFiles:N0} files"));
        }

        git.WaitForExit();
        return git.ExitCode == 0 ? (files, null) : ([], GitRepository.FirstLine(complaint.GetAwaiter().GetResult()) ?? "git ended in an error");
    }

    private static IEnumerable<string> Entries(StreamReader said)
    {
        var entry = new StringBuilder();
        var letters = new char[1 << 14];
        for (var count = said.Read(letters); count > 0; count = said.Read(letters))
        {
            foreach (var letter in letters.AsMemory(0, count).ToArray())
            {
                if (letter != '\0')
                {
                    entry.Append(letter);
                    continue;
                }

                yield return entry.ToString();
                entry.Clear();
            }
        }
    }

    // All through one process: the names go in, each comes out as "HASH blob SIZE\n", its bytes, "\n"; or as "HASH missing\n".
    private Edition? Add(List<GitFile> files, ref MemoryFolder folder)
    {
        using var git = repository.Start("cat-file", "--batch");
        if (git is null) return Unreadable("git cannot be started");
        var complaint = git.StandardError.ReadToEndAsync();
        var asking = Task.Run(() => Name(git, files));
        var stream = new BufferedStream(git.StandardOutput.BaseStream, 1 << 16);
        var missing = new List<GitFile>();
        foreach (var file in files)
        {
            var head = Line(stream).Split(' ');
            if (head is [_, "missing"])
            {
                missing.Add(file);
                continue;
            }

            var bytes = head is [_, "blob", var size] && int.TryParse(size, NumberStyles.None, CultureInfo.InvariantCulture, out var length) ? new byte[length] : null;
            if (bytes is null || stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false) < bytes.Length || stream.ReadByte() != '\n')
            {
                if (!git.HasExited) git.Kill();
                return Unreadable(GitRepository.FirstLine(complaint.GetAwaiter().GetResult()) ?? $"git does not give {file.Path}");
            }

            folder = folder.With(file.Path, bytes);
        }

        asking.GetAwaiter().GetResult();
        git.WaitForExit();
        if (missing.Count == 0) return null;
        var what = missing.Count == 1 ? $"{missing[0].Path}" : FormattableString.Invariant($"the content of {missing.Count:N0} files, the first of them {missing[0].Path},");
        return new Edition(name, MemoryFolder.Empty) { Repository = repository, Unreadable = HistoryFaults.Missing(name, what, missing[0].Blob) };
    }

    private static void Name(Process git, List<GitFile> files)
    {
        try
        {
            foreach (var file in files) git.StandardInput.Write(file.Blob + "\n");
            git.StandardInput.Close();
        }
        catch (IOException)
        {
            // Git has ended; what it did not give is reported where it is read.
        }
    }

    private static string Line(Stream stream)
    {
        var line = new StringBuilder();
        for (var letter = stream.ReadByte(); letter is not ('\n' or -1) && line.Length < 200; letter = stream.ReadByte()) line.Append((char)letter);
        return line.ToString();
    }
}

/// <summary>A file in a commit.</summary>
/// <param name="Path">Its path below the archive's folder.</param>
/// <param name="Blob">Name of its content.</param>
/// <param name="Size">Bytes; null where its content is missing.</param>
internal readonly record struct GitFile(string Path, string Blob, long? Size)
{
    /// <summary>Reads what <c>ls-tree -l</c> says: MODE blob HASH SIZE, a tab, PATH. A link (120000) or a repository within it (160000) is no file.</summary>
    /// <param name="entry">What it says of one.</param>
    internal static GitFile? Of(string entry)
    {
        var tab = entry.IndexOf('\t', StringComparison.Ordinal);
        if (tab < 0 || entry[..tab].Split(' ', StringSplitOptions.RemoveEmptyEntries) is not [['1', '0', ..], "blob", var blob, var size]) return null;
        return new GitFile(entry[(tab + 1)..], blob, long.TryParse(size, NumberStyles.None, CultureInfo.InvariantCulture, out var bytes) ? bytes : null);
    }
}

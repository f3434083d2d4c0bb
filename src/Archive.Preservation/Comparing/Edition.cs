using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Archive.Records;

namespace Archive.Preservation;

/// <summary>One state of a record: a folder as it lies, a sealed bag, or a revision in git.</summary>
/// <param name="Name">What it is called, as it was typed.</param>
/// <param name="Folder">Its files.</param>
public sealed record Edition(string Name, IArchiveFolder Folder)
{
    private const string Statement = "archive.yaml";

    // The repository it is kept in, if its history can be asked for who and when; and the commit, where it is not a folder as it lies.
    internal GitRepository? Repository { get; init; }

    internal string? Commit { get; init; }

    // Where git names the content of files.
    internal FrozenDictionary<string, OriginalFile>? Blobs { get; init; }

    /// <summary>Finds what a name means.</summary>
    /// <param name="name">A folder, a bag's folder, or a revision of the archive's own history.</param>
    /// <param name="content">Full path of the archive's folder.</param>
    /// <param name="why">Why it means nothing.</param>
    public static Edition? Of(string name, string content, out string why)
    {
        why = "";
        var full = name.Length == 0 ? "" : Path.TrimEndingDirectorySeparator(Path.GetFullPath(name));
        if (File.Exists(Path.Combine(full, BagDeclaration.FileName)) && Directory.Exists(full))
        {
            var record = Path.Combine(full, "data", "record");
            if (Directory.Exists(record)) return new Edition(name, new ArchiveFolder(record));
            why = $"the bag {name} holds no record: it has no folder data/record";
            return null;
        }

        if (Directory.Exists(full) && File.Exists(Path.Combine(full, Statement))) return Lying(name, full);
        if (File.Exists(full) && name.EndsWith(".zip", StringComparison.OrdinalIgnoreCase)) return PackedRecord.Read(full, out why) is { } packed ? new Edition(name, packed) : null;
        return OfRevision(name, content, Directory.Exists(full), out why);
    }

    private static Edition? OfRevision(string name, string content, bool isFolder, out string why)
    {
        why = isFolder ? $"the folder {name} holds no archive: it has no {Statement}" : "";
        if (GitRepository.Of(content, out var reason) is not { } repository)
        {
            if (!isFolder) why = $"{name} is no folder, and the archive has no history to look in: {reason}";
            return null;
        }

        if (repository.Commit(name) is { } commit)
        {
            var (folder, blobs) = Revision.Read(repository, commit);
            return new Edition(name, folder) { Repository = repository, Commit = commit, Blobs = blobs };
        }

        if (!isFolder) why = $"{name} is neither a folder nor a revision in the archive's history{(repository.IsShallow ? ", of which only the end was fetched: `git fetch --unshallow` brings the rest" : "")}";
        return null;
    }

    /// <summary>The archive's folder as it lies.</summary>
    /// <param name="name">What it is called.</param>
    /// <param name="content">Full path of the archive's folder.</param>
    public static Edition Lying(string name, string content) => new(name, new ArchiveFolder(content)) { Repository = GitRepository.Of(content, out _) };
}

/// <summary>An archive's folder as a commit holds it. Only files that hold records are read; of others it is known that they are there.</summary>
internal static class Revision
{
    internal static (MemoryFolder Folder, FrozenDictionary<string, OriginalFile> Blobs) Read(GitRepository repository, string commit)
    {
        var listed = repository.Ask(out _, "ls-tree", "-r", "-l", "-z", commit, "--", ".") ?? "";
        var files = new List<(string Path, string Blob)>();
        var blobs = new Dictionary<string, OriginalFile>(StringComparer.Ordinal);
        foreach (var line in listed.Split('\0', StringSplitOptions.RemoveEmptyEntries))
        {
            // MODE blob HASH SIZE<tab>PATH; a link (120000) or a module of its own (160000) is no file.
            var tab = line.IndexOf('\t', StringComparison.Ordinal);
            if (line[..tab].Split(' ', StringSplitOptions.RemoveEmptyEntries) is not [['1', '0', ..], "blob", var blob, var size]) continue;
            files.Add((line[(tab + 1)..], blob));
            blobs[line[(tab + 1)..]] = new OriginalFile(long.Parse(size, CultureInfo.InvariantCulture), blob, null);
        }

        var folder = MemoryFolder.Empty;
        foreach (var (path, _) in files.Where(file => !HoldsText(file.Path))) folder = folder.With(path, []);
        foreach (var (path, bytes) in Blobs(repository, [.. files.Where(file => HoldsText(file.Path))])) folder = folder.With(path, bytes);
        return (folder, blobs.ToFrozenDictionary(StringComparer.Ordinal));
    }

    // All through one process: the names go in, each comes out as "HASH blob SIZE\n", its bytes, "\n".
    private static IEnumerable<(string Path, byte[] Bytes)> Blobs(GitRepository repository, ImmutableArray<(string Path, string Blob)> files)
    {
        using var git = repository.Start(["cat-file", "--batch"]);
        if (git is null || files.IsEmpty) yield break;
        var asking = Task.Run(() =>
        {
            foreach (var (_, blob) in files) git.StandardInput.Write(blob + "\n");
            git.StandardInput.Close();
        });
        var stream = git.StandardOutput.BaseStream;
        foreach (var (path, _) in files)
        {
            var head = new StringBuilder();
            for (var letter = stream.ReadByte(); letter is not ('\n' or -1); letter = stream.ReadByte()) head.Append((char)letter);
            if (head.ToString().Split(' ') is not [_, "blob", var size]) throw new IOException($"git does not give {path}");
            var bytes = new byte[int.Parse(size, CultureInfo.InvariantCulture)];
            stream.ReadExactly(bytes);
            stream.ReadByte();
            yield return (path, bytes);
        }

        asking.GetAwaiter().GetResult();
        git.WaitForExit();
    }

    /// <summary>Whether a file holds records or what is said of them, by its name.</summary>
    /// <param name="path">Its path.</param>
    internal static bool HoldsText(string path) => Path.GetExtension(path).ToLowerInvariant() is ".yaml" or ".yml" or ".csv" or ".md" or ".txt";
}

using System.Collections.Frozen;
using Archive.Diagnostics;
using Archive.Git;
using Archive.Preservation.Bags;
using Archive.Records.Model;
using Archive.Records.Reading;

namespace Archive.Comparison;

/// <summary>One state of a record: a folder as it lies, a sealed bag, or a revision in git.</summary>
/// <param name="Name">What it is called, exactly as typed.</param>
/// <param name="Folder">Its files.</param>
public sealed record ArchiveVersion(string Name, IArchiveFolder Folder) : IDisposable
{
    private const string Statement = "archive.yaml";

    // The repository it is kept in, if its history can be asked for who and when; and the commit, where it is not a folder as it lies.
    internal GitRepository? Repository { get; init; }

    internal string? Commit { get; init; }

    // Where git names the content of files.
    internal FrozenDictionary<string, OriginalFile>? Blobs { get; init; }

    /// <summary>
    /// Why the state cannot be read whole from the history; null where it can. A comparison with a part of it would pass over facts.
    /// </summary>
    public Diagnostic? Unreadable { get; init; }

    /// <summary>Finds what a name means.</summary>
    /// <param name="name">A folder, a bag's folder, or a revision of the archive's own history.</param>
    /// <param name="content">Full path of the archive's folder.</param>
    /// <param name="cancellation">Gives up, as does each question to its history.</param>
    /// <param name="why">Why it means nothing.</param>
    public static ArchiveVersion? Open(string name, string content, CancellationToken cancellation, out string why)
    {
        why = "";
        var full = name.Length == 0 ? "" : Path.TrimEndingDirectorySeparator(Path.GetFullPath(name));
        if (File.Exists(Path.Combine(full, BagDeclaration.FileName)) && Directory.Exists(full))
        {
            var record = Path.Combine(full, "data", "record");
            if (Directory.Exists(record)) return new ArchiveVersion(name, new ArchiveFolder(record));
            why = $"the bag {name} contains no record: it has no folder data/record";
            return null;
        }

        if (Directory.Exists(full) && File.Exists(Path.Combine(full, Statement))) return Lying(name, full, cancellation);
        if (File.Exists(full) && name.EndsWith(".zip", StringComparison.OrdinalIgnoreCase))
            return ZippedRecord.Read(full, out why) is { } packed ? new ArchiveVersion(name, packed) : null;
        return OfRevision(name, content, Directory.Exists(full), cancellation, out why);
    }

    private static ArchiveVersion? OfRevision(string name, string content, bool isFolder, CancellationToken cancellation, out string why)
    {
        why = isFolder ? $"the folder {name} is not an archive: it has no {Statement}" : "";
        if (GitRepository.Open(content, cancellation, out var reason) is not { } repository)
        {
            if (!isFolder) why = $"{name} is not a folder, and the archive has no git history: {reason}";
            return null;
        }

        if (repository.Commit(name, out var missing) is { } commit) return new RevisionReader(repository, name).Read(commit, out why);
        if (!isFolder && missing is not null)
        {
            return new ArchiveVersion(name, InMemoryFolder.Empty)
            {
                Repository = repository,
                Unreadable = HistoryDiagnostics.Missing(name, "a commit", missing)
            };
        }

        if (!isFolder)
        {
            why = $"{name} is neither a folder nor a revision in the archive's history"
                + (repository.IsShallow
                    ? ", which holds only its last commits (a shallow clone): `git fetch --unshallow` gets the rest; in CI, check out with the full depth (`fetch-depth: 0`, or `GIT_DEPTH: 0`)"
                    : "");
        }


        repository.Dispose();
        return null;
    }

    /// <summary>The archive's folder as it lies.</summary>
    /// <param name="name">What it is called.</param>
    /// <param name="content">Full path of the archive's folder.</param>
    /// <param name="cancellation">Gives up each question to its history.</param>
    public static ArchiveVersion Lying(string name, string content, CancellationToken cancellation) =>
        new(name, new ArchiveFolder(content)) { Repository = GitRepository.Open(content, cancellation, out _) };

    public void Dispose() => Repository?.Dispose();
}

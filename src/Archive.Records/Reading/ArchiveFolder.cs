using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Storage;

namespace Archive.Records.Reading;

/// <summary>An archive's folder on a disk. Its files are listed once, on first need: for a later state make another.</summary>
public sealed class ArchiveFolder : IArchiveFolder
{
    // As many links as Linux follows before it says that they go in a circle.
    private readonly Lazy<Listing> _listing;

    /// <summary>Takes a folder as an archive.</summary>
    /// <param name="root">The folder; it may itself be reached through links.</param>
    public ArchiveFolder(string root)
    {
        Root = Path.TrimEndingDirectorySeparator(Path.GetFullPath(root));
        _listing = new Lazy<Listing>(() => Listing.Read(Root));
    }

    /// <summary>Full path of the folder.</summary>
    public string Root { get; }

    public ImmutableArray<string> Files => _listing.Value.Files;

    public ImmutableArray<Diagnostic> Unusable => _listing.Value.Unusable;

    public (byte[]? Bytes, string? Why) Read(string path, long limit)
    {
        // Nothing outside is read, so nothing of it can be quoted in an error.
        if (_listing.Value.Leaving.Contains(path)) return (null, "it leads out of the archive");
        try
        {
            if (IsEmpty(FullPath(path))) return ([], null);
            using var stream = new FileStream(
                FullPath(path), FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 0, FileOptions.SequentialScan);
            if (stream.Length > limit) return (null, null);
            var bytes = new byte[stream.Length];
            var read = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
            return (read < bytes.Length ? bytes[..read] : bytes, null);
        }
        catch (Exception exception) when (exception is IOException
            or UnauthorizedAccessException
            or NotSupportedException
            or ArgumentException)
        {
            return (null, exception switch
            {
                UnauthorizedAccessException => "access is denied",
                FileNotFoundException or DirectoryNotFoundException => "it is no longer there",
                _ => "the disk cannot read it",
            });
        }
    }

    /// <summary>
    /// Whether there is nothing in a file. Pipes and devices say so too: to open one is to wait for anyone who writes to it, or to read
    /// without end.
    /// </summary>
    /// <param name="fullPath">The file; a link is followed, for it would tell its own length.</param>
    /// <exception cref="IOException">There is no such file, or it cannot be looked at.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be looked at.</exception>
    public static bool IsEmpty(string fullPath) =>
        new FileInfo((File.ResolveLinkTarget(fullPath, returnFinalTarget: true) ?? new FileInfo(fullPath)).FullName).Length == 0;

    public PathResult Follow(string fromFile, string written)
    {
        if (ArchivePath.Resolve(fromFile, written) is not { } path) return new PathResult(PathStatus.Leaves, null);
        var (files, known, leaving) = (_listing.Value.Files, _listing.Value.Known, _listing.Value.Leaving);
        if (leaving.Count > 0)
        {
            for (var end = path.IndexOf('/', StringComparison.Ordinal); end > 0; end = path.IndexOf('/', end + 1))
            {
                if (leaving.Contains(path[..end])) return new PathResult(PathStatus.Leaves, null);
            }

            if (leaving.Contains(path)) return new PathResult(PathStatus.Leaves, null);
        }

        return new PathResult(known.Contains(path) ? PathStatus.Exists : PathStatus.Missing, path);
    }

    public string FullPath(string path) => Path.Combine(Root, path.Replace('/', Path.DirectorySeparatorChar));

    private sealed record Listing(
        ImmutableArray<string> Files, FrozenSet<string> Known, FrozenSet<string> Leaving, ImmutableArray<Diagnostic> Unusable)
    {
        public static Listing Read(string root)
        {
            var walk = new Walk(RealPath.Resolve(root) ?? root);
            if (Directory.Exists(root)) walk.Top(new DirectoryInfo(root));
            walk.Files.Sort(StringComparer.Ordinal);
            walk.Unusable.Sort(Diagnostic.Order);
            return new Listing(
                [.. walk.Files],
                walk.Files.Except(walk.Leaving).ToFrozenSet(StringComparer.Ordinal),
                walk.Leaving.ToFrozenSet(StringComparer.Ordinal),
                [.. walk.Unusable]);
        }
    }

    private sealed class Walk(string realRoot)
    {
        public List<string> Files { get; } = [];

        public List<string> Leaving { get; } = [];

        public List<Diagnostic> Unusable { get; } = [];

        // A folder without archive.yaml may be a whole disk, named by mistake: only what could hold records is looked into.
        public void Top(DirectoryInfo folder) =>
            Into(folder, string.Empty, Path.Exists(Path.Combine(folder.FullName, FileReader.StatementFile)) ? null : RecordFolders.All);

        // A link to a folder is listed as a file and not gone into, so that no walk is endless and nothing is read twice.
        private void Into(DirectoryInfo folder, string prefix, ImmutableArray<string>? only = null)
        {
            foreach (var entry in folder.EnumerateFileSystemInfos())
            {
                if (ArchivePath.IsIgnored(entry.Name) || (entry is DirectoryInfo && only?.Contains(entry.Name) == false)) continue;
                var path = prefix + entry.Name;
                if (Unreadable(entry.Name) is { } what)
                {
                    Refuse(DiagnosticDescriptors.UnusableName, path, $"this name contains {what}", "rename it; `ls -b` shows such names");
                    continue;
                }

                var isLink = entry.LinkTarget is not null;
                if (!isLink && entry is DirectoryInfo inner)
                {
                    Enter(inner, path);
                }
                else if (isLink && !IsWithin(RealPath.Resolve(entry.FullName)))
                {
                    Files.Add(path);
                    Leaving.Add(path);
                }
                else if ((isLink || entry is FileInfo { Length: 0 }) && SpecialFile.KindOf(entry.FullName) is { } kind)
                {
                    Refuse(
                        DiagnosticDescriptors.NotAFile,
                        path,
                        $"this is {kind}, not a file",
                        "delete it, or put a dot at the start of its name");
                }
                else
                {
                    Files.Add(path);
                }
            }
        }

        // What makes a name that no record can write, or that another system would take for something else.
        private static string? Unreadable(string name)
        {
            if (name.FirstOrDefault(char.IsControl) is not '\0' and var control) return $"a control character, U+{(int)control:X4}";
            if (name.Contains('\uFFFD', StringComparison.Ordinal)) return "a character that is not UTF-8";
            return name.Contains('\\', StringComparison.Ordinal) ? "a backslash, which separates folders on Windows" : null;
        }

        private void Enter(DirectoryInfo folder, string path)
        {
            try
            {
                Into(folder, path + "/");
            }
            catch (Exception exception) when (exception is UnauthorizedAccessException or IOException)
            {
                Refuse(
                    DiagnosticDescriptors.UnreadableFolder,
                    path,
                    $"this folder cannot be listed: {(exception is UnauthorizedAccessException ? "access is denied" : "the disk cannot read it")}",
                    "check its permissions");
            }
        }

        private void Refuse(DiagnosticDescriptor kind, string path, string message, string help) =>
            Unusable.Add(kind.At(new SourceText(path, string.Empty).Whole, message, help));

        // A dangling link leads nowhere: it is reported as a file that cannot be read.
        private bool IsWithin(string? path) =>
            path is null || path == realRoot || path.StartsWith(realRoot + Path.DirectorySeparatorChar, StringComparison.Ordinal);
    }
}

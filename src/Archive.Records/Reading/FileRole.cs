using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Permanence;

namespace Archive.Records.Reading;

/// <summary>What a file is, by its path alone: the folder names the kind.</summary>
/// <param name="IsStatement">Whether it is archive.yaml.</param>
/// <param name="Kind">The kind of the records it holds, or null where it holds none.</param>
internal readonly record struct FileRole(bool IsStatement, RecordKind? Kind)
{
    /// <summary>The role of a file; none for pictures, read-mes, and what does not belong.</summary>
    public static FileRole From(string path)
    {
        if (path == FileReader.StatementFile) return new FileRole(true, null);
        return KindOf(path) is { } kind && Extensions(kind).Contains(Extension(path)) && !IsNotice(path)
            ? new FileRole(false, kind)
            : default;
    }

    /// <summary>The folder at the top that a file lies in; empty for a file at the top.</summary>
    public static string Folder(string path) =>
        path.IndexOf('/', StringComparison.Ordinal) is > 0 and var slash ? path[..slash] : string.Empty;

    /// <summary>What is wrong with the places of files, each folder reported once.</summary>
    /// <param name="paths">All paths, in order.</param>
    public static IEnumerable<Diagnostic> Misplaced(IEnumerable<string> paths)
    {
        var unknown = new HashSet<string>(StringComparer.Ordinal);
        foreach (var path in paths)
        {
            var folder = Folder(path);
            if (folder.Length > 0 && KindOf(path) is null)
            {
                if (unknown.Add(folder)) yield return UnknownFolder(path, folder);
            }
            else if (!IsAtHome(path))
            {
                yield return Unexpected(path, folder);
            }
        }
    }

    /// <summary>Whether a file holds no record, and is no read-me or licence.</summary>
    public static bool IsPlainFile(string path) => From(path) == default && !IsNotice(path);

    private static bool IsAtHome(string path) =>
        From(path) != default
            || path is AddressLedger.FileName or GuardedFactsFile.Name or RejectedFactsFile.Name
            || IsNotice(path)
            || (KindOf(path) == RecordKind.Photo && Extension(path) is not (".csv" or ".md"))
            || KindOf(path) == RecordKind.Document;

    // A read-me or a licence may be anywhere.
    private static bool IsNotice(string path)
    {
        var name = path[(path.LastIndexOf('/') + 1)..];
        return name.StartsWith("README", StringComparison.OrdinalIgnoreCase)
            || name.StartsWith("LICENSE", StringComparison.OrdinalIgnoreCase)
            || name.StartsWith("LICENCE", StringComparison.OrdinalIgnoreCase);
    }

    private static Diagnostic UnknownFolder(string path, string folder)
    {
        var nearest = NearestName.Find(folder, RecordFolders.All);
        return DiagnosticDescriptors.UnknownFolder.At(
            Top(path),
            $"unknown folder `{folder}/`",
            nearest is null ? $"an archive has the folders {string.Join(", ", RecordFolders.All)}" : $"did you mean `{nearest}/`?");
    }

    private static Diagnostic Unexpected(string path, string folder)
    {
        var wanted = folder.Length == 0 ? "`archive.yaml` and the folders of the records" : KindOf(path) switch
        {
            RecordKind.Cable or RecordKind.Unit => "`.yaml` and `.csv` files",
            RecordKind.Story => "`.md` files",
            RecordKind.Photo => "`.yaml` files and pictures",
            _ => "`.yaml` files",
        };
        return DiagnosticDescriptors.UnexpectedFile.At(
            Top(path),
            folder.Length == 0 ? $"`{path}` at the top of the archive is not a record" : $"`{folder}/` does not use this type of file",
            $"{(folder.Length == 0 ? "at the top, use only" : $"in `{folder}/`, use only")} {wanted}; move it elsewhere, or put a dot at the start of its name");
    }

    private static SourceSpan Top(string path) => new(new SourceText(path, string.Empty), 0, 0);

    private static RecordKind? KindOf(string path) =>
        RecordFolders.All.IndexOf(Folder(path)) is >= 0 and var kind ? (RecordKind)kind : null;

    private static string Extension(string path) =>
        path.LastIndexOf('.') is >= 0 and var dot && dot > path.LastIndexOf('/') ? path[dot..].ToLowerInvariant() : string.Empty;

    private static ReadOnlySpan<string> Extensions(RecordKind kind) => kind switch
    {
        RecordKind.Story => new[] { ".md" },
        RecordKind.Cable or RecordKind.Unit => new[] { ".yaml", ".yml", ".csv" },
        _ => new[] { ".yaml", ".yml" },
    };
}

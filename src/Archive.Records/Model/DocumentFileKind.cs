using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Archive.Records.Model;

/// <summary>What a file of a document is, as far as pages treat it differently.</summary>
public enum DocumentFileKind
{
    /// <summary>A kind of file that is not taken: a browser may run what is in it, or nobody knows what it is.</summary>
    Unsupported,

    /// <summary>A picture, which is one page.</summary>
    Picture,

    /// <summary>A PDF, which has any number of pages.</summary>
    Pdf,

    Video,

    Audio,

    /// <summary>Plain text, shown as it is.</summary>
    Text,

    /// <summary>An image of a tape or disk, or packed files: given as it is.</summary>
    Data,
}

/// <summary>The kinds of files by the ends of their names.</summary>
public static class DocumentFileKinds
{
    private static readonly FrozenDictionary<string, DocumentFileKind> ByExtension =
        new Dictionary<DocumentFileKind, ImmutableArray<string>>
        {
            [DocumentFileKind.Picture] = [".png", ".jpg", ".jpeg", ".tif", ".tiff", ".webp"],
            [DocumentFileKind.Pdf] = [".pdf"],
            [DocumentFileKind.Video] = [".mp4", ".webm"],
            [DocumentFileKind.Audio] = [".mp3", ".opus", ".wav"],
            [DocumentFileKind.Text] = [".txt"],
            [DocumentFileKind.Data] =
                [".bin", ".img", ".iso", ".imd", ".dsk", ".tap", ".ptp", ".hex", ".rom", ".zip", ".gz", ".tar", ".7z"],
        }.SelectMany(kind => kind.Value.Select(extension => (extension, kind.Key)))
            .ToFrozenDictionary(pair => pair.extension, pair => pair.Key, StringComparer.OrdinalIgnoreCase);

    /// <summary>All ends of names that are taken, without their dots, for sentences.</summary>
    public static string Listed { get; } = string.Join(", ", Enum.GetValues<DocumentFileKind>()
        .SelectMany(kind => ByExtension.Where(pair => pair.Value == kind).Select(pair => pair.Key[1..]).Order(StringComparer.Ordinal)));

    /// <summary>The kind that a name says.</summary>
    /// <param name="name">A file's name or path.</param>
    public static DocumentFileKind ForName(string name) => ByExtension.GetValueOrDefault(Extension(name));

    /// <summary>The end of a name: lower case, with its dot; empty where it has none.</summary>
    public static string Extension(string name) =>
        name.LastIndexOf('.') is >= 0 and var dot && dot > name.LastIndexOf('/') ? name[dot..].ToLowerInvariant() : string.Empty;
}

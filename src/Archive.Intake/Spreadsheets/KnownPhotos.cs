using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Facts;
using Archive.Records.Model;

namespace Archive.Intake.Spreadsheets;

/// <summary>The photos of the record by the names of their files.</summary>
internal sealed class KnownPhotos
{
    private static readonly FrozenSet<string> Endings =
        new[] { "jpg", "jpeg", "png", "tif", "tiff", "webp", "heic", "heif", "avif", "dng", "cr2", "cr3", "nef", "arw" }
            .ToFrozenSet(StringComparer.OrdinalIgnoreCase);

    private readonly ILookup<string, (string Path, string Id)> _byName;
    private readonly ILookup<string, (string Path, string Id)> _byStem;

    internal KnownPhotos(ImmutableArray<RawRecord> records)
    {
        var photos = records.Where(record => record.Kind == RecordKind.Photo && record.Fact("file") is not null)
            .Select(record => (Path: $"{Folder(record.Span.Path)}{record.Fact("file")!.Value.Text}", record.Id))
            .ToList();
        _byName = photos.ToLookup(photo => Name(photo.Path), StringComparer.OrdinalIgnoreCase);
        _byStem = photos.ToLookup(photo => Stem(Name(photo.Path)), StringComparer.OrdinalIgnoreCase);
    }

    /// <summary>The photos that a text can mean: a file's name with or without its ending, with or without folders before it.</summary>
    internal ImmutableArray<string> Find(string text)
    {
        var path = text.Trim().Replace('\\', '/');
        var name = Name(path);
        var named = _byName[name].Any() ? _byName[name] : name == Stem(name) ? _byStem[name] : [];
        var all = named.ToImmutableArray();
        if (all.Length > 1 && path.Contains('/', StringComparison.Ordinal))
        {
            var end = "/" + path.TrimStart('.', '/');
            var whole = all.Where(photo => ("/" + photo.Path).EndsWith(end, StringComparison.OrdinalIgnoreCase)).ToList();
            if (whole.Count > 0) all = [.. whole];
        }

        return [.. all.Select(photo => photo.Id)];
    }

    /// <summary>Whether a text is the name of a picture: letters, a full stop and the ending of a picture.</summary>
    internal static bool IsFileName(string text)
    {
        var name = Name(text.Trim().Replace('\\', '/'));
        return name.LastIndexOf('.') is > 0 and var dot && Endings.Contains(name[(dot + 1)..]);
    }

    private static string Folder(string path) => path[..(path.LastIndexOf('/') + 1)];

    private static string Name(string path) => path[(path.LastIndexOf('/') + 1)..];

    private static string Stem(string name) => name.LastIndexOf('.') is > 0 and var dot ? name[..dot] : name;
}

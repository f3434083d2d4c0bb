using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Archive.Diagnostics;
using Archive.Diagnostics.Rendering;
using Archive.Publishing.Publication;
using Archive.Publishing.Requests;
using Archive.Records.Work;
using Archive.Site.Contents;
using Archive.Storage.Output;

namespace Archive.Publishing.Building;

/// <summary>A site of one state of the record. Each file is made when it is asked for, as a publication would make it.</summary>
/// <remarks>Safe for use by many threads at once.</remarks>
public sealed class SiteSnapshot
{
    private readonly ImmutableArray<SitePart> _parts;
    private readonly OfflineList _offline;
    private readonly BuildOptions _options;
    private readonly Lazy<FrozenDictionary<string, byte[]>> _lists;

    internal SiteSnapshot(ImmutableArray<SitePart> parts, OfflineList offline, BuildOptions options)
    {
        (_parts, _offline, _options) = (parts, offline, options);
        _lists = new(MakeLists);
    }

    /// <summary>Whether the site has a file.</summary>
    /// <param name="path">Path below the site's folder, separated by <c>/</c>.</param>
    public bool Has(string path) => IsList(path) || Find(path) is not null;

    /// <summary>Makes a file.</summary>
    /// <param name="path">Path below the site's folder, separated by <c>/</c>.</param>
    /// <returns>Its bytes, and errors of the template or of what was put into it; null if the site has no such file.</returns>
    /// <exception cref="IOException">It is made from a file that cannot be read, or is no longer what it was.</exception>
    public (ReadOnlyMemory<byte> Bytes, ImmutableArray<RenderedDiagnostic> Diagnostics)? Read(string path)
    {
        if (IsList(path)) return (_lists.Value[path], []);
        if (Find(path) is not { } file) return null;
        var made = OutputBytes.Make(file);
        return (made.Bytes, made.Faults.IsEmpty ? [] : RenderedDiagnostic.FromAll(made.Faults, _options.PrefixFor));
    }

    /// <summary>The paths of all files, the lists of files among them; this calculates all that has pages.</summary>
    internal IEnumerable<string> Paths => All([]).Select(file => file.Path).Concat([.. OfflineList.Paths, SiteManifest.FileName]);

    // What lists the checksums of all files needs all files.
    private static bool IsList(string path) => path == SiteManifest.FileName || OfflineList.Paths.Contains(path);

    private OutputFile? Find(string path)
    {
        foreach (var part in _parts)
        {
            if (part.Find(path) is { } file) return file;
        }

        return null;
    }

    private IEnumerable<OutputFile> All(ConcurrentQueue<Diagnostic> diagnostics) =>
        SiteAddresses.Distinct(_parts.SelectMany(part => part.All()), diagnostics);

    private static PublishedFile Listed(string path, ReadOnlySpan<byte> bytes) =>
        new(path, Convert.ToHexStringLower(SHA256.HashData(bytes)), bytes.Length, ModifiedTicks: 0);

    private FrozenDictionary<string, byte[]> MakeLists()
    {
        var files = SideBySide.Select([.. All([])], file =>
            {
                var made = OutputBytes.Make(file);
                var published = Listed(file.Path, made.Bytes.Span);
                made.GiveBack();
                return published;
            })
            .OrderBy(file => file.Path, StringComparer.Ordinal)
            .ToList();
        var lists = _offline.Of([.. files]).ToList();
        var all = files.Concat(lists.Select(list => Listed(list.Path, list.Bytes)));
        var manifest = SiteManifest.Write([.. all.OrderBy(file => file.Path, StringComparer.Ordinal)]);
        return lists.Append((Path: SiteManifest.FileName, Bytes: Encoding.UTF8.GetBytes(manifest)))
            .ToFrozenDictionary(list => list.Path, list => list.Bytes, StringComparer.Ordinal);
    }
}

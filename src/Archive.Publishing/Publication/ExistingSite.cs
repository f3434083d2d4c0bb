using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Work;

namespace Archive.Publishing.Publication;

/// <summary>What stands at the site's place before a publication.</summary>
/// <remarks>
/// A file is known unchanged when its size and last writing are those recorded when it was published; else its bytes are hashed. So a lost
/// cache costs time, never truth.
/// </remarks>
public sealed class ExistingSite
{
    private readonly string _folder;
    private readonly IReadOnlyDictionary<string, (long Size, long ModifiedTicks)> _found;
    private readonly FrozenDictionary<string, PublishedFile> _known;
    private readonly ConcurrentDictionary<string, string> _hashed = new(StringComparer.Ordinal);

    private ExistingSite(string folder, IReadOnlyDictionary<string, (long, long)> found, ImmutableArray<PublishedFile> known)
    {
        _folder = folder;
        _found = found;
        _known = known.ToFrozenDictionary(file => file.Path, StringComparer.Ordinal);
    }

    /// <summary>Paths of its files.</summary>
    internal IEnumerable<string> Paths => _found.Keys.Where(path => path != SiteManifest.FileName);

    /// <summary>Surveys a folder.</summary>
    /// <param name="folder">Full path of the site's folder.</param>
    /// <param name="shownAs">The folder as its owner names it.</param>
    /// <param name="known">The files of the last publication, as recorded.</param>
    /// <param name="replace">Whether files that differ from their checksums may be replaced.</param>
    /// <param name="refusal">Why the folder must not be replaced.</param>
    /// <returns>What is there, or null where it must not be replaced.</returns>
    internal static ExistingSite? Survey(
        string folder, string shownAs, ImmutableArray<PublishedFile> known, bool replace, out Diagnostic? refusal)
    {
        refusal = null;
        if (File.Exists(folder))
        {
            refusal = SiteDiagnostics.NotAFolder(shownAs);
            return null;
        }

        if (!Directory.Exists(folder)) return new ExistingSite(folder, FrozenDictionary<string, (long, long)>.Empty, []);
        var found = SiteListing.Read(folder);
        if (found.IsEmpty) return new ExistingSite(folder, found, []);

        var listed = found.TryGetValue(SiteManifest.FileName, out var manifest) && manifest.Size > 0
            ? SiteManifest.Read(File.ReadAllText(Path.Combine(folder, SiteManifest.FileName)))
            : null;
        var site = new ExistingSite(folder, found, known);
        refusal = listed is null ? SiteDiagnostics.NotASite(shownAs)
            : site.Paths.Where(path => !listed.ContainsKey(path) || found[path].Size < 0).Min(StringComparer.Ordinal) is { } stranger
            ? SiteDiagnostics.Stranger(shownAs, stranger)
            : !replace && site.FirstChanged(listed) is { } changed
            ? SiteDiagnostics.Changed(shownAs, changed)
            : null;
        return refusal is null ? site : null;
    }

    /// <summary>Whether exactly the recorded files are there, untouched.</summary>
    /// <param name="files">The recorded files, the manifest among them.</param>
    internal bool IsExactly(ImmutableArray<PublishedFile> files) =>
        files.Length == _found.Count
            && files.All(file => _found.TryGetValue(file.Path, out var now) && now == (file.Size, file.ModifiedTicks));

    /// <summary>The file of a path, if its bytes are those wanted.</summary>
    /// <param name="sha256">Checksum of the bytes wanted.</param>
    /// <param name="size">Their number.</param>
    internal (string FullPath, PublishedFile File)? Same(string path, string sha256, long size)
    {
        if (!_found.TryGetValue(path, out var now) || now.Size != size) return null;
        return Sha256(path) == sha256 ? (Path.Combine(_folder, path), new PublishedFile(path, sha256, size, now.ModifiedTicks)) : null;
    }

    // What was published by this user is known by size and time; only other files are read.
    private string? FirstChanged(FrozenDictionary<string, string> listed) =>
        SideBySide.Select([.. Paths], path => Sha256(path) != listed[path] ? path : null).Min(StringComparer.Ordinal);

    private string Sha256(string path) =>
        _known.TryGetValue(path, out var known) && (known.Size, known.ModifiedTicks) == _found[path] ? known.Sha256
        : _hashed.GetOrAdd(path, static (path, folder) => SiteTree.Sha256Of(Path.Combine(folder, path)), _folder);
}

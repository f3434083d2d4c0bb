using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Site;

/// <summary>What stands at the site's place before a publication.</summary>
/// <remarks>
/// A file is known unchanged when its size and last writing are those recorded when it was published; else its bytes are hashed when its
/// turn comes. So a lost cache costs time, never truth.
/// </remarks>
internal sealed class StandingSite
{
    private readonly string _folder;
    private readonly IReadOnlyDictionary<string, (long Size, long ModifiedTicks)> _found;
    private readonly FrozenDictionary<string, PublishedFile> _known;

    private StandingSite(string folder, IReadOnlyDictionary<string, (long, long)> found, ImmutableArray<PublishedFile> known)
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
    /// <param name="refusal">Why the folder must not be replaced.</param>
    /// <returns>What stands there, or null where it must not be replaced.</returns>
    internal static StandingSite? Survey(string folder, string shownAs, ImmutableArray<PublishedFile> known, out Diagnostic? refusal)
    {
        refusal = null;
        if (File.Exists(folder))
        {
            refusal = SiteFaults.NotAFolder(shownAs);
            return null;
        }

        if (!Directory.Exists(folder)) return new StandingSite(folder, FrozenDictionary<string, (long, long)>.Empty, []);
        var found = SiteSweep.Of(folder);
        if (found.IsEmpty) return new StandingSite(folder, found, []);

        var manifest = Path.Combine(folder, SiteManifest.FileName);
        var listed = File.Exists(manifest) ? SiteManifest.Paths(File.ReadAllText(manifest)) : null;
        if (listed is null) refusal = SiteFaults.NotASite(shownAs);
        else if (found.Keys.Where(path => path != SiteManifest.FileName && !listed.Contains(path)).Min(StringComparer.Ordinal) is { } stranger)
        {
            refusal = SiteFaults.Stranger(shownAs, stranger);
        }

        return refusal is null ? new StandingSite(folder, found, known) : null;
    }

    /// <summary>Whether exactly the recorded files stand there, untouched.</summary>
    /// <param name="files">The recorded files, the manifest among them.</param>
    internal bool IsExactly(ImmutableArray<PublishedFile> files) =>
        files.Length == _found.Count && files.All(file => _found.TryGetValue(file.Path, out var now) && now == (file.Size, file.ModifiedTicks));

    /// <summary>The file of a path, if its bytes are those wanted.</summary>
    /// <param name="path">The path.</param>
    /// <param name="sha256">Checksum of the bytes wanted.</param>
    /// <param name="size">Their number.</param>
    internal (string FullPath, PublishedFile File)? Same(string path, string sha256, long size)
    {
        if (!_found.TryGetValue(path, out var now) || now.Size != size) return null;
        var fullPath = Path.Combine(_folder, path);
        var isKnown = _known.TryGetValue(path, out var known) && (known.Size, known.ModifiedTicks) == now;
        var standing = isKnown ? known.Sha256 : SiteTree.Sha256Of(fullPath);
        return standing == sha256 ? (fullPath, new PublishedFile(path, sha256, size, now.ModifiedTicks)) : null;
    }
}

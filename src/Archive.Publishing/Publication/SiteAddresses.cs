using System.Buffers;
using System.Collections.Concurrent;
using Archive.Diagnostics;
using Archive.Storage.Output;

namespace Archive.Publishing.Publication;

/// <summary>The rule of addresses: relative, plain, and unique also where letter case is ignored, as disks and people do.</summary>
internal static class SiteAddresses
{
    // Not in a file's name on some system that a site is copied to; and control characters.
    private static readonly SearchValues<char> NotInNames = SearchValues.Create(
        "\\:*?\"<>|" + string.Concat(Enumerable.Range(0, 0xA0).Select(code => (char)code).Where(char.IsControl)));

    /// <summary>The files whose addresses keep the rule; the others become errors.</summary>
    /// <param name="diagnostics">Where errors go.</param>
    internal static IEnumerable<OutputFile> Distinct(IEnumerable<OutputFile> files, ConcurrentQueue<Diagnostic> diagnostics)
    {
        var taken = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase) { [SiteManifest.FileName] = SiteManifest.FileName };
        var folders = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var file in files)
        {
            if (!IsPlain(file.Path)) diagnostics.Enqueue(SiteDiagnostics.BadPath(file.Path));
            else if (!taken.TryAdd(file.Path, file.Path)) diagnostics.Enqueue(SiteDiagnostics.Collision(file.Path, taken[file.Path]));
            else if (OtherUseOf(file.Path, taken, folders) is { } other) diagnostics.Enqueue(SiteDiagnostics.Collision(file.Path, other));
            else yield return file;
        }
    }

    private static bool IsPlain(ReadOnlySpan<char> path)
    {
        if (path.ContainsAny(NotInNames)) return false;
        foreach (var part in path.Split('/'))
        {
            if (path[part] is "" or [.., '.' or ' ']) return false;
        }

        return true;
    }

    // A file where another needs a folder, or the other way round.
    private static string? OtherUseOf(string path, Dictionary<string, string> taken, Dictionary<string, string> folders)
    {
        if (folders.TryGetValue(path, out var below)) return below;
        for (var slash = path.LastIndexOf('/'); slash > 0; slash = path.LastIndexOf('/', slash - 1))
        {
            var folder = path[..slash];
            if (taken.TryGetValue(folder, out var file)) return file;
            if (!folders.TryAdd(folder, path)) break;
        }

        return null;
    }
}

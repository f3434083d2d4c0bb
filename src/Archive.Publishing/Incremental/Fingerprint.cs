using System.Collections.Frozen;
using System.Reflection;
using System.Security.Cryptography;
using System.Text;
using Archive.Markup.Templates;
using Archive.Publishing.Caching;
using Archive.Publishing.Requests;
using Archive.Records.Reading;

namespace Archive.Publishing.Incremental;

/// <summary>Checksums over everything that a site is made from: the tool, the options, the theme, the record. Equal fingerprints, equal
/// sites. Where one stands when one publishes is no part of it: no page depends on that.</summary>
/// <param name="Whole">Over everything.</param>
/// <param name="Themes">Over the files of all themes.</param>
/// <param name="Files">What stands for the content of each file of the archive, by path.</param>
internal sealed record Fingerprint(string Whole, string Themes, FrozenDictionary<string, string> Files)
{
    /// <summary>Takes the fingerprint of a build.</summary>
    /// <param name="options">What is to be built.</param>
    /// <param name="folder">The archive's folder.</param>
    /// <param name="stamps">What is known of the inputs.</param>
    /// <param name="cancellation">Gives up between two inputs.</param>
    internal static Fingerprint Compute(BuildOptions options, ArchiveFolder folder, InputStamps stamps, CancellationToken cancellation)
    {
        var entries = options.Themes
            .SelectMany(themes => ThemeFiles.OfAll(themes).Select(entry => (FullPath: Path.Combine(themes, entry.Path), entry.Kind)))
            .ToLookup(entry => entry.Kind, entry => entry.FullPath);
        var themes = entries[ThemeEntryKind.File].ToList();
        var count = folder.Files.Length;
        var contents = new string[count + themes.Count];
        Parallel.For(0, contents.Length, new ParallelOptions { CancellationToken = cancellation }, i =>
        {
            var path = i < count ? folder.Files[i] : themes[i - count];
            contents[i] = stamps.Checksum(i < count ? folder.FullPath(path) : path, IsPicture(path));
        });
        var ofThemes = Hash([
            .. options.Themes,
            .. themes.Select((path, i) => $"{path}\n{contents[count + i]}"),
            .. entries.Where(kind => kind.Key != ThemeEntryKind.File).SelectMany(kind => kind)
        ]);
        var whole = Hash([
            ToolBuild,
            $"{options.WithErrors}",
            ofThemes,
            .. folder.Files.Select((path, i) => $"{path}\n{contents[i]}"),
            .. folder.Unusable.Select(unusable => $"{unusable.Message}\n{unusable.Span.Path}")
        ]);
        return new Fingerprint(whole, ofThemes, folder.Files
            .Select((path, i) => KeyValuePair.Create(path, contents[i]))
            .ToFrozenDictionary(StringComparer.Ordinal));
    }

    private static string Hash(IEnumerable<string> lines)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var line in lines) hash.AppendData(Encoding.UTF8.GetBytes($"{line}\n"));
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    // The compiler stamps each assembly by its source, its references and its own version: another build, another stamp.
    private static string ToolBuild { get; } = string.Join(
        '\n', Below(typeof(Fingerprint).Assembly, new(StringComparer.Ordinal)).Select(assembly => assembly.ManifestModule.ModuleVersionId));

    // An assembly of this product and all that it rests on, in the order of their names.
    private static SortedDictionary<string, Assembly>.ValueCollection Below(Assembly assembly, SortedDictionary<string, Assembly> found)
    {
        if (!found.TryAdd(assembly.GetName().Name!, assembly)) return found.Values;
        foreach (var name in assembly.GetReferencedAssemblies())
        {
            if (name.Name!.StartsWith("Archive.", StringComparison.Ordinal)) Below(Assembly.Load(name), found);
        }

        return found.Values;
    }

    private static bool IsPicture(string path) => path.StartsWith("photos/", StringComparison.Ordinal)
        && Path.GetExtension(path).ToLowerInvariant() is not (".yaml" or ".yml");
}

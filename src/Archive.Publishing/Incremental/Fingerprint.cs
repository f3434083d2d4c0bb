using System.Reflection;
using System.Security.Cryptography;
using System.Text;
using Archive.Markup.Templates;
using Archive.Publishing.Caching;
using Archive.Publishing.Requests;
using Archive.Records.Reading;

namespace Archive.Publishing.Incremental;

/// <summary>One checksum over everything that a site is made from: the tool, the options, the theme, the record. Equal fingerprints, equal
/// sites. Where one stands when one publishes is no part of it: no page depends on that.</summary>
internal static class Fingerprint
{
    /// <summary>Takes the fingerprint of a build.</summary>
    /// <param name="options">What is to be built.</param>
    /// <param name="folder">The archive's folder.</param>
    /// <param name="stamps">What is known of the inputs.</param>
    /// <param name="cancellation">Gives up between two inputs.</param>
    internal static string Compute(BuildOptions options, ArchiveFolder folder, InputStamps stamps, CancellationToken cancellation)
    {
        var entries = options.Themes
            .SelectMany(themes => ThemeFiles.Below(themes).Select(entry => (FullPath: Path.Combine(themes, entry.Path), entry.Kind)))
            .ToLookup(entry => entry.Kind, entry => entry.FullPath);
        var themes = entries[ThemeEntryKind.File].ToList();
        var inputs = new string[folder.Files.Length + themes.Count];
        Parallel.For(0, inputs.Length, new ParallelOptions { CancellationToken = cancellation }, i =>
        {
            var path = i < folder.Files.Length ? folder.Files[i] : themes[i - folder.Files.Length];
            var fullPath = i < folder.Files.Length ? folder.FullPath(path) : path;
            inputs[i] = $"{path}\n{stamps.Checksum(fullPath, IsPicture(path))}\n";
        });
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Add($"{ToolBuild}\n{options.WithErrors}\n{string.Join('\n', options.Themes)}\n");
        foreach (var input in inputs) Add(input);
        foreach (var refused in entries.Where(kind => kind.Key != ThemeEntryKind.File).SelectMany(kind => kind)) Add($"{refused}\n");
        foreach (var unusable in folder.Unusable) Add($"{unusable.Message}\n{unusable.Span.Path}\n");
        return Convert.ToHexStringLower(hash.GetHashAndReset());

        void Add(string text) => hash.AppendData(Encoding.UTF8.GetBytes(text));
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

using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Preservation.Bags;

/// <summary>All that a bag writes of itself.</summary>
/// <param name="Declaration">Its version and encoding.</param>
/// <param name="Payload">Its manifests of the payload, by name.</param>
/// <param name="Tags">Its manifests of tag files, by name.</param>
internal sealed record BagLists(
    BagDeclaration Declaration,
    ImmutableArray<BagManifest> Payload,
    ImmutableArray<BagManifest> Tags,
    ImmutableArray<FetchLine> Fetch,
    ImmutableArray<InfoLine> Info)
{
    // Files by their names taken apart; only those for which that matters.
    private FrozenDictionary<string, string> ByNormal { get; init; } = FrozenDictionary<string, string>.Empty;

    internal IEnumerable<BagManifest> All => Payload.Concat(Tags);

    /// <param name="diagnostics">Collects the diagnostics.</param>
    internal static BagLists Read(BagContents bag, List<Diagnostic> diagnostics)
    {
        var declaration = BagDeclaration.Read(bag, diagnostics);
        var manifests = bag.Files
            .Where(BagManifest.Is)
            .Select(name => BagManifest.Read(bag, name, declaration, diagnostics))
            .ToLookup(manifest => manifest.IsOfTags);
        return new BagLists(
            declaration,
            [.. manifests[false]],
            [.. manifests[true]],
            FetchList.Read(bag, declaration, diagnostics),
            BagInfo.Read(bag, declaration, diagnostics))
        {
            ByNormal = bag.Files.Where(file => !file.All(char.IsAscii)).GroupBy(CanonicalLetters.Apart, StringComparer.Ordinal)
                .ToFrozenDictionary(group => group.Key, group => group.First(), StringComparer.Ordinal),
        };
    }

    /// <summary>
    /// The file that a line means: of just that name, or of the name that differs only in how Unicode writes a letter (RFC 8493, 6.1.1).
    /// </summary>
    internal string? FileOf(BagContents bag, string path) =>
        bag.Sizes.ContainsKey(path)
            ? path
            : ByNormal.Count == 0 || path.All(char.IsAscii)
            ? null
            : ByNormal.GetValueOrDefault(CanonicalLetters.Apart(path));
}

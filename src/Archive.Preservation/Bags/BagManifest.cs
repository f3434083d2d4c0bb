using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Preservation.Fixity;

namespace Archive.Preservation.Bags;

/// <summary>A line of a manifest.</summary>
/// <param name="Path">The name it means.</param>
/// <param name="Digest">The checksum.</param>
/// <param name="DigestSpan">Where the checksum stands.</param>
/// <param name="PathSpan">Where the name stands.</param>
internal readonly record struct ManifestLine(string Path, byte[] Digest, SourceSpan DigestSpan, SourceSpan PathSpan);

/// <summary>
/// A list of files with their checksums: of the payload (<c>manifest-ALG.txt</c>) or of tag files (<c>tagmanifest-ALG.txt</c>).
/// </summary>
/// <param name="IsOfTags">Whether it lists tag files.</param>
/// <param name="Algorithm">How the checksums were taken; null where that is not known here.</param>
/// <param name="Lines">Its lines, without those that cannot be read or lead out of the bag.</param>
internal sealed partial record BagManifest(SourceText Source, bool IsOfTags, DigestAlgorithm? Algorithm, ImmutableArray<ManifestLine> Lines)
{
    /// <summary>Whether a file at the bag's top is a manifest.</summary>
    internal static bool Is(string name) => FileName().IsMatch(name);

    /// <summary>Whether a file at the bag's top is a manifest of tag files.</summary>
    internal static bool IsForTags(string name) => FileName().Match(name).Groups["tag"].Success;

    /// <param name="name">The manifest's name.</param>
    /// <param name="declaration">What the bag says of itself.</param>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    internal static BagManifest Read(BagContents bag, string name, BagDeclaration declaration, List<Diagnostic> diagnostics)
    {
        var match = FileName().Match(name);
        var algorithm = DigestAlgorithm.Named(match.Groups["algorithm"].Value);
        var tag = TagFile.Read(bag, name, declaration.Encoding, diagnostics);
        var manifest = new BagManifest(tag.Source, match.Groups["tag"].Success, algorithm, []);
        if (algorithm is null)
        {
            diagnostics.Add(DiagnosticDescriptors.DigestUnknown.At(
                tag.Source.Whole with { Length = 0 },
                $"unknown checksum algorithm: {match.Groups["algorithm"].Value}",
                "the files in this manifest cannot be verified; use a tool that knows the algorithm"));
        }

        var lines = ImmutableArray.CreateBuilder<ManifestLine>();
        foreach (var line in tag.Lines)
        {
            if (line.Length > 0 && manifest.LineOf(line, declaration.Version, diagnostics) is { } read) lines.Add(read);
        }

        return manifest with { Lines = lines.DrainToImmutable() };
    }

    private ManifestLine? LineOf(SourceSpan span, BagVersion version, List<Diagnostic> diagnostics)
    {
        var match = Line().Match(span.Text);
        var sum = match.Groups["sum"].Value;
        if (!match.Success || sum.Length % 2 != 0 || (Algorithm is { } algorithm && sum.Length != 2 * algorithm.Length))
        {
            var wanted = Algorithm is null ? "a checksum" : $"a checksum of {2 * Algorithm.Length} hexadecimal digits";
            diagnostics.Add(DiagnosticDescriptors.ManifestLine.At(
                span, "this line of the manifest cannot be read", $"a line is {wanted}, spaces, and the path of a file"));
            return null;
        }

        var written = match.Groups["path"];
        if (match.Groups["star"].Success)
        {
            diagnostics.Add(DiagnosticDescriptors.ManifestHabit.At(
                span.Slice(match.Groups["star"].Index, 1),
                "there is an asterisk before the path, as md5sum writes it",
                "remove it: some readers treat it as part of the name"));
        }

        if (sum.Any(char.IsAsciiLetterUpper) && sum.Any(char.IsAsciiLetterLower))
        {
            diagnostics.Add(DiagnosticDescriptors.ManifestHabit.At(
                span.Slice(0, sum.Length),
                "the checksum mixes capital and small letters",
                "no tool writes it this way: a bit in this line may have changed"));
        }

        var place = span.Slice(written.Index, written.Length);
        var path = BagPath.Decode(written.Value, version);
        if (path.StartsWith("./", StringComparison.Ordinal))
        {
            diagnostics.Add(DiagnosticDescriptors.ManifestHabit.At(
                place.Slice(0, 2), "there is `./` before the path", "remove it: paths are relative to the bag's folder anyway"));
            path = path[2..];
        }

        if (Refusal(path) is { } why)
        {
            diagnostics.Add(DiagnosticDescriptors.PathLeavesBag.At(
                place, $"{written.Value} {why}", "it was not followed; do not open this bag with a tool that would"));
            return null;
        }

        return new ManifestLine(path, Convert.FromHexString(sum), span.Slice(0, sum.Length), place);
    }

    private string? Refusal(string path) => BagPath.Danger(path) is { } why ? why
        : !IsOfTags && !path.StartsWith(BagPath.Payload, StringComparison.Ordinal) ? "is not in the payload, which is in data/"
        : null;

    [GeneratedRegex(@"^(?<tag>tag)?manifest-(?<algorithm>[^./]+)\.txt$", RegexOptions.CultureInvariant)]
    private static partial Regex FileName();

    [GeneratedRegex(@"^(?<sum>[0-9A-Fa-f]+)[ \t]+(?<star>\*)?(?<path>.*)$", RegexOptions.Singleline | RegexOptions.CultureInvariant)]
    private static partial Regex Line();
}

using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Preservation.Bags;

/// <summary>A line of <c>fetch.txt</c>: a payload file that is to be fetched before the bag is whole.</summary>
/// <param name="Address">Where from; it is shown, never asked.</param>
/// <param name="Length">Bytes; null where not said.</param>
/// <param name="Path">The name of the file.</param>
/// <param name="Span">Where the name stands.</param>
internal readonly record struct FetchLine(string Address, long? Length, string Path, SourceSpan Span);

/// <summary><c>fetch.txt</c> (RFC 8493, 2.2.3).</summary>
internal static partial class FetchList
{
    internal const string FileName = "fetch.txt";

    /// <summary>Reads it, if there is one.</summary>
    /// <param name="declaration">What the bag says of itself.</param>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    internal static ImmutableArray<FetchLine> Read(BagContents bag, BagDeclaration declaration, List<Diagnostic> diagnostics)
    {
        if (!bag.Sizes.ContainsKey(FileName)) return [];
        var lines = ImmutableArray.CreateBuilder<FetchLine>();
        foreach (var span in TagFile.Read(bag, FileName, declaration.Encoding, diagnostics).Lines)
        {
            if (span.Length == 0) continue;
            var match = Line().Match(span.Text);
            var address = match.Groups["address"].Value;
            long? length = long.TryParse(match.Groups["length"].Value, NumberStyles.None, CultureInfo.InvariantCulture, out var bytes)
                ? bytes
                : null;
            if (!match.Success || !IsAbsolute(address) || (length is null && match.Groups["length"].Value != "-"))
            {
                diagnostics.Add(DiagnosticDescriptors.FetchLine.At(
                    span,
                    "this line of fetch.txt cannot be read",
                    "a line is an absolute address without spaces, a number of bytes or `-`, and the path of a file"));
                continue;
            }

            var written = match.Groups["path"];
            var path = BagPath.Decode(written.Value, declaration.Version);
            if (path.StartsWith("./", StringComparison.Ordinal)) path = path[2..];
            var place = span.Slice(written.Index, written.Length);
            var why = BagPath.Danger(path) ?? (path.StartsWith(BagPath.Payload, StringComparison.Ordinal)
                ? null
                : "is not in the payload, which is in data/");
            if (why is null) lines.Add(new FetchLine(address, length, path, place));
            else diagnostics.Add(DiagnosticDescriptors.PathLeavesBag.At(
                place, $"{written.Value} {why}", "nothing was fetched; do not open this bag with a tool that would"));
        }

        return lines.DrainToImmutable();
    }

    // By its form, not by Uri: on Unix that takes /tmp for an address.
    private static bool IsAbsolute(string address) => Scheme().IsMatch(address) && Uri.TryCreate(address, UriKind.Absolute, out _);

    [GeneratedRegex(@"^(?<address>\S+)[ \t]+(?<length>\S+)[ \t]+(?<path>.*)$", RegexOptions.Singleline | RegexOptions.CultureInvariant)]
    private static partial Regex Line();

    [GeneratedRegex(@"^[A-Za-z][A-Za-z0-9+.-]+:", RegexOptions.CultureInvariant)]
    private static partial Regex Scheme();
}

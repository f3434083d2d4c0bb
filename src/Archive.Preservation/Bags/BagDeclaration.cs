using System.Text;
using System.Text.RegularExpressions;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Preservation.Bags;

/// <summary><c>bagit.txt</c>: which version of BagIt, and in what encoding the tag files are (RFC 8493, 2.1.1).</summary>
/// <param name="Version">The version; <see cref="BagVersion.Unsaid"/> where it is unknown.</param>
/// <param name="IsSaid">Whether it was reported.</param>
/// <param name="Encoding">The encoding; UTF-8 where it is unknown.</param>
public sealed partial record BagDeclaration(BagVersion Version, bool IsSaid, Encoding Encoding)
{
    public const string FileName = "bagit.txt";
    private const string HowItIs = "it has two lines: `BagIt-Version: 1.0` and `Tag-File-Character-Encoding: UTF-8`";
    private static readonly BagDeclaration None = new(BagVersion.Unsaid, false, Encoding.UTF8);

    /// <summary>Reads it, as far as it can be read.</summary>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    internal static BagDeclaration Read(BagContents bag, List<Diagnostic> diagnostics)
    {
        if (!bag.Sizes.ContainsKey(FileName))
        {
            diagnostics.Add(DiagnosticDescriptors.NoBagDeclaration.At(
                new SourceText(FileName, "").Whole, "there is no bagit.txt, which marks a folder as a bag", $"restore it; {HowItIs}"));
            return None;
        }

        var before = diagnostics.Count;
        var tag = TagFile.Read(bag, FileName, Encoding.UTF8, diagnostics);
        if (diagnostics.Count > before)
        {
            // Reported again by its own name: what is merely unusual in another tag file makes this one no declaration.
            diagnostics.RemoveAt(before);
            diagnostics.Add(Malformed(new SourceSpan(tag.Source, 0, 0), "bagit.txt is not plain UTF-8 without a byte order mark"));
        }

        var lines = tag.Lines.ToList();
        var version = lines.Count > 0 ? VersionLine().Match(lines[0].Text) : Match.Empty;
        var encoding = lines.Count > 1 ? EncodingLine().Match(lines[1].Text) : Match.Empty;
        if (lines.Count != 2) diagnostics.Add(
            Malformed(tag.Source.Whole, $"bagit.txt has {(lines.Count == 1 ? "one line" : $"{lines.Count} lines")} instead of two"));
        if (lines.Count > 0 && !version.Success)
            diagnostics.Add(Malformed(lines[0], "the first line of bagit.txt does not give the version"));
        if (lines.Count > 1 && !encoding.Success)
            diagnostics.Add(Malformed(lines[1], "the second line of bagit.txt does not give the encoding"));

        var known = BagVersion.All.FirstOrDefault(each => each.Name == version.Groups["value"].Value);
        if (version.Success && known is null)
        {
            diagnostics.Add(DiagnosticDescriptors.BagVersionUnknown.At(
                lines[0].Slice(version.Groups["value"].Index, version.Groups["value"].Length),
                $"unknown version of BagIt: {version.Groups["value"].Value}",
                $"known versions: {string.Join(", ", BagVersion.All.Select(each => each.Name))}"));
        }

        // What went before the standard let blanks stand anywhere; the standard asks for one blank, and none before the colon.
        if (known is { IsStandard: true })
        {
            foreach (var (line, match) in lines.Zip([version, encoding]))
            {
                if (match.Success && !IsStrict(match)) diagnostics.Add(Malformed(line, "a space is missing, or there is one too many"));
            }
        }

        return new BagDeclaration(known ?? BagVersion.Unsaid, known is not null, EncodingOf(lines, encoding, diagnostics));
    }

    private static Encoding EncodingOf(List<SourceSpan> lines, Match match, List<Diagnostic> diagnostics)
    {
        if (!match.Success) return Encoding.UTF8;
        var name = match.Groups["value"].Value;
        try
        {
            // UTF-7 is known and refused by the platform: what it hides from a reader it hides from an audit.
            return CodePagesEncodingProvider.Instance.GetEncoding(name) ?? Encoding.GetEncoding(name);
        }
        catch (Exception exception) when (exception is ArgumentException or NotSupportedException)
        {
            diagnostics.Add(DiagnosticDescriptors.TagEncoding.At(
                lines[1].Slice(match.Groups["value"].Index, name.Length),
                $"unknown encoding: {name}",
                "use a name from the IANA register of character sets, usually UTF-8"));
            return Encoding.UTF8;
        }
    }

    private static bool IsStrict(Match match) =>
        match.Groups["before"].Length == 0 && match.Groups["behind"].Length == 1 && match.Groups["end"].Length == 0;

    private static Diagnostic Malformed(SourceSpan span, string message) =>
        DiagnosticDescriptors.BagDeclarationMalformed.At(span, message, HowItIs);

    // The figures of RFC 8493 write BagIt-version, its text BagIt-Version: letter case is let pass.
    [GeneratedRegex(
        @"^BagIt-Version(?<before>[ \t]*):(?<behind>[ \t]*)(?<value>[^ \t]+)(?<end>[ \t]*)$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex VersionLine();

    [GeneratedRegex(
        @"^Tag-File-Character-Encoding(?<before>[ \t]*):(?<behind>[ \t]*)(?<value>[^ \t]+)(?<end>[ \t]*)$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex EncodingLine();
}

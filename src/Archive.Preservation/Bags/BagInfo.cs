using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Preservation.Bags;

/// <summary>A line of <c>bag-info.txt</c>, with those that continue it.</summary>
/// <param name="Label">What is said; letter case does not matter.</param>
/// <param name="Value">What is said of it.</param>
internal readonly record struct InfoLine(string Label, string Value, SourceSpan Span)
{
    /// <summary>Whether it is of a label.</summary>
    internal bool Is(string label) => string.Equals(Label, label, StringComparison.OrdinalIgnoreCase);
}

/// <summary><c>bag-info.txt</c> (RFC 8493, 2.2.2): what the bag is, in lines of labels that may repeat and whose order stands.</summary>
internal static partial class BagInfo
{
    /// <summary>Reads it, if there is one.</summary>
    /// <param name="declaration">What the bag says of itself.</param>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    internal static ImmutableArray<InfoLine> Read(BagContents bag, BagDeclaration declaration, List<Diagnostic> diagnostics)
    {
        var name = declaration.Version.InfoFile;
        if (!bag.Sizes.ContainsKey(name)) return [];
        var lines = ImmutableArray.CreateBuilder<InfoLine>();
        foreach (var span in TagFile.Read(bag, name, declaration.Encoding, diagnostics).Lines)
        {
            var text = span.Text;
            if (text.Length == 0) continue;
            if (text[0] is ' ' or '\t' && lines.Count > 0)
            {
                lines[^1] = lines[^1] with { Value = $"{lines[^1].Value} {text.Trim(' ', '\t')}" };
                continue;
            }

            var match = Line().Match(text);
            var label = match.Groups["label"].Value;
            if (!match.Success || (declaration.Version.IsStandard && label.Trim() != label))
            {
                diagnostics.Add(DiagnosticDescriptors.InfoLine.At(
                    span,
                    $"this line of {name} cannot be read",
                    "a line is a label without spaces around it, a colon, a space and a value; a line that starts with a space continues the one before"));
                continue;
            }

            // RFC 8493, 2.2.2. The drafts before it said nothing of it.
            if (declaration.Version.IsStandard && match.Groups["value"].Value is [not (' ' or '\t'), ..])
            {
                diagnostics.Add(DiagnosticDescriptors.InfoValue.At(
                    span, "there is no space after the colon", $"write `{label}: {match.Groups["value"].Value}`"));
            }

            lines.Add(new InfoLine(label.Trim(), match.Groups["value"].Value.Trim(' ', '\t'), span));
        }

        return lines.DrainToImmutable();
    }

    /// <summary>Compares reserved labels with their forms, and the payload's size with what is there.</summary>
    internal static IEnumerable<Diagnostic> Check(ImmutableArray<InfoLine> lines, BagContents bag)
    {
        foreach (var line in lines)
        {
            if (line.Is("Bagging-Date")
                && !DateOnly.TryParseExact(line.Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out _))
            {
                yield return DiagnosticDescriptors.InfoValue.At(
                    line.Span, $"{line.Value} is not a valid `Bagging-Date`", "write year, month and day, such as 2026-05-12");
            }

            if (line.Is("Bag-Count") && !Count().IsMatch(line.Value))
            {
                yield return DiagnosticDescriptors.InfoValue.At(
                    line.Span, $"{line.Value} is not a valid `Bag-Count`", "write which of how many, such as `2 of 5` or `2 of ?`");
            }
        }

        var sizes = lines.Where(line => line.Is("Payload-Oxum")).ToList();
        foreach (var again in sizes.Skip(1))
        {
            yield return DiagnosticDescriptors.InfoValue.At(
                again.Span, "`Payload-Oxum` is given again", "give it once", new Related(sizes[0].Span, "first given here"));
        }

        if (sizes.Count > 0 && OxumError(sizes[0], bag) is { } diagnostic) yield return diagnostic;
    }

    private static Diagnostic? OxumError(InfoLine line, BagContents bag)
    {
        var match = Oxum().Match(line.Value);
        if (!match.Success) return DiagnosticDescriptors.InfoValue.At(
            line.Span,
            $"{line.Value} is not a valid `Payload-Oxum`",
            "write the number of bytes, a full stop, and the number of files, such as 279164409832.1198");
        var payload = bag.Files.Where(file => file.StartsWith(BagPath.Payload, StringComparison.Ordinal)).ToList();
        var there = string.Create(CultureInfo.InvariantCulture, $"{payload.Sum(file => bag.Sizes[file])}.{payload.Count}");
        return there == $"{match.Groups["bytes"].Value.TrimStart('0'),1}.{match.Groups["files"].Value.TrimStart('0'),1}".Replace(' ', '0')
            ? null
            : DiagnosticDescriptors.PayloadSize.At(
                line.Span,
                $"the payload is {there} in bytes and files, but `Payload-Oxum` says {line.Value}",
                "files were added, lost, truncated or extended after the bag was made");
    }

    [GeneratedRegex(@"^(?<label>[^:]+):(?<value>.*)$", RegexOptions.CultureInvariant)]
    private static partial Regex Line();

    [GeneratedRegex(@"^[0-9]+ of ([0-9]+|\?)$", RegexOptions.CultureInvariant)]
    private static partial Regex Count();

    [GeneratedRegex(@"^(?<bytes>[0-9]+)\.(?<files>[0-9]+)$", RegexOptions.CultureInvariant)]
    private static partial Regex Oxum();
}

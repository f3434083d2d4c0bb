using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using YamlDotNet.Core.Events;

namespace Archive.Records.Reading.Syntax;

/// <summary>Reports what YAML offers and records do not take: anchors, aliases, tags, and values without end.</summary>
internal static class YamlRestrictions
{
    private const string CoreSchema = "tag:yaml.org,2002:";

    /// <summary>Reports the anchor and the tag of a node; the node itself is read.</summary>
    /// <param name="span">Where it begins.</param>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    public static void Tell(NodeEvent node, SourceSpan span, DiagnosticBag diagnostics)
    {
        if (!node.Anchor.IsEmpty)
        {
            diagnostics.Add(DiagnosticDescriptors.YamlAlias.At(
                span.Slice(0, 1),
                $"`&{Quotation.Shorten(node.Anchor.Value)}` names this part so that it can be repeated",
                "remove the anchor; records have no aliases"));
        }

        if (!node.Tag.IsEmpty && node.Tag.Value != CoreSchema + "str")
        {
            var tag = node.Tag.Value.Replace(CoreSchema, "!!", StringComparison.Ordinal);
            diagnostics.Add(DiagnosticDescriptors.YamlTag.At(
                span.Slice(0, 1), $"a tag, `{Quotation.Shorten(tag)}`, on a value", "remove the tag; the key decides what a value is"));
        }
    }

    /// <summary>Tells an alias.</summary>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    public static RejectedNode Alias(AnchorAlias alias, SourceSpan span, DiagnosticBag diagnostics)
    {
        diagnostics.Add(DiagnosticDescriptors.YamlAlias.At(
            span,
            $"`*{Quotation.Shorten(alias.Value.Value)}` repeats another part of the file",
            "write the value out; put quotes around text that starts with `*`"));
        return new RejectedNode(span);
    }

    /// <summary>Tells a value that is too long.</summary>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    public static RejectedNode TooLong(Scalar scalar, SourceSpan span, DiagnosticBag diagnostics)
    {
        diagnostics.Add(DiagnosticDescriptors.ScalarTooLong.At(
            span.Slice(0, 1),
            $"this value has {scalar.Value.Length} characters, more than {YamlSyntax.LongestScalar}",
            "split it, or move it to a story"));
        return new RejectedNode(span);
    }
}

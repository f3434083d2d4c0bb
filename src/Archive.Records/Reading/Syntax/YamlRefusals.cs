using Archive.Diagnostics;
using YamlDotNet.Core.Events;

namespace Archive.Records;

/// <summary>Tells what YAML offers and records do not take: anchors, aliases, tags, and values without end.</summary>
internal static class YamlRefusals
{
    private const string CoreSchema = "tag:yaml.org,2002:";

    /// <summary>Tells the anchor and the tag of a node; the node itself is read.</summary>
    /// <param name="node">The node.</param>
    /// <param name="span">Where it begins.</param>
    /// <param name="told">Where faults are told.</param>
    public static void Tell(NodeEvent node, SourceSpan span, Told told)
    {
        if (!node.Anchor.IsEmpty)
        {
            told.Add(Faults.YamlAlias.At(
                span.Slice(0, 1), $"`&{Quotation.Of(node.Anchor.Value)}` names this part so that it can be repeated", "remove the anchor; records have no aliases"));
        }

        if (!node.Tag.IsEmpty && node.Tag.Value != CoreSchema + "str")
        {
            var tag = node.Tag.Value.Replace(CoreSchema, "!!", StringComparison.Ordinal);
            told.Add(Faults.YamlTag.At(span.Slice(0, 1), $"a tag, `{Quotation.Of(tag)}`, on a value", "remove the tag; the key decides what a value is"));
        }
    }

    /// <summary>Tells an alias.</summary>
    /// <param name="alias">The alias.</param>
    /// <param name="span">Where it stands.</param>
    /// <param name="told">Where faults are told.</param>
    public static RefusedNode Alias(AnchorAlias alias, SourceSpan span, Told told)
    {
        told.Add(Faults.YamlAlias.At(
            span, $"`*{Quotation.Of(alias.Value.Value)}` repeats another part of the file", "write the value out; records have no aliases"));
        return new RefusedNode(span);
    }

    /// <summary>Tells a value that is too long.</summary>
    /// <param name="scalar">The value.</param>
    /// <param name="span">Where it stands.</param>
    /// <param name="told">Where faults are told.</param>
    public static RefusedNode TooLong(Scalar scalar, SourceSpan span, Told told)
    {
        told.Add(Faults.ScalarTooLong.At(
            span.Slice(0, 1), $"this value has {scalar.Value.Length} characters, more than {YamlSyntax.LongestScalar}", "split it, or move it to a story"));
        return new RefusedNode(span);
    }
}

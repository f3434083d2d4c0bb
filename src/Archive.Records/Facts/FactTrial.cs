using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Kinds;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;

namespace Archive.Records.Facts;

/// <summary>Reads facts that are not written yet, as the record's own reader will read them.</summary>
public static class FactTrial
{
    /// <summary>What would be wrong with facts of one record, once they are written.</summary>
    /// <param name="kind">Its kind; null for <c>archive.yaml</c>.</param>
    /// <param name="id">Its id.</param>
    /// <param name="isWhole">Whether they are all that the record will say: then a required key must be among them.</param>
    /// <returns>Sentences without capital and full stop, by the key of the fact; by an empty key what is wrong with the record.</returns>
    public static ILookup<string, string> Errors(RecordKind? kind, string id, IEnumerable<FactToWrite> facts, bool isWhole)
    {
        var errors = new List<(string Key, string Message)>();
        var known = new List<(ImmutableArray<string>, FactToWrite)>();
        foreach (var fact in facts)
        {
            if (fact.Key == "id") errors.Add((fact.Key, "an id cannot be changed"));
            else if (FactFormats.Find(kind, fact.Key) is { } found) known.Add((found.Parts, fact));
            else errors.Add((fact.Key, UnknownKey(kind, fact.Key)));
        }

        var diagnostics = new DiagnosticBag();
        var top = new SourceText(string.Empty, id);
        var nodes = new Nodes();
        var tree = FactTree.From(FactFormats.Of(kind), known);
        var entries = tree.Inner.Select(entry => nodes.Entry(entry.Key, entry.Value, top));
        if (kind is { } recordKind)
        {
            var idEntry = new MappingEntry(
                new ScalarNode(top.Whole, "id", ScalarNotation.Plain), new ScalarNode(top.Whole, id, ScalarNotation.Quoted));
            RecordKindReaders.Read(recordKind, new MappingNode(top.Whole, [idEntry, .. entries]), diagnostics);
        }
        else
        {
            StatementReader.Read(new MappingReader(new MappingNode(top.Whole, [.. entries]), StatementFormat.All, diagnostics));
        }

        foreach (var diagnostic in diagnostics.All.Where(diagnostic => diagnostic.Severity == Severity.Error))
        {
            // Of an item of a list too: what is missing here, the record may say already.
            if (!isWhole && (diagnostic.Descriptor == DiagnosticDescriptors.MissingKey
                || diagnostic.Descriptor == DiagnosticDescriptors.MissingReason)) continue;
            errors.Add((nodes.KeyOf(diagnostic.Span.Source) ?? string.Empty, diagnostic.Message));
        }

        return errors.ToLookup(error => error.Key, error => error.Message, StringComparer.Ordinal);
    }

    private static string UnknownKey(RecordKind? kind, string key)
    {
        var format = FactFormats.Of(kind);
        return $"unknown key `{Quotation.Shorten(key)}` in this {format.Noun}"
            + (NearestName.Find(key, format.Keys.Select(known => known.Name)) is { } near ? $"; did you mean `{near}`?" : "");
    }

    // Each fact has a source of its own, by which an error is known to be in it.
    private sealed class Nodes
    {
        private readonly Dictionary<SourceText, string> _keys = [];

        public string? KeyOf(SourceText source) => _keys.GetValueOrDefault(source);

        public MappingEntry Entry(string key, FactTree tree, SourceText source)
        {
            var at = SourceOf(tree, source);
            return new MappingEntry(new ScalarNode(at.Whole, key, ScalarNotation.Plain), Node(tree, at));
        }

        private SourceText SourceOf(FactTree tree, SourceText outer)
        {
            if (tree.Fact is not { } fact) return outer;
            var source = new SourceText(string.Empty, fact.Value.Text);
            _keys[source] = fact.Key;
            return source;
        }

        private SyntaxNode Node(FactTree tree, SourceText source, string? id = null)
        {
            if (tree.Fact is { } fact) return Node(FactTree.WithEvidence(fact), tree.Format, source);
            if (tree.IsList)
            {
                var hasIds = FactFormats.HasIds(tree.Format);
                return new ListNode(
                    source.Whole,
                    [.. tree.Inner.Select(item => Node(item.Value, SourceOf(item.Value, source), hasIds ? item.Key : null))]);
            }

            var entries = tree.Inner.Select(entry => Entry(entry.Key, entry.Value, source));
            return new MappingNode(source.Whole, [.. id is null ? [] : new[] { Id(id, source) }, .. entries]);
        }

        private static MappingEntry Id(string id, SourceText source) => new(
            new ScalarNode(source.Whole, "id", ScalarNotation.Plain), new ScalarNode(source.Whole, id, ScalarNotation.Quoted));

        private static SyntaxNode Node(FactValue value, NodeFormat? format, SourceText source) => value switch
        {
            SingleFact text => new ScalarNode(
                source.Whole,
                text.Value,
                FactFormats.IsBare(FactFormats.AsValue(format)) ? ScalarNotation.Plain : ScalarNotation.Quoted),
            FactList list => new ListNode(source.Whole, [.. list.Items.Select(item => Node(item, FactFormats.AsItem(format), source))]),
            FactMapping mapping => new MappingNode(source.Whole, [.. mapping.Entries.Select(entry => new MappingEntry(
                new ScalarNode(source.Whole, entry.Key, ScalarNotation.Plain),
                Node(entry.Value, FactFormats.Behind(entry.Key, format), source)))]),
            _ => throw new ArgumentOutOfRangeException(nameof(value)),
        };
    }
}

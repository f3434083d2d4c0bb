using System.Collections.Immutable;
using System.Globalization;
using Archive.Records.Reading.Values;

namespace Archive.Records.Facts;

/// <summary>
/// Facts with keys such as <c>ends.1.at</c>, put together as they are written: mappings and lists within each other.
/// </summary>
/// <remarks>Keys are in the order in which the format lists them; those it does not know follow by name.</remarks>
internal sealed class FactTree
{
    private readonly SortedDictionary<string, FactTree> _inner;
    private readonly NodeFormat? _format;

    private FactTree(NodeFormat? format)
    {
        _format = format;
        _inner = new(Comparer<string>.Create((one, other) => Compare(format, one, other)));
    }

    /// <summary>The fact that ends here; null where the keys go on.</summary>
    public FactToWrite? Fact { get; private set; }

    /// <summary>What is within, by key, id or number.</summary>
    public IReadOnlyDictionary<string, FactTree> Inner => _inner;

    /// <summary>What can be written here; null where the format has no such key.</summary>
    public NodeFormat? Format => _format;

    /// <summary>Whether what is within are items of a list.</summary>
    public bool IsList => FactFormats.AsItem(_format) is not null && FactFormats.AsMapping(_format) is null;

    /// <summary>Puts facts, by the parts of their keys, together. Of two facts with one key the later holds.</summary>
    /// <param name="format">The keys of the record.</param>
    public static FactTree From(MappingFormat format, IEnumerable<(ImmutableArray<string> Parts, FactToWrite Fact)> facts)
    {
        var root = new FactTree(format);
        foreach (var (parts, fact) in facts)
        {
            var at = root;
            foreach (var part in parts)
            {
                if (!at._inner.TryGetValue(part, out var next)) at._inner[part] = next = new FactTree(at.FormatOf(part));
                at = next;
            }

            at.Fact = fact;
        }

        return root;
    }

    /// <summary>All of it as one value.</summary>
    /// <param name="id">The id of an item that has one; null for none.</param>
    public FactValue AsValue(string? id = null)
    {
        if (Fact is { } fact) return WithEvidence(fact);
        if (IsList)
        {
            var hasIds = FactFormats.HasIds(_format);
            return new FactList([.. _inner.Select(item => item.Value.AsValue(hasIds ? item.Key : null))]);
        }

        var entries = _inner.Select(entry => new FactEntry(entry.Key, entry.Value.AsValue(), entry.Value.Fact?.Comment));
        return new FactMapping([.. id is null ? [] : new[] { new FactEntry("id", FactValue.Of(id)) }, .. entries]);
    }

    /// <summary>A fact's value, with its evidence if it has any.</summary>
    public static FactValue WithEvidence(FactToWrite fact) => fact.Evidence is not { IsEmpty: false } evidence
        ? fact.Value
        : new FactMapping(
        [
            new FactEntry("is", fact.Value),
            .. evidence.Entries.Select(entry => new FactEntry(entry.Key, FactValue.Of(entry.Value))),
        ]);

    private NodeFormat? FormatOf(string part) => _format is null ? null : FactFormats.Plain(_format) switch
    {
        TableFormat table => table.Entry,
        _ => FactFormats.AsItem(_format) ?? FactFormats.AsMapping(_format)?.Find(part)?.Node,
    };

    private static int Compare(NodeFormat? format, string one, string other)
    {
        if (FactFormats.AsMapping(format) is { } mapping)
        {
            var order = OrderOf(mapping, one).CompareTo(OrderOf(mapping, other));
            if (order != 0) return order;
        }

        return int.TryParse(one, NumberStyles.None, CultureInfo.InvariantCulture, out var first)
            && int.TryParse(other, NumberStyles.None, CultureInfo.InvariantCulture, out var second)
            && first != second
            ? first.CompareTo(second)
            : string.CompareOrdinal(one, other);
    }

    /// <summary>Where a key usually stands in its mapping.</summary>
    public static int OrderOf(MappingFormat mapping, string key)
    {
        for (var i = 0; i < mapping.Keys.Length; i++)
        {
            // What is said in prose is usually written last.
            if (mapping.Keys[i].Name == key) return key is "about" or "note" or "accept" ? mapping.Keys.Length + i : i;
        }

        return int.MaxValue;
    }
}

using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Facts;

/// <summary>Finds what the record format declares for the key of a fact, such as <c>ends.1.at</c>.</summary>
public static class FactFormats
{
    /// <summary>The keys of a kind of record; of <c>archive.yaml</c> for null.</summary>
    public static MappingFormat Of(RecordKind? kind) => RecordFormats.All[kind is { } known ? (int)known + 1 : 0].Mapping;

    /// <summary>A key's parts and what can be written behind it.</summary>
    /// <param name="key">Keys joined by full stops; items of lists by their ids, or by their numbers from 1.</param>
    /// <returns>Null where the format has no such key.</returns>
    public static (ImmutableArray<string> Parts, NodeFormat Node)? Find(RecordKind? kind, string key)
    {
        var words = key.Split('.');
        var parts = new List<string>(words.Length);
        return words.All(word => word.Length > 0) && Resolve(Of(kind), words, 0, parts) is { } node ? ([.. parts], node) : null;
    }

    /// <summary>Whether a fact can be written with its evidence.</summary>
    public static bool TakesEvidence(RecordKind? kind, string key) => Find(kind, key)?.Node is FactFormat;

    /// <summary>What a single value of a key is: of a list its items, of <c>length.by</c> who says it.</summary>
    /// <returns>Null where the format has no such key, or it takes no single values.</returns>
    public static ValueFormat? ValueOf(RecordKind? kind, string key) => Find(kind, key) is { } found
        ? AsValue(found.Node) ?? AsValue(AsItem(found.Node))
        : EvidenceOf(kind, key) is var (_, part) ? AsValue(EvidenceFormat.All.Find(part)!.Node)
        : null;

    /// <summary>Takes the key of evidence apart: <c>length.by</c> is <c>by</c> of <c>length</c>.</summary>
    /// <returns>Null where it is none.</returns>
    public static (string Fact, string Part)? EvidenceOf(RecordKind? kind, string key)
    {
        var at = key.LastIndexOf('.');
        return at > 0 && key[(at + 1)..] is "from" or "by" or "on" or "note" && TakesEvidence(kind, key[..at])
            ? (key[..at], key[(at + 1)..])
            : null;
    }

    /// <summary>What a format is, of what it names or lets choose from.</summary>
    internal static NodeFormat Plain(NodeFormat node) => node switch
    {
        NamedFormat named => Plain(named.Node()),
        _ => node,
    };

    /// <summary>The format's mapping, if what it describes can be one.</summary>
    internal static MappingFormat? AsMapping(NodeFormat? node) => node is null ? null : Plain(node) switch
    {
        MappingFormat mapping => mapping,
        ChoiceFormat choice => AsMapping(choice.Full) ?? AsMapping(choice.Brief),
        _ => null,
    };

    /// <summary>The single value that a format describes, if it can be one.</summary>
    internal static ValueFormat? AsValue(NodeFormat? node) => node is null ? null : Plain(node) switch
    {
        FactFormat fact => fact.Value,
        SingleFormat single => single.Value,
        ChoiceFormat choice => AsValue(choice.Brief) ?? AsValue(choice.Full),
        ListFormat { OneWillDo: true } list => AsValue(list.Item),
        _ => null,
    };

    /// <summary>The items of the list that a format describes, if it can be one.</summary>
    internal static NodeFormat? AsItem(NodeFormat? node) => node is null ? null : Plain(node) switch
    {
        ListFormat list => list.Item,
        ChoiceFormat choice => AsItem(choice.Full) ?? AsItem(choice.Brief),
        _ => null,
    };

    // Ids may have full stops in them: an item's id takes as many words as leave keys that exist.
    private static NodeFormat? Resolve(NodeFormat node, string[] words, int at, List<string> parts)
    {
        if (at == words.Length) return node;
        var (choices, most) = Choices(node, words[at]);
        foreach (var inner in choices)
        {
            for (var length = 1; length <= Math.Min(most, words.Length - at); length++)
            {
                var count = parts.Count;
                parts.Add(string.Join('.', words.AsSpan(at, length)!));
                if (Resolve(inner, words, at + length, parts) is { } found) return found;
                parts.RemoveRange(count, parts.Count - count);
            }
        }

        return null;
    }

    private static (IEnumerable<NodeFormat> Inner, int MostWords) Choices(NodeFormat node, string word) => Plain(node) switch
    {
        MappingFormat mapping => (mapping.Find(word) is { } key ? [key.Node] : [], 1),
        ListFormat list => ([list.Item], HasIds(list) ? int.MaxValue : 1),
        TableFormat table => ([table.Entry], int.MaxValue),
        ChoiceFormat choice => (new[] { choice.Full, choice.Brief }.SelectMany(one => Choices(one, word).Inner), 1),
        _ => ([], 1),
    };

    /// <summary>Whether the items of a list have ids.</summary>
    internal static bool HasIds(NodeFormat? list) => AsMapping(AsItem(list))?.Find("id") is not null;

    /// <summary>Whether a value must stand without quotes: a number, a truth, or a word of the format.</summary>
    internal static bool IsBare(ValueFormat? format) => format is { Words.Length: > 0 } || format?.JsonTypes.Contains("string") == false;

    /// <summary>What is behind a key of a mapping; the value of a fact for <c>is</c>.</summary>
    internal static NodeFormat? Behind(string key, NodeFormat? format) => format is null ? null : Plain(format) switch
    {
        FactFormat fact when key == "is" => new SingleFormat(fact.Value),
        FactFormat => EvidenceFormat.All.Find(key)?.Node,
        TableFormat table => table.Entry,
        _ => AsMapping(format)?.Find(key)?.Node,
    };
}

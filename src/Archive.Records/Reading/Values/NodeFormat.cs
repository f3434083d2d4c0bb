namespace Archive.Records.Reading.Values;

/// <summary>What can be written behind a key, or as an item of a list.</summary>
public abstract record NodeFormat;

/// <summary>A single value, alone or with its evidence.</summary>
public sealed record FactFormat(ValueFormat Value) : NodeFormat;

/// <summary>A list.</summary>
/// <param name="OneWillDo">Whether one item may be written without the list.</param>
/// <param name="Least">Items that it has at least.</param>
/// <param name="Most">Items that it has at most; null for any number.</param>
public sealed record ListFormat(NodeFormat Item, bool OneWillDo = false, int Least = 0, int? Most = null) : NodeFormat;

/// <summary>A mapping whose keys the record chooses.</summary>
/// <param name="Key">What a key is, for people.</param>
/// <param name="Entry">What is behind each.</param>
public sealed record TableFormat(string Key, NodeFormat Entry) : NodeFormat
{
    /// <summary>What a key must be like, as a regular expression; null for any.</summary>
    public string? KeyPattern { get; init; }
}

/// <summary>A single value or a mapping, as the writer likes.</summary>
public sealed record ChoiceFormat(NodeFormat Brief, NodeFormat Full) : NodeFormat;

/// <summary>Something that can contain itself, by name.</summary>
public sealed record NamedFormat(string Name, Func<NodeFormat> Node) : NodeFormat;

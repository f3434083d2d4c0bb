namespace Archive.Records.Reading.Values;

/// <summary>Declares the keys of a mapping, one after the other.</summary>
/// <param name="first">Keys that it has in common with others.</param>
internal sealed class KeyList(params ReadOnlySpan<FormatKey> first)
{
    private readonly List<FormatKey> _keys = [.. first];

    /// <summary>A fact, alone or with its evidence.</summary>
    public FactKey<T> Fact<T>(
        string name,
        ValueFormat<T> value,
        string meaning,
        string? example,
        bool required = false,
        string? usual = null) =>
        Add(new FactKey<T>(name, value, meaning, example) { IsRequired = required, Default = usual });

    /// <summary>A value without evidence.</summary>
    public SingleKey<T> Single<T>(string name, ValueFormat<T> value, string meaning, string? example, bool required = false) =>
        Add(new SingleKey<T>(name, value, meaning, example) { IsRequired = required });

    /// <summary>A list of single values.</summary>
    public ListKey<T> List<T>(
        string name,
        ValueFormat<T> value,
        string meaning,
        string? example,
        bool required = false,
        bool oneWillDo = false) =>
        Add(new ListKey<T>(name, value, meaning, example, oneWillDo) { IsRequired = required });

    public MappingKey Mapping(string name, MappingFormat mapping, string meaning) => Add(new MappingKey(name, mapping, meaning));

    /// <summary>A list of mappings.</summary>
    public MappingsKey Each(string name, MappingFormat mapping, string meaning, bool oneWillDo = false) =>
        Add(new MappingsKey(name, mapping, meaning, oneWillDo));

    /// <summary>Anything else.</summary>
    public FormatKey Other(string name, NodeFormat node, string meaning, string example, bool required = false) =>
        Add(new FormatKey(name, node, meaning, example) { IsRequired = required });

    /// <summary>The mapping of all keys declared so far.</summary>
    /// <param name="noun">What it describes.</param>
    public MappingFormat Of(string noun) => new(noun, [.. _keys]);

    private T Add<T>(T key)
        where T : FormatKey
    {
        _keys.Add(key);
        return key;
    }
}

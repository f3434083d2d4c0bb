namespace Archive.Records.Reading.Values;

/// <summary>A key that the record can have.</summary>
/// <param name="Name">As it is written.</param>
/// <param name="Node">What is behind it.</param>
/// <param name="Meaning">What it says; a sentence without capital and full stop.</param>
/// <param name="Example">Its value as YAML in one line; null where it follows from the keys below.</param>
public record FormatKey(string Name, NodeFormat Node, string Meaning, string? Example)
{
    /// <summary>Whether it must be there, unless the record is withdrawn.</summary>
    public bool IsRequired { get; init; }

    /// <summary>What holds if it is left out; null if then nothing is known.</summary>
    public string? Default { get; init; }

    /// <summary>Why it is no longer to be used; null for a key in use.</summary>
    public string? Deprecated { get; init; }
}

/// <summary>A key of a value without evidence.</summary>
/// <typeparam name="T">What is stated.</typeparam>
internal sealed record SingleKey<T>(string Name, ValueFormat<T> Value, string Meaning, string? Example)
    : FormatKey(Name, new SingleFormat(Value), Meaning, Example);

internal sealed record MappingKey(string Name, MappingFormat Mapping, string Meaning) : FormatKey(Name, Mapping, Meaning, null);

/// <summary>A key of a list of mappings.</summary>
internal sealed record MappingsKey(string Name, MappingFormat Mapping, string Meaning, bool OneWillDo)
    : FormatKey(Name, new ListFormat(Mapping, OneWillDo), Meaning, null);

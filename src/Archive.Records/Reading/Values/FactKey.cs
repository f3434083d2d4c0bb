namespace Archive.Records.Reading.Values;

/// <summary>A key of a fact, alone or with its evidence.</summary>
/// <typeparam name="T">What is stated.</typeparam>
internal sealed record FactKey<T>(string Name, ValueFormat<T> Value, string Meaning, string? Example)
    : FormatKey(Name, new FactFormat(Value), Meaning, Example);

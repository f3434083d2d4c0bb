namespace Archive.Records.Reading.Values;

/// <summary>A key of a list of single values.</summary>
/// <typeparam name="T">What each is.</typeparam>
internal sealed record ListKey<T>(string Name, ValueFormat<T> Value, string Meaning, string? Example, bool OneWillDo)
    : FormatKey(Name, new ListFormat(new SingleFormat(Value), OneWillDo), Meaning, Example);

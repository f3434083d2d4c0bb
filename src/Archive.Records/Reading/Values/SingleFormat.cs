namespace Archive.Records.Reading.Values;

/// <summary>A single value.</summary>
public sealed record SingleFormat(ValueFormat Value) : NodeFormat;

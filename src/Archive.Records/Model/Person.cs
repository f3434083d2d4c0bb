namespace Archive.Records.Model;

/// <summary>Someone who made the record.</summary>
/// <param name="Key">How the record names them.</param>
/// <param name="Role">What they do.</param>
public sealed record Person(string Key, Stated<string>? Name, Stated<string>? Role);

using Archive.Diagnostics;

namespace Archive.Records.Reading.Kinds;

/// <summary>What every record has, read once for all kinds.</summary>
/// <param name="Id">Its id; empty where it has none that can be used.</param>
/// <param name="IdSpan">Where the id stands.</param>
internal readonly record struct CommonFields(string Id, SourceSpan IdSpan);

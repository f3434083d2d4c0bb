using System.Collections.Immutable;
using Archive.Records.Facts;

namespace Archive.Records.Editing;

/// <summary>What is to be written into one record of a file.</summary>
/// <param name="Id">Its id; <see cref="RawRecord.Statement"/> for <c>archive.yaml</c>.</param>
/// <param name="Facts">What is written; a fact that the record has already is replaced.</param>
/// <param name="IsNew">Whether the record is added.</param>
public sealed record RecordEdit(string Id, ImmutableArray<FactToWrite> Facts, bool IsNew = false);

/// <summary>A file after edits.</summary>
/// <param name="After">Its bytes; null if nothing could be written.</param>
/// <param name="Refusals">What could not be written.</param>
public sealed record FileEdit(byte[]? After, ImmutableArray<EditRefusal> Refusals);

/// <summary>Why something could not be written.</summary>
/// <param name="Id">Id of the record.</param>
/// <param name="Key">The fact; null for the whole record.</param>
/// <param name="Why">The reason; a sentence without capital and full stop.</param>
public readonly record struct EditRefusal(string Id, string? Key, string Why);

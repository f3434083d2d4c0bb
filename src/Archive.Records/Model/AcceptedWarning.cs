using Archive.Diagnostics;

namespace Archive.Records.Model;

/// <summary>A warning that a record accepts, because what looks impossible is true.</summary>
/// <param name="Code">The warning's code.</param>
/// <param name="Span">Where the code is written.</param>
/// <param name="Reason">Why it is true.</param>
public sealed record AcceptedWarning(string Code, SourceSpan Span, string Reason);

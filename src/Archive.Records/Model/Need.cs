using Archive.Diagnostics;

namespace Archive.Records.Model;

/// <summary>What a frame or display needs.</summary>
public abstract record Need(SourceSpan Span);

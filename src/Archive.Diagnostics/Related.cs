namespace Archive.Diagnostics;

/// <summary>Another place that a diagnostic speaks of.</summary>
/// <param name="Span">The place.</param>
/// <param name="Says">What is to be seen there, such as <c>first said here</c>.</param>
public sealed record Related(SourceSpan Span, string Says);

using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Records.Model;

/// <summary>A closed figure of a plan.</summary>
/// <param name="Points">Corners in order, at least three; the last joins the first.</param>
public sealed record Outline(ImmutableArray<PlanPoint> Points, SourceSpan Span);

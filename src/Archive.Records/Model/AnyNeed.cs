using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Records.Model;

/// <summary>Any so many of several: <c>{any: 2, of: …}</c>.</summary>
/// <param name="Any">How many, at least 1.</param>
/// <param name="Module">All frames of a module, where <c>of</c> names one.</param>
/// <param name="Of">The alternatives, where <c>of</c> lists them; needs may nest.</param>
public sealed record AnyNeed(SourceSpan Span, Stated<int> Any, Stated<string>? Module, ImmutableArray<Need> Of) : Need(Span);

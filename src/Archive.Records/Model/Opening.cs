using Archive.Diagnostics;
using UnitsNet;

namespace Archive.Records.Model;

/// <summary>A door or other opening in a wall.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="From">One jamb.</param>
/// <param name="To">The other jamb.</param>
/// <param name="Height">Clear height.</param>
public sealed record Opening(Stated<string>? Name, PlanPoint From, PlanPoint To, Stated<Length>? Height, SourceSpan Span);

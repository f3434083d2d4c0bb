using System.Collections.Immutable;
using UnitsNet;

namespace Archive.Wiring.Reconnecting;

/// <summary>How a cable will lie in the hall where it is put back. Wiring knows no halls: anyone who knows them says it.</summary>
/// <param name="Length">The route from port to port; null where it is not known.</param>
/// <param name="ShortBy">How much the cable is too short; null where it reaches, or that is not known.</param>
/// <param name="Trays">Ids of the trays of its route, in order from its first end; empty where they are not known.</param>
public sealed record LaidRun(Length? Length, Length? ShortBy, ImmutableArray<string> Trays);

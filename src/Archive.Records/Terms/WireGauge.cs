using UnitsNet;

namespace Archive.Records;

/// <summary>Conductor size: American wire gauge, or a section.</summary>
/// <param name="Text">As written: <c>24 AWG</c>, <c>2/0 AWG</c>, <c>16 mm2</c>.</param>
/// <param name="Section">Copper section.</param>
public readonly record struct WireGauge(string Text, Area Section);

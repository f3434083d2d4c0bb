using UnitsNet;

namespace Archive.Records.Terms;

/// <summary>Inside section of a tray.</summary>
/// <param name="Width">Inside width.</param>
/// <param name="Depth">Inside depth.</param>
public readonly record struct TraySize(Length Width, Length Depth);

using UnitsNet;

namespace Archive.Records.Terms;

/// <summary>Outer size of a frame.</summary>
/// <param name="Width">Along its row.</param>
/// <param name="Depth">From its face to its back.</param>
/// <param name="Height">From the floor up.</param>
public readonly record struct FrameSize(Length Width, Length Depth, Length Height);

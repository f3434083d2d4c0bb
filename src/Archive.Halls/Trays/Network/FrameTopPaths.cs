namespace Archive.Halls.Trays.Network;

/// <summary>The ways from a frame's top into the whole of a network.</summary>
/// <param name="Drops">Where its cables may enter trays.</param>
/// <param name="Entries">The places where trays meet that are next to those, and what it costs to come there, in millimetres.</param>
/// <param name="Distance">What it costs to come to each place where trays meet, by its number.</param>
internal sealed record FrameTopPaths(Drop[] Drops, (int Node, double Cost)[] Entries, double[] Distance);

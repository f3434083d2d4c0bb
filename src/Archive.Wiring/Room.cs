namespace Archive.Wiring;

/// <summary>Wiring: how labels are read, and what the cables make of the frames.</summary>
/// <remarks>Invariant: pure functions over the record; this room knows no files, no HTML, no clock, and nothing of halls.</remarks>
public static class Room;

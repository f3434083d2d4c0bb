namespace Archive.Hall;

/// <summary>The hall: where frames stand, how trays join, and which way a cable runs.</summary>
/// <remarks>Invariant: pure functions over the record; this room knows no files, no HTML, no clock, and nothing of labels.</remarks>
public static class Room;

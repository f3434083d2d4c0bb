namespace Archive.Hall;

/// <summary>
/// The hall: where frames stand, how trays join, and which way a cable runs. Rows become footprints on the floor
/// (<c>Layout/</c>), trays become joints, routes and fill (<c>Trays/</c>), and both are held against the hall itself (<c>Checks/</c>).
/// </summary>
/// <remarks>Invariant: pure functions over the record; this room knows no files, no HTML, no clock, and nothing of labels.</remarks>
public static class Room;

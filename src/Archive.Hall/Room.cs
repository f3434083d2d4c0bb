namespace Archive.Hall;

/// <summary>
/// The hall: where frames stand, how trays join, which way a cable runs and whether it reaches. Rows become footprints on the floor
/// (<c>Layout/</c>), trays become a network of joints and shortest ways, and fill (<c>Trays/</c>); from both comes which cables reach (<c>Reach/</c>),
/// what floors carry and what goes through doors (<c>Floor/</c>), what feeders carry and the heat of it (<c>Power/</c>), and what movers carry
/// (<c>Loads/</c>). All of it is held against the hall itself (<c>Checks/</c>).
/// </summary>
/// <remarks>Invariant: pure functions over the record; this room knows no files, no HTML, no clock, and nothing of labels.</remarks>
public static class Room;

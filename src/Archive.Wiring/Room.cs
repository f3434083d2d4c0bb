namespace Archive.Wiring;

/// <summary>
/// Wiring: how labels are read, and what the cables make of the frames. <c>Labels/</c> compiles the schemes, reads every label and
/// tag, holds what they mean against what was seen, and looks for what misread ones may have been; <c>Graph/</c> counts what then connects what; <c>WorkingSets/</c>
/// finds the fewest frames that a display runs with; <c>Safety/</c> states what must be connected and disconnected before what; <c>Decabling/</c> finds in which
/// order cables can come out, <c>Reconnection/</c> in which they are connected again; <c>Journeys/</c> follows each thing through the events since. The way through: <see cref="CompiledScheme"/> -> <see cref="LabelReadings"/> ->
/// <see cref="WiringGraph"/>, <see cref="WorkingSets"/>, <see cref="LiesOver"/>, <see cref="Reconnection"/>, <see cref="Journeys"/>.
/// </summary>
/// <remarks>Invariant: pure functions over the record; this room knows no files, no HTML, no clock, and nothing of halls.</remarks>
public static class Room;

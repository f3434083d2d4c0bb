namespace Archive.Diagnostics;

/// <summary>
/// The bottom room: how a fault is told. A <see cref="FaultKind"/> says what can be wrong, once, with its code and its
/// page of documentation; a <see cref="Diagnostic"/> says that it happened, where, and what to do about it.
/// </summary>
/// <remarks>Invariant: this room knows no records, no YAML, no files and no console. It never throws because of what a text holds.</remarks>
public static class Room;

namespace Archive.Cli;

/// <summary>
/// The front: what was typed becomes <see cref="Arguments"/>, what it means becomes <see cref="Options"/>, a command in <c>Commands/</c> calls the build and
/// tells what came of it. <c>Preview/</c> serves a site to a browser on the same machine.
/// </summary>
/// <remarks>Invariant: this room knows nothing that another front could not know; faults go to standard output, everything else to standard error.</remarks>
internal static class Room;

namespace Archive.Storage.Output;

/// <summary>A file too large to be held in memory: it is written to the disk as it is made.</summary>
/// <param name="Path">Path below the site's folder.</param>
/// <param name="Write">Writes the bytes from first to last; the same each time.</param>
public sealed record StreamedFile(string Path, Action<Stream> Write) : OutputFile(Path);

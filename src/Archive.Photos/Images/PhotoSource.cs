namespace Archive.Photos.Images;

/// <summary>An original: where it lies, and which bytes the record says it has.</summary>
/// <param name="FullPath">Full path of the file.</param>
/// <param name="Path">Its path relative to the archive's folder, as errors should name it.</param>
/// <param name="Sha256">The SHA-256 the record states, in hexadecimal of either case; null where it states none.</param>
public sealed record PhotoSource(string FullPath, string Path, string? Sha256 = null);

/// <summary>What is to be made of an original.</summary>
/// <param name="Source">The original.</param>
/// <param name="Recipe">How its prints are made.</param>
public sealed record PhotoRequest(PhotoSource Source, PhotoRecipe Recipe);

/// <summary>How far a run has come.</summary>
/// <param name="Done">Photos finished, spoiled ones too.</param>
/// <param name="Total">Photos in the run.</param>
/// <param name="Decoded">Of those finished, how many had to be decoded: the others lay ready.</param>
public readonly record struct PhotoProgress(int Done, int Total, int Decoded);

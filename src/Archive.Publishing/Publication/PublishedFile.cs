namespace Archive.Publishing.Publication;

/// <summary>A file of a published site, as it stood when it was put there.</summary>
/// <param name="Path">Path below the site's folder, separated by <c>/</c>.</param>
/// <param name="Sha256">Checksum of its bytes, 64 lower-case hexadecimal digits.</param>
/// <param name="Size">Bytes.</param>
/// <param name="ModifiedTicks">When it was last written, in ticks of UTC.</param>
public readonly record struct PublishedFile(string Path, string Sha256, long Size, long ModifiedTicks);

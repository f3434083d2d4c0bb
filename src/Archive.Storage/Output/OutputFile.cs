using System.Buffers;
using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Storage.Output;

/// <summary>A file that the site will have, not yet made.</summary>
/// <param name="Path">Path below the site's folder, separated by <c>/</c>.</param>
public abstract record OutputFile(string Path);

/// <summary>A page or data file, made when its turn comes; many are made at once, each from immutable values.</summary>
/// <param name="Path">Path below the site's folder.</param>
/// <param name="Render">Makes the bytes; the same each time. Errors of templates come back as values.</param>
public sealed record RenderedFile(string Path, Func<RenderedContent> Render) : OutputFile(Path);

/// <summary>A file that stands elsewhere on the disk and is copied (or linked): a picture's derivative, a theme's asset.</summary>
/// <param name="Path">Path below the site's folder.</param>
/// <param name="From">Full path of the file.</param>
/// <param name="Sha256">Its checksum in lower-case hexadecimal, where it is known already; else null.</param>
public sealed record CopiedFile(string Path, string From, string? Sha256) : OutputFile(Path);

/// <summary>A file whose bytes are a part of another: a photo's derivative, kept with its others in one file.</summary>
/// <param name="Path">Path below the site's folder.</param>
/// <param name="From">Full path of the other file.</param>
/// <param name="Offset">Where its first byte lies there.</param>
/// <param name="Size">Its size in bytes.</param>
/// <param name="Sha256">Its checksum in lower-case hexadecimal.</param>
public sealed record ExcerptFile(string Path, string From, long Offset, int Size, string Sha256) : OutputFile(Path);

/// <summary>What came of making a file.</summary>
/// <param name="Bytes">The file's bytes.</param>
/// <param name="Faults">Errors of the template or of what was put into it.</param>
public sealed record RenderedContent(ReadOnlyMemory<byte> Bytes, ImmutableArray<Diagnostic> Faults)
{
    /// <summary>Where the bytes stand, if that is lent by the shared pool.</summary>
    public byte[]? Lent { get; init; }

    /// <summary>Gives the room of the bytes back, once they are written; they are not read after that.</summary>
    public void GiveBack()
    {
        if (Lent is not null) ArrayPool<byte>.Shared.Return(Lent);
    }
}

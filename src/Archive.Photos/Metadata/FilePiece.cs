using Archive.Photos.Images;

namespace Archive.Photos.Metadata;

/// <summary>What a stretch of a picture file is for.</summary>
internal enum PieceKind
{
    /// <summary>What the file begins with: signature, size of the picture.</summary>
    Head,

    /// <summary>Pixels, and what is needed to show them as they were meant: tables, colours.</summary>
    Picture,

    /// <summary>An EXIF block.</summary>
    Exif,

    /// <summary>An XMP packet.</summary>
    Xmp,

    /// <summary>A block of an editor's resources, IPTC among them.</summary>
    Resources,

    /// <summary>A text.</summary>
    Comment,

    /// <summary>A small copy of the picture.</summary>
    Thumbnail,

    /// <summary>Another picture: of an animation, of a pair, a layer.</summary>
    OtherPicture,

    /// <summary>What is behind the picture's end.</summary>
    Behind,

    /// <summary>Anything else: nothing is known of it.</summary>
    Other,
}

/// <summary>
/// A stretch of a picture file. What is neither head nor picture is what a stripped copy leaves out, and what a warning speaks of: both go
/// by the same list.
/// </summary>
/// <param name="Offset">Where it begins.</param>
/// <param name="Length">Its length in bytes.</param>
/// <param name="Lead">Bytes before its content: markers, lengths, names.</param>
/// <param name="Tail">Bytes behind its content.</param>
/// <param name="Instead">What a stripped copy has in its place; null for the stretch itself.</param>
internal readonly record struct FilePiece(PieceKind Kind, long Offset, long Length, int Lead = 0, int Tail = 0, byte[]? Instead = null)
{
    // No camera writes more; a hostile file may.
    private const long LargestContent = 16 << 20;

    /// <summary>Whether a stripped copy has it.</summary>
    public bool IsKept => Kind is PieceKind.Head or PieceKind.Picture;

    /// <returns>Null if that is larger than any camera writes, or cut off.</returns>
    /// <exception cref="IOException">It can't be read.</exception>
    public byte[]? Content(Stream file)
    {
        var length = Length - Lead - Tail;
        if (length is < 0 or > LargestContent) return null;
        var content = new byte[length];
        file.Position = Offset + Lead;
        return file.ReadAtLeast(content, content.Length, throwOnEndOfStream: false) == content.Length ? content : null;
    }

    /// <summary>Copies it, or what is to stand in its place.</summary>
    /// <param name="instead">What stands in its place; null for <see cref="Instead"/>, or itself.</param>
    public void CopyTo(Stream file, Stream to, byte[]? instead = null)
    {
        if ((instead ?? Instead) is { } other)
        {
            to.Write(other);
            return;
        }

        file.Position = Offset;
        var buffer = new byte[(int)Math.Min(Length, 1 << 16)];
        for (var left = Length; left > 0;)
        {
            var read = file.Read(buffer, 0, (int)Math.Min(left, buffer.Length));
            if (read == 0) throw Built("it is cut off");
            to.Write(buffer, 0, read);
            left -= read;
        }
    }

    /// <summary>All of it.</summary>
    /// <exception cref="IOException">It can't be read.</exception>
    public byte[] Whole(Stream file)
    {
        var whole = new byte[Length];
        file.Position = Offset;
        return file.ReadAtLeast(whole, whole.Length, throwOnEndOfStream: false) == whole.Length ? whole : throw Built("it is cut off");
    }

    /// <summary>The file is not built as its format needs it.</summary>
    /// <param name="how">How it is built, as the end of a sentence.</param>
    internal static UnusablePhotoException Built(string how) =>
        new(PhotoError.NotStripped, $"cannot be copied without its metadata: {how}");
}

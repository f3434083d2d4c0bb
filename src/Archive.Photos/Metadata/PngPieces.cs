using System.Buffers.Binary;
using Archive.Photos.Images;

namespace Archive.Photos.Metadata;

/// <summary>Takes a PNG apart (PNG, third edition, section 5): chunks, each with length, name, data and checksum.</summary>
internal static class PngPieces
{
    private const int Signature = 8;

    private static readonly HashSet<string> Shown =
        ["PLTE", "IDAT", "IEND", "tRNS", "cHRM", "gAMA", "iCCP", "sBIT", "sRGB", "cICP", "mDCV", "cLLI", "bKGD", "hIST", "pHYs"];

    /// <summary>The pieces, first to last.</summary>
    /// <param name="file">A PNG.</param>
    /// <exception cref="UnusablePhotoException">It is not built as a PNG.</exception>
    /// <exception cref="IOException">It can't be read.</exception>
    public static IEnumerable<FilePiece> Read(Stream file)
    {
        var head = new byte[8 + XmpKeyword.Length];
        yield return new FilePiece(PieceKind.Head, 0, Signature);
        for (var at = (long)Signature; ;)
        {
            file.Position = at;
            var read = file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
            var length = read < 8 ? long.MaxValue : 12L + BinaryPrimitives.ReadUInt32BigEndian(head);
            if (length > file.Length - at) throw FilePiece.Built("it is cut off");
            var name = System.Text.Encoding.ASCII.GetString(head, 4, 4);
            yield return new FilePiece(KindOf(name, head.AsSpan(8, read - 8)), at, length, 8, 4);
            at += length;
            if (name != "IEND") continue;
            if (at < file.Length) yield return new FilePiece(PieceKind.Behind, at, file.Length - at);
            yield break;
        }
    }

    private static ReadOnlySpan<byte> XmpKeyword => "XML:com.adobe.xmp\0"u8;

    private static PieceKind KindOf(string name, ReadOnlySpan<byte> data) => name switch
    {
        "IHDR" => PieceKind.Head,
        "eXIf" => PieceKind.Exif,
        "iTXt" when data.StartsWith(XmpKeyword) => PieceKind.Xmp,
        "tEXt" or "zTXt" or "iTXt" => PieceKind.Comment,
        "acTL" or "fcTL" or "fdAT" => PieceKind.OtherPicture,
        _ => Shown.Contains(name) ? PieceKind.Picture : PieceKind.Other,
    };
}

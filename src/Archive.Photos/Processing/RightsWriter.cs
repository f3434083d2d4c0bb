using System.Buffers.Binary;
using Archive.Photos.Images;
using Archive.Photos.Rights;

namespace Archive.Photos.Processing;

/// <summary>
/// Puts rights into pictures that were encoded without any, where libvips would have put them, and takes them out again. So other rights
/// need no pixels.
/// </summary>
/// <param name="rights">What the pictures say.</param>
internal sealed class RightsWriter(PhotoRights rights)
{
    private const int MarkerBytes = 2, ChunkHead = 8, FileHead = 12, Extended = 10;
    private const byte XmpMarker = 0xE1, IptcMarker = 0xED, FirstApp = 0xE0, LastApp = 0xEF;

    // RFC 9649, 2.7: the flag that says that there is an XMP packet.
    private const byte XmpFlag = 0x04;

    private readonly byte[]? _xmp = XmpPacket.Write(rights);
    private readonly byte[]? _iptc = IptcBlock.Write(rights);

    private static ReadOnlySpan<byte> XmpName => "http://ns.adobe.com/xap/1.0/\0"u8;

    /// <summary>Puts the rights in.</summary>
    /// <param name="bare">A picture without rights, as <see cref="ImageEncoder"/> wrote it.</param>
    public Rendition Put(Rendition bare) => _xmp is null ? bare : bare with
    {
        Content = bare.Kind switch
        {
            DerivativeKind.LightPrint => InWebP(bare, _xmp),
            DerivativeKind.Print or DerivativeKind.Credited => InJpeg(bare.Content, _xmp, _iptc),
            _ => InJpeg(bare.Content, _xmp, null),
        },
    };

    /// <summary>Takes rights out: the picture as it was before they were put in, whatever they say.</summary>
    /// <param name="said">A picture that <see cref="Put"/> made.</param>
    public static Rendition Bare(Rendition said) => said with
    {
        Content = said.Kind == DerivativeKind.LightPrint ? BareWebP(said.Content) : BareJpeg(said.Content),
    };

    // Behind the start of the image and the JFIF segment; ISO 16684-3 has the name, and IPTC stands in a segment of its own.
    private static byte[] InJpeg(byte[] bare, byte[] xmp, byte[]? iptc)
    {
        var at = bare[MarkerBytes + 1] == FirstApp ? MarkerBytes + SegmentAt(bare, MarkerBytes) : MarkerBytes;
        return
        [
            .. bare.AsSpan(0, at),
            .. Segment(XmpMarker, [.. XmpName, .. xmp]),
            .. iptc is null ? [] : Segment(IptcMarker, iptc),
            .. bare.AsSpan(at),
        ];
    }

    private static byte[] BareJpeg(byte[] said)
    {
        var bare = new List<byte>(said.Length);
        bare.AddRange(said.AsSpan(0, MarkerBytes));
        var at = MarkerBytes;
        while (said[at + 1] is >= FirstApp and <= LastApp)
        {
            var length = SegmentAt(said, at);
            if (said[at + 1] is not (XmpMarker or IptcMarker)) bare.AddRange(said.AsSpan(at, length));
            at += length;
        }

        bare.AddRange(said.AsSpan(at));
        return [.. bare];
    }

    private static byte[] Segment(byte marker, byte[] content)
    {
        var length = content.Length + 2;
        return [0xFF, marker, (byte)(length >> 8), (byte)length, .. content];
    }

    // With its marker.
    private static int SegmentAt(byte[] jpeg, int at) => MarkerBytes + BinaryPrimitives.ReadUInt16BigEndian(jpeg.AsSpan(at + MarkerBytes));

    private static byte[] InWebP(Rendition bare, byte[] xmp)
    {
        var chunks = bare.Content.AsSpan(FileHead);
        byte[] head = chunks.StartsWith("VP8X"u8)
            ? [.. chunks[..ChunkHead], (byte)(chunks[ChunkHead] | XmpFlag), .. chunks[(ChunkHead + 1)..(ChunkHead + Extended)]]
            : [.. "VP8X"u8, Extended, 0, 0, 0, XmpFlag, 0, 0, 0, .. LessOne(bare.Width), .. LessOne(bare.Height)];
        var rest = chunks.StartsWith("VP8X"u8) ? chunks[(ChunkHead + Extended)..] : chunks;
        var length = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(length, xmp.Length);
        return WebP([.. head, .. rest, .. "XMP "u8, .. length, .. xmp, .. xmp.Length % 2 == 0 ? Array.Empty<byte>() : [0]]);
    }

    private static byte[] BareWebP(byte[] said)
    {
        if (!said.AsSpan(FileHead).StartsWith("VP8X"u8)) return said;
        var flags = said[FileHead + ChunkHead] & ~XmpFlag;
        var bare = new List<byte>(said.Length);
        for (var at = FileHead; at < said.Length;)
        {
            var data = BinaryPrimitives.ReadInt32LittleEndian(said.AsSpan(at + 4));
            var chunk = said.AsSpan(at, ChunkHead + data + (data & 1));
            at += chunk.Length;
            if (chunk.StartsWith("XMP "u8) || (chunk.StartsWith("VP8X"u8) && flags == 0)) continue;
            bare.AddRange(chunk);
            if (chunk.StartsWith("VP8X"u8)) bare[ChunkHead] = (byte)flags;
        }

        return WebP([.. bare]);
    }

    private static byte[] WebP(byte[] chunks)
    {
        var length = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(length, chunks.Length + 4);
        return [.. "RIFF"u8, .. length, .. "WEBP"u8, .. chunks];
    }

    private static byte[] LessOne(int pixels) => [(byte)(pixels - 1), (byte)((pixels - 1) >> 8), (byte)((pixels - 1) >> 16)];
}

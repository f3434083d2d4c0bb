using System.Buffers.Binary;

namespace Archive.Photos.Images;

/// <summary>Counts the pictures in a file that may hold several. The first is the one that is shown.</summary>
internal static class PictureCount
{
    // A hostile list of directories ends here.
    private const int Most = PhotoHeader.MostPictures;

    private const int NewSubfileType = 254;
    private const int ReducedOrMask = 0b101;

    /// <summary>How many pictures a file holds.</summary>
    /// <param name="path">Full path.</param>
    /// <returns>At least 1, at most <see cref="PhotoHeader.MostPictures"/>. Where the file is damaged, what could be counted.</returns>
    /// <exception cref="IOException">It can't be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static int In(string path, PhotoFormat format)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
        var count = format switch
        {
            PhotoFormat.Png => InPng(file),
            PhotoFormat.Tiff => InTiff(file),
            PhotoFormat.WebP => InWebP(file),
            _ => 1,
        };
        return Math.Clamp(count, 1, Most);
    }

    // PNG, third edition, 11.3.5.1: the animation control stands before the picture's data.
    private static int InPng(FileStream file)
    {
        Span<byte> head = stackalloc byte[12];
        file.Position = 8;
        while (file.ReadAtLeast(head, 12, throwOnEndOfStream: false) == 12)
        {
            if (head[4..8].SequenceEqual("acTL"u8)) return (int)Math.Min(BinaryPrimitives.ReadUInt32BigEndian(head[8..]), Most);
            if (head[4..8].SequenceEqual("IDAT"u8)) return 1;
            file.Position += BinaryPrimitives.ReadUInt32BigEndian(head);
        }

        return 1;
    }

    // RFC 9649, 2.7.1.1: each frame of an animation is a chunk ANMF.
    private static int InWebP(FileStream file)
    {
        Span<byte> head = stackalloc byte[8];
        file.Position = 12;
        var frames = 0;
        while (frames < Most && file.ReadAtLeast(head, 8, throwOnEndOfStream: false) == 8)
        {
            if (head[..4].SequenceEqual("ANMF"u8)) frames++;
            var length = (long)BinaryPrimitives.ReadUInt32LittleEndian(head[4..]);
            file.Position += length + (length & 1);
        }

        return frames;
    }

    // TIFF 6.0, section 2: directories in a chain. Reduced pictures and masks (NewSubfileType, bits 0 and 2) belong to another.
    private static int InTiff(FileStream file)
    {
        var tiff = new TiffFile(file);
        return tiff.Directories().Take(Most).Count(directory => ((directory.Number(NewSubfileType) ?? 0) & ReducedOrMask) == 0);
    }
}

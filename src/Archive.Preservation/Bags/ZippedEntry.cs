namespace Archive.Preservation.Bags;

/// <summary>What a ZIP file says of one thing in it.</summary>
/// <param name="Name">Its name as it is written.</param>
/// <param name="Header">Its header in the list, sizes resolved.</param>
/// <param name="HeaderAt">Where its other header lies.</param>
/// <param name="DataAt">Where its packed bytes lie.</param>
/// <param name="Host">The system that its attributes are of; 3 is Unix.</param>
/// <param name="Attributes">Its attributes: those of Unix in the upper half, those of DOS in the lower.</param>
public readonly record struct ZippedEntry(string Name, ZipHeader Header, long HeaderAt, long DataAt, int Host, uint Attributes)
{
    // The kinds of file of Unix, as stat(2) gives them; the attributes of DOS and Windows.
    private const uint Kinds =
        0xF000, Plain = 0x8000, Folder = 0x4000, VolumeLabel = 0x08, DosFolder = 0x10, Device = 0x40, ReparsePoint = 0x400;
    private const int Unix = 3;

    /// <summary>Bytes that it takes in the file.</summary>
    internal long Packed => Header.Packed;

    /// <summary>Bytes that it would have unpacked.</summary>
    internal long Size => Header.Size;

    internal uint Crc => Header.Crc;

    internal int Method => Header.Method;

    internal bool HasDescriptor => Header.HasDescriptor;

    internal bool IsEncrypted => Header.IsEncrypted;

    internal bool IsFolder => Name.EndsWith('/');

    private uint Kind => (Attributes >> 16) & Kinds;

    /// <summary>
    /// Whether it is neither file nor folder: a link, a pipe, a device. Unpackers follow this whatever system the attributes are said to be
    /// of.
    /// </summary>
    internal bool IsLink =>
        Kind is not (0 or Plain or Folder) || (Attributes & ReparsePoint) != 0 || (Host != Unix && (Attributes & Device) != 0);

    /// <summary>Why some unpackers make another kind of thing of it than others; null where all make the same.</summary>
    internal string? DoubtfulKind() =>
        // deflate makes two bytes of nothing
        IsFolder ? (Size > 0 || Packed > 2 ? "is a folder by its name, but has content that unpackers drop" : null)
        : Kind == Folder || (Attributes & DosFolder) != 0 ? "is a file by its name and a folder by its attributes"
        : Host != Unix && (Attributes & VolumeLabel) != 0 ? "is a disk label by its attributes; some unpackers leave it out"
        : null;
}

using Archive.Photos.Images;
using MetadataExtractor;
using MetadataExtractor.Formats.Exif;
using MetadataExtractor.Formats.Tiff;
using MetadataExtractor.IO;
using Directory = MetadataExtractor.Directory;

namespace Archive.Photos.Metadata;

/// <summary>
/// Finds what a picture file tells beside its picture. Never throws because of what the file holds: what can't be read is reported as that.
/// </summary>
internal static class PrivateNotes
{
    private const int XmpTag = 700, IptcTag = 33723, PhotoshopTag = 34377, LayersTag = 37724, SubDirectories = 330, NewSubfileType = 254;

    // The names by which XMP packets say these things: exif, exifEX, aux, dc, photoshop, mwg-rs, xmpGImg (from memory).
    private static readonly (PrivateNote Note, byte[][] Names)[] InXmp =
    [
        (PrivateNote.Position, [[.. "GPSLatitude"u8], [.. "GPSLongitude"u8], [.. "GPSPosition"u8]]),
        (PrivateNote.SerialNumbers, [[.. "SerialNumber"u8]]),
        (
            PrivateNote.Names,
            [[.. "dc:creator"u8], [.. "OwnerName"u8], [.. "AuthorsPosition"u8], [.. "PersonInImage"u8], [.. "mwg-rs:Name"u8]]),
        (PrivateNote.Thumbnail, [[.. "xmpGImg"u8], [.. "Thumbnails"u8]]),
        (PrivateNote.Comments, [[.. "dc:description"u8], [.. "UserComment"u8]]),
    ];

    private static readonly Dictionary<ushort, PrivateNote> InLargeTiff = new()
    {
        [ExifDirectoryBase.TagImageDescription] = PrivateNote.Comments,
        [ExifDirectoryBase.TagArtist] = PrivateNote.Names,
        [ExifDirectoryBase.TagCopyright] = PrivateNote.Names,
        [ExifIfd0Directory.TagExifSubIfdOffset] = PrivateNote.Unreadable,
        [ExifIfd0Directory.TagGpsInfoOffset] = PrivateNote.Position,
    };

    /// <summary>What a file holds, each kind once, in the order of <see cref="PrivateNote"/>.</summary>
    /// <param name="path">Full path.</param>
    /// <exception cref="IOException">It can't be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static PrivateNote[] In(string path, PhotoFormat format)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16);
        var notes = new HashSet<PrivateNote>();
        try
        {
            if (format == PhotoFormat.Tiff) OfTiff(file, path, notes);
            else if (format is PhotoFormat.Heic or PhotoFormat.Avif) OfHeif(HeifFile.Read(file), notes);
            else foreach (var piece in MetadataStripping.Pieces(file, format).Where(piece => !piece.IsKept)) OfPiece(file, piece, notes);
        }
        catch (UnusablePhotoException)
        {
            notes.Add(PrivateNote.Unreadable);
        }

        return [.. notes.Order()];
    }

    /// <summary>Whether an EXIF block says that colours are Adobe RGB (DCF 2.0).</summary>
    /// <param name="exif">The block; null for none.</param>
    public static bool IsAdobeRgb(byte[]? exif) =>
        exif is not null && Exif(exif) is { } directories && directories
            .OfType<ExifInteropDirectory>()
            .Any(directory => directory.GetString(ExifDirectoryBase.TagInteropIndex)?.StartsWith("R03", StringComparison.Ordinal) == true);

    private static void OfPiece(FileStream file, FilePiece piece, HashSet<PrivateNote> notes)
    {
        switch (piece.Kind)
        {
            case PieceKind.Exif:
                OfExif(piece.Content(file), notes);
                break;
            case PieceKind.Xmp:
                OfXmp(piece.Content(file), notes);
                break;
            case PieceKind.Resources:
                OfResources(piece.Content(file), notes);
                break;
            case PieceKind.Comment:
                notes.Add(PrivateNote.Comments);
                break;
            case PieceKind.Thumbnail:
                notes.Add(PrivateNote.Thumbnail);
                break;
            case PieceKind.OtherPicture:
                notes.Add(PrivateNote.OtherPictures);
                break;
            case PieceKind.Behind:
                notes.Add(PrivateNote.Behind);
                break;
            default:
                notes.Add(PrivateNote.ProgramNotes);
                break;
        }
    }

    private static void OfTiff(FileStream file, string path, HashSet<PrivateNote> notes)
    {
        var tiff = new TiffFile(file);
        var directories = tiff.Directories().ToList();
        if (directories.Count == 0) notes.Add(PrivateNote.Unreadable);
        foreach (var further in directories.Skip(1))
            notes.Add(((further.Number(NewSubfileType) ?? 0) & 1) != 0 ? PrivateNote.Thumbnail : PrivateNote.OtherPictures);
        foreach (var entry in directories.Take(1).SelectMany(directory => directory.Entries))
        {
            if (entry.Tag == XmpTag) OfXmp(Content(tiff, entry), notes);
            else if (entry.Tag == PhotoshopTag) OfResources(Content(tiff, entry), notes);
            else if (entry.Tag == IptcTag) notes.Add(PrivateNote.ProgramNotes);
            else if (entry.Tag is LayersTag or SubDirectories) notes.Add(PrivateNote.OtherPictures);
            else if (tiff.IsLarge && InLargeTiff.TryGetValue(entry.Tag, out var note)) notes.Add(note);
        }

        // The reader knows no BigTIFF.
        if (!tiff.IsLarge) OfDirectories(Read(() => TiffMetadataReader.ReadMetadata(path)), notes);
    }

    private static void OfHeif(HeifFile heif, HashSet<PrivateNote> notes)
    {
        if (heif.Exif is { } exif) OfExif(exif, notes);
        if (heif.Xmp is { } packet) OfXmp(packet, notes);
        if (heif.HasThumbnail) notes.Add(PrivateNote.Thumbnail);
        if (heif.HasMaps || heif.Pictures > 1) notes.Add(PrivateNote.OtherPictures);
        if (heif.IsCutOff) notes.Add(PrivateNote.Unreadable);
    }

    private static byte[]? Content(TiffFile tiff, TiffEntry entry) => tiff.Bytes(entry, 16 << 20);

    private static void OfExif(byte[]? exif, HashSet<PrivateNote> notes) => OfDirectories(exif is null ? null : Exif(exif), notes);

    private static IReadOnlyList<Directory>? Exif(byte[] exif) =>
        Read(() => new ExifReader().Extract(new ByteArrayReader(exif.AsSpan().StartsWith("Exif\0\0"u8) ? exif[6..] : exif)));

    private static IReadOnlyList<Directory>? Read(Func<IReadOnlyList<Directory>> read)
    {
        try
        {
            return read();
        }
        catch (Exception thrown) when (thrown is not OutOfMemoryException)
        {
            // Whatever a crafted block makes the reader throw.
            return null;
        }
    }

    private static void OfDirectories(IReadOnlyList<Directory>? directories, HashSet<PrivateNote> notes)
    {
        if (directories is null || directories.Any(directory => directory.HasError)) notes.Add(PrivateNote.Unreadable);
        foreach (var directory in directories ?? [])
        {
            if (directory is GpsDirectory && directory.Tags.Any(tag => tag.Type != GpsDirectory.TagVersionId))
                notes.Add(PrivateNote.Position);
            if (directory is ExifThumbnailDirectory) notes.Add(PrivateNote.Thumbnail);
            if (directory.Name.Contains("Makernote", StringComparison.OrdinalIgnoreCase)) notes.Add(PrivateNote.MakerNotes);
            foreach (var tag in directory.Tags)
            {
                if (NoteOf(directory, tag) is { } note && IsSaid(directory, tag)) notes.Add(note);
            }
        }
    }

    private static PrivateNote? NoteOf(Directory directory, Tag tag) => (directory is ExifDirectoryBase ? tag.Type : -1) switch
    {
        ExifDirectoryBase.TagArtist or ExifDirectoryBase.TagCopyright or ExifDirectoryBase.TagWinAuthor => PrivateNote.Names,
        ExifDirectoryBase.TagImageDescription or ExifDirectoryBase.TagUserComment or ExifDirectoryBase.TagWinComment
            or ExifDirectoryBase.TagWinTitle
                or ExifDirectoryBase.TagWinSubject or ExifDirectoryBase.TagWinKeywords => PrivateNote.Comments,
        ExifDirectoryBase.TagMakernote => PrivateNote.MakerNotes,
        _ => tag.Name.Contains("Serial", StringComparison.OrdinalIgnoreCase) ? PrivateNote.SerialNumbers
            : tag.Name.Contains("Owner", StringComparison.OrdinalIgnoreCase) ? PrivateNote.Names
            : tag.Name.Contains("Preview Image", StringComparison.OrdinalIgnoreCase) ? PrivateNote.Thumbnail
            : null,
    };

    // Cameras write blanks where they have nothing to say.
    private static bool IsSaid(Directory directory, Tag tag) => directory.GetObject(tag.Type) switch
    {
        StringValue text => text.Bytes.Any(letter => letter is not (0 or (byte)' ')),
        string text => text.Trim(' ', '\0').Length > 0,
        byte[] bytes => bytes.Skip(tag.Type == ExifDirectoryBase.TagUserComment ? 8 : 0).Any(value => value is not (0 or (byte)' ')),
        null => false,
        _ => true,
    };

    private static void OfXmp(byte[]? packet, HashSet<PrivateNote> notes)
    {
        if (packet is null)
        {
            notes.Add(PrivateNote.Unreadable);
            return;
        }

        notes.Add(PrivateNote.ProgramNotes);
        foreach (var (note, names) in InXmp)
        {
            if (names.Any(name => packet.AsSpan().IndexOf(name) >= 0)) notes.Add(note);
        }
    }

    // Resources 1033 and 1036 hold a thumbnail (from memory), 1028 IPTC's own records, in which 2:80 is the author (IPTC-IIM 4.2).
    private static void OfResources(byte[]? block, HashSet<PrivateNote> notes)
    {
        notes.Add(block is null ? PrivateNote.Unreadable : PrivateNote.ProgramNotes);
        if (block is null) return;
        if (Holds([.. "8BIM"u8, 0x04, 0x09]) || Holds([.. "8BIM"u8, 0x04, 0x0C])) notes.Add(PrivateNote.Thumbnail);
        if (Holds([0x1C, 2, 80])) notes.Add(PrivateNote.Names);

        bool Holds(ReadOnlySpan<byte> bytes) => block.AsSpan().IndexOf(bytes) >= 0;
    }
}

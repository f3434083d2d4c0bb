using System.Globalization;
using MetadataExtractor;
using MetadataExtractor.Formats.Exif;
using MetadataExtractor.Formats.Tiff;
using MetadataExtractor.IO;

namespace Archive.Photos.Images;

/// <summary>Reads what the camera noted: when, and with what. Notes that can't be read are no notes, never an error.</summary>
internal static class CameraMetadata
{
    private const int LongestName = 100;

    /// <summary>The camera's notes in a photo.</summary>
    /// <param name="path">Full path of the photo.</param>
    /// <param name="exif">The EXIF block that its header carries, with or without the name before it; null if none.</param>
    public static (DateTime? Taken, string? Make, string? Model) Read(string path, PhotoFormat format, byte[]? exif)
    {
        try
        {
            var directories = format == PhotoFormat.Tiff ? TiffMetadataReader.ReadMetadata(path)
                : exif is null ? []
                : new ExifReader().Extract(new ByteArrayReader(exif.AsSpan().StartsWith("Exif\0\0"u8) ? exif[6..] : exif));
            var camera = directories.OfType<ExifIfd0Directory>().FirstOrDefault();
            var shot = directories
                .OfType<ExifSubIfdDirectory>()
                .FirstOrDefault(directory => directory.ContainsTag(ExifDirectoryBase.TagDateTimeOriginal));
            return (Time(shot), Name(camera, ExifDirectoryBase.TagMake), Name(camera, ExifDirectoryBase.TagModel));
        }
        catch (Exception exception) when (exception is not OutOfMemoryException)
        {
            // Whatever a crafted block makes the reader throw, the picture itself may be sound.
            return default;
        }
    }

    private static DateTime? Time(ExifSubIfdDirectory? shot)
    {
        var text = shot?.GetString(ExifDirectoryBase.TagDateTimeOriginal)?.Trim('\0', ' ');
        return DateTime.TryParseExact(text, "yyyy:MM:dd HH:mm:ss", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time)
            ? time
            : null;
    }

    private static string? Name(ExifIfd0Directory? camera, int tag)
    {
        var text = camera?.GetString(tag);
        if (text is null) return null;
        var plain = string.Concat(text.Where(letter => !char.IsControl(letter) && !char.IsSurrogate(letter))).Trim();
        return plain.Length == 0 ? null : plain[..Math.Min(plain.Length, LongestName)];
    }
}

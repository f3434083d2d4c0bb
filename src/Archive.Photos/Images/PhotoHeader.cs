namespace Archive.Photos.Images;

/// <summary>What a photo's header says, without its pixels being decoded.</summary>
/// <param name="Format">What kind of file it is, by its content.</param>
/// <param name="Width">Width of the upright picture, pixels.</param>
/// <param name="Height">Height of the upright picture, pixels.</param>
/// <param name="Orientation">How the stored picture lies.</param>
/// <param name="Taken">When it was taken by the camera's own clock (EXIF DateTimeOriginal): local time, no zone known; null if not
/// said.</param>
/// <param name="Make">The camera's maker, as it calls itself.</param>
/// <param name="Model">The camera's model.</param>
/// <param name="Pictures">How many pictures the file holds: pages of a TIFF, frames of an animation. The first is shown.</param>
public sealed record PhotoHeader(
    PhotoFormat Format,
    int Width,
    int Height,
    Orientation Orientation,
    DateTime? Taken = null,
    string? Make = null,
    string? Model = null,
    int Pictures = 1)
{
    /// <summary>The most pixels that are taken: 268,435,456, a square of 16,384 px. No camera known to us makes more.</summary>
    public const long MostPixels = 16_384L * 16_384;

    /// <summary>The longest side that is taken, pixels: what a JPEG print can be.</summary>
    public const int LongestSide = 65_500;

    /// <summary>The most bytes of pixels that a file may force us to hold at once: 1 GiB. Interlaced and progressive files, and WebP, can't
    /// be streamed.</summary>
    public const long MostHeldBytes = 1L << 30;

    /// <summary>The most pictures in a file that are counted.</summary>
    public const int MostPictures = 1000;

    /// <summary>Reads a photo's header.</summary>
    /// <param name="source">The photo; its checksum is not looked at.</param>
    /// <param name="spoiled">Why there is no reading; null if there is one.</param>
    /// <returns>The reading, or null.</returns>
    public static PhotoHeader? Read(PhotoSource source, out UnusablePhoto? spoiled)
    {
        try
        {
            spoiled = null;
            _ = FileStamp.Read(source.FullPath);
            return ImageReader.Read(source.FullPath);
        }
        catch (UnusablePhotoException spoil)
        {
            spoiled = new UnusablePhoto(source.Path, spoil.Error, spoil.Message);
            return null;
        }
    }
}

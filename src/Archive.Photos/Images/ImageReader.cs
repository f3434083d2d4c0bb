using NetVips;

namespace Archive.Photos.Images;

/// <summary>Opens originals: by the loader of what they are, not of what they are called, and only within bounds.</summary>
internal static class ImageReader
{
    // The decoder's planes and colours, and ours, at once.
    private const int HeifBytes = 8;

    /// <param name="path">Full path of the original: a file with something in it (<see cref="FileStamp.Read"/>).</param>
    /// <exception cref="UnusablePhotoException">It can't be opened, is no photo, or is too large.</exception>
    public static PhotoHeader Read(string path)
    {
        var format = FormatOf(path);
        if (format is PhotoFormat.Heic or PhotoFormat.Avif) return ReadHeif(path, format);
        using var scope = new ImageScope();
        try
        {
            var image = scope.Track(Open(path, format));
            Bound(image, format);
            var orientation = image.Contains("orientation") && image.Get("orientation") is int value and >= 1 and <= 8
                ? (Orientation)value
                : Orientation.TopLeft;
            var (width, height) = OrientationTransform.From(orientation).Swap ? (image.Height, image.Width) : (image.Width, image.Height);
            if (Looked(() => TruncationCheck.Is(path, format))) throw Damaged(format);
            var pictures = Looked(() => PictureCount.In(path, format));
            var (taken, make, model) = CameraMetadata.Read(path, format, Exif(image));
            return new PhotoHeader(format, width, height, orientation, taken, make, model, pictures);
        }
        catch (VipsException)
        {
            // The library's words are kept in one buffer for all threads, so they may be of another photo: ours are the same each time.
            throw new UnusablePhotoException(PhotoError.Unreadable, $"has a damaged {format} header, or is cut off within it");
        }
    }

    // Before anything is decoded, and whether or not the package for HEIC is there.
    private static PhotoHeader ReadHeif(string path, PhotoFormat format)
    {
        var heif = HeifOf(path);
        Bound(heif.Width, heif.Height);
        if (heif.Width * heif.Height * HeifBytes > PhotoHeader.MostHeldBytes)
        {
            throw new UnusablePhotoException(PhotoError.TooLarge,
                $"is {heif.Width} x {heif.Height} px: a HEIC or AVIF picture is held in memory as a whole, and the limit for it is 134 million pixels");
        }

        if (heif.IsCutOff) throw Damaged(format);
        var (taken, make, model) = CameraMetadata.Read(path, format, heif.Exif);
        return new PhotoHeader(
            format, (int)heif.Width, (int)heif.Height, Orientation.TopLeft, taken, make, model, heif.Pictures);
    }

    private static HeifFile HeifOf(string path) => Looked(() =>
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
        return HeifFile.Read(file);
    });

    /// <summary>The EXIF block that a picture carries.</summary>
    /// <param name="path">Full path of the original.</param>
    /// <returns>With or without the name before it; null if none.</returns>
    /// <exception cref="UnusablePhotoException">It can't be read.</exception>
    public static byte[]? Exif(string path, PhotoFormat format)
    {
        if (format is PhotoFormat.Heic or PhotoFormat.Avif) return HeifOf(path).Exif;
        using var scope = new ImageScope();
        try
        {
            return Exif(scope.Track(Open(path, format)));
        }
        catch (Exception exception) when (exception is VipsException or ImageMagick.MagickException)
        {
            throw Damaged(format);
        }
    }

    private static byte[]? Exif(Image image) => image.Contains("exif-data") ? image.Get("exif-data") as byte[] : null;

    /// <summary>Decodes a picture: upright, sRGB, 8 bit, three bands.</summary>
    /// <param name="path">Full path of the original.</param>
    /// <exception cref="UnusablePhotoException">The pixels can't be decoded.</exception>
    public static PixelBuffer Decode(string path, PhotoHeader reading)
    {
        using var scope = new ImageScope();
        try
        {
            var image = scope.Track(Open(path, reading.Format));
            RequireSize(image, reading);
            return PixelBuffer.From(
                ColourConversion.ToSrgb(scope, ColourConversion.Plain(scope, image)), OrientationTransform.From(reading.Orientation));
        }
        catch (Exception exception) when (exception is VipsException or ImageMagick.MagickException)
        {
            throw Damaged(reading.Format);
        }
    }

    /// <summary>Decodes a picture as shades of grey, as it is stored, at least as large as asked for where it is that large itself, and
    /// less than twice that: a JPEG decodes at a half, a quarter or an eighth for a fraction of the cost.</summary>
    /// <param name="scope">Where it is laid.</param>
    /// <param name="path">Full path of the original.</param>
    /// <param name="side">Longer side that is enough, pixels.</param>
    /// <exception cref="UnusablePhotoException">The pixels can't be decoded.</exception>
    public static Image Grey(ImageScope scope, string path, PhotoHeader reading, int side)
    {
        var shrink = 1;
        while (shrink < 8
            && Math.Max(reading.Width, reading.Height) >= side * shrink * 2
            && Math.Min(reading.Width, reading.Height) >= shrink * 2) shrink *= 2;
        try
        {
            VipsSetup.Open();
            var image = scope.Track(reading.Format == PhotoFormat.Jpeg
                ? Image.Jpegload(path, shrink: shrink, access: Enums.Access.Sequential, failOn: Enums.FailOn.Warning)
                : Open(path, reading.Format));
            RequireSize(image, reading);
            var rows = ColourConversion.Plain(scope, image);
            if (reading.Format != PhotoFormat.Jpeg && shrink > 1) rows = scope.Track(rows.Shrink(shrink, shrink, ceil: true));
            var grey = scope.Track(rows.Colourspace(Enums.Interpretation.Bw));
            return scope.Track((grey.Format == Enums.BandFormat.Uchar
                ? grey
                : scope.Track(grey.Cast(Enums.BandFormat.Uchar))).CopyMemory());
        }
        catch (Exception exception) when (exception is VipsException or ImageMagick.MagickException)
        {
            throw Damaged(reading.Format);
        }
    }

    private static UnusablePhotoException Damaged(PhotoFormat format) =>
        new(PhotoError.Unreadable, $"has damaged {format} data, or is cut off");

    // What is decoded is what was bounded.
    private static void RequireSize(Image image, PhotoHeader reading)
    {
        if (reading.Format is PhotoFormat.Heic or PhotoFormat.Avif && (image.Width, image.Height) != (reading.Width, reading.Height))
            throw Damaged(reading.Format);
    }

    /// <summary>Opens a picture for one pass from top to bottom; nothing is decoded yet.</summary>
    /// <param name="path">Full path of the original.</param>
    private static Image Open(string path, PhotoFormat format)
    {
        VipsSetup.Open();
        const Enums.Access once = Enums.Access.Sequential;
        const Enums.FailOn strict = Enums.FailOn.Warning;
        return format switch
        {
            PhotoFormat.Jpeg => Image.Jpegload(path, access: once, failOn: strict),
            PhotoFormat.Png => Image.Pngload(path, access: once, failOn: strict),
            PhotoFormat.Tiff => Image.Tiffload(path, access: once, failOn: strict),
            PhotoFormat.Heic => WithColours(path, HeicDecoder.Open(path)),
            PhotoFormat.Avif => WithColours(path, Image.Heifload(path, access: once, failOn: strict)),
            _ => Image.Webpload(path, access: once, failOn: strict),
        };
    }

    // Where a picture says by a number that its colours are those of Display P3, no profile is in it.
    private static Image WithColours(string path, Image image)
    {
        if (image.Contains(ColourConversion.Profile) || !HeifOf(path).IsDisplayP3) return image;
        using (image) return image.Mutate(picture => picture.Set(GValue.BlobType, ColourConversion.Profile, Image.ProfileLoad("p3")));
    }

    private static PhotoFormat FormatOf(string path)
    {
        try
        {
            using var stream = File.OpenRead(path);
            Span<byte> start = stackalloc byte[FileSignature.Length];
            var format = FileSignature.Detect(start[..stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false)]);
            return format == PhotoFormat.Tiff && TiffFile.IsRaw(stream) ? throw FileSignature.Raw() : format;
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new UnusablePhotoException(PhotoError.Unreadable, "cannot be opened");
        }
    }

    private static T Looked<T>(Func<T> look)
    {
        try
        {
            return look();
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new UnusablePhotoException(PhotoError.Unreadable, "cannot be opened");
        }
    }

    private static void Bound(Image image, PhotoFormat format)
    {
        var pixels = (long)image.Width * image.Height;
        Bound(image.Width, image.Height);

        var whole = format == PhotoFormat.WebP || image.Contains("interlaced");
        if (whole && pixels * image.Bands * SampleBytes(image, format) > PhotoHeader.MostHeldBytes)
        {
            throw new UnusablePhotoException(PhotoError.TooLarge,
                $"is {image.Width} x {image.Height} px in a form that must be held in memory as a whole: save it without interlacing (as a baseline JPEG)");
        }
    }

    private static void Bound(long width, long height)
    {
        if (width <= PhotoHeader.LongestSide && height <= PhotoHeader.LongestSide && width * height <= PhotoHeader.MostPixels) return;
        throw new UnusablePhotoException(
            PhotoError.TooLarge, $"is {width} x {height} px: the limit is 268 million pixels, and 65500 on a side");
    }

    // A progressive JPEG is held as 16 bit coefficients.
    private static int SampleBytes(Image image, PhotoFormat format) =>
        format == PhotoFormat.Jpeg || image.Format == Enums.BandFormat.Ushort ? 2 : 1;
}

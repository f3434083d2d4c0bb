namespace Archive.Photos.Images;

/// <summary>How a file looked from outside when it was read.</summary>
/// <param name="Size">Size in bytes.</param>
/// <param name="Changed">Time of last change, UTC, in ticks of 100 ns.</param>
internal sealed record FileStamp(long Size, long Changed)
{
    /// <summary>What is said of a file that is not there.</summary>
    public const string Missing = "is missing";

    /// <summary>Looks at a file without opening it.</summary>
    /// <param name="path">Full path.</param>
    /// <exception cref="UnusablePhotoException">There is no file, or nothing in it.</exception>
    public static FileStamp Read(string path)
    {
        try
        {
            if (Directory.Exists(path)) throw new UnusablePhotoException(PhotoError.Unreadable, "is a folder, not a file");
            FileSystemInfo named = new FileInfo(path);
            var file = new FileInfo((named.ResolveLinkTarget(returnFinalTarget: true) ?? named).FullName); // a link would tell its own size
            if (!file.Exists) throw new UnusablePhotoException(PhotoError.Missing, Missing);

            // Devices and pipes say 0 too: they are refused here, before anything waits for them.
            return file.Length > 0
                ? new FileStamp(file.Length, file.LastWriteTimeUtc.Ticks)
                : throw new UnusablePhotoException(PhotoError.Unreadable, "is empty");
        }
        catch (Exception exception) when (exception is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new UnusablePhotoException(PhotoError.Missing, Missing);
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new UnusablePhotoException(PhotoError.Unreadable, "cannot be opened");
        }
    }
}

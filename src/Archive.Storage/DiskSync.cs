using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace Archive.Storage;

/// <summary>
/// Waits until everything is on disk, so that a power cut cannot take it back. Linux is asked once for a whole disk, which costs a tenth of
/// asking for every file; elsewhere each file is asked for as it is closed.
/// </summary>
public static partial class DiskSync
{
    // errno(3) of Linux: what says that something was lost. Others say that this disk cannot be asked.
    private const int IoError = 5, NoSpace = 28, NoQuota = 122;

    /// <summary>Waits for a file, where the disk is not waited for as a whole.</summary>
    /// <param name="file">The file, written and still open.</param>
    /// <exception cref="IOException">The disk took it not.</exception>
    public static void Flush(FileStream file)
    {
        if (!OperatingSystem.IsLinux()) file.Flush(flushToDisk: true);
    }

    /// <summary>Waits for a whole disk, where it can be waited for.</summary>
    /// <param name="on">An open file on it; it was open before what is waited for was written, so that it learns what failed since.</param>
    /// <exception cref="IOException">The disk lost something that was written to it.</exception>
    public static void FlushDisk(SafeFileHandle on)
    {
        if (OperatingSystem.IsLinux() && SyncFileSystem(on) != 0 && Marshal.GetLastPInvokeError() is IoError or NoSpace or NoQuota)
        {
            throw new IOException($"the data could not be written to disk: {Marshal.GetLastPInvokeErrorMessage()}");
        }
    }

    [LibraryImport("libc", EntryPoint = "syncfs", SetLastError = true)]
    private static partial int SyncFileSystem(SafeFileHandle on);
}

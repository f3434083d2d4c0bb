using System.Runtime.InteropServices;
using Archive.Storage;
using Microsoft.Win32.SafeHandles;

namespace Archive.Preservation.Sealing;

/// <summary>
/// Sends copies to the disk while the next ones are made, and lets go of the memory that the system kept them in: they are not read again
/// here. Left alone, a system keeps copies back until a good part of its memory is full of them, then halts anyone who writes; what others
/// had in memory has gone by then. Linux only; elsewhere files are just closed.
/// </summary>
/// <param name="most">Bytes that may be under way.</param>
internal sealed partial class DiskWriteQueue(long most) : IDisposable
{
    // What is smaller is soon forgotten; and no more files are open than there are such pieces in what may be under way.
    private const long Least = 1 << 20;

    private readonly Queue<(FileStream File, long Length)> _underWay = new();
    private readonly Lock _turn = new();
    private long _bytes;

    /// <summary>Takes a copy over, written and not closed, and sends it on.</summary>
    /// <param name="file">The copy.</param>
    /// <exception cref="IOException">The disk took an earlier one not.</exception>
    internal void Add(FileStream file)
    {
        var length = file.Length;
        if (length < Least || !OperatingSystem.IsLinux())
        {
            using (file) DiskSync.Flush(file);
            return;
        }

        _ = SyncFileRange(file.SafeFileHandle, 0, 0, Start);
        lock (_turn)
        {
            _underWay.Enqueue((file, length));
            _bytes += length;
        }

        while (Next(most) is { } done) Finish(done);
    }

    /// <summary>Waits until everything is written to disk.</summary>
    /// <exception cref="IOException">The disk took one not.</exception>
    internal void Drain()
    {
        while (Next(0) is { } done) Finish(done);
    }

    public void Dispose()
    {
        while (Next(0) is { } left) left.Dispose();
    }

    private FileStream? Next(long least)
    {
        lock (_turn)
        {
            if (_underWay.Count == 0 || _bytes <= least) return null;
            var (file, length) = _underWay.Dequeue();
            _bytes -= length;
            return file;
        }
    }

    private static void Finish(FileStream file)
    {
        using (file)
        {
            // Not every disk can be asked; only that it failed is a failure.
            if (SyncFileRange(file.SafeFileHandle, 0, 0, Start | Wait) != 0 && Marshal.GetLastPInvokeError() is IoError or NoSpace)
            {
                throw new IOException($"{file.Name} could not be written: {Marshal.GetLastPInvokeErrorMessage()}");
            }

            _ = PosixFadvise(file.SafeFileHandle, 0, 0, DontNeed);
        }
    }

    // sync_file_range(2), posix_fadvise(2), errno(3) of Linux.
    private const uint Wait = 1 | 4, Start = 2;
    private const int DontNeed = 4, IoError = 5, NoSpace = 28;

    [LibraryImport("libc", EntryPoint = "sync_file_range", SetLastError = true)]
    private static partial int SyncFileRange(SafeFileHandle file, long offset, long length, uint flags);

    [LibraryImport("libc", EntryPoint = "posix_fadvise")]
    private static partial int PosixFadvise(SafeFileHandle file, long offset, long length, int advice);
}

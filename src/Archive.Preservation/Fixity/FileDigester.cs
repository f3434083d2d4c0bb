using System.Buffers;
using System.Collections.Immutable;

namespace Archive.Preservation.Fixity;

/// <summary>
/// Reads a file once, from first byte to last, and takes every digest wanted; copies it on the way where a copy is needed.
/// </summary>
public static class FileDigester
{
    // Below this a second thread costs more than it saves: small files are shared out whole.
    private const long Large = 32 << 20;
    private const int SmallStep = 1 << 18, LargeStep = 1 << 22;

    /// <summary>Opens a file to be read once. What has no length is not opened: it may be a pipe that nobody writes to.</summary>
    /// <param name="path">Full path.</param>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static Stream Open(string path) => new FileInfo(path).Length == 0
        ? new MemoryStream([])
        : new FileStream(
            path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0, FileOptions.SequentialScan);

    /// <summary>Digests of what is read.</summary>
    /// <param name="file">What is read, to its end.</param>
    /// <param name="expected">How many bytes it should be: how the work is shared out follows from it.</param>
    /// <param name="algorithms">Which digests; the dearest first, since it has a thread of its own in large files.</param>
    /// <param name="read">Receives how many bytes more were read.</param>
    /// <returns>Digests in the order of the algorithms, and the number of bytes.</returns>
    /// <exception cref="IOException">It cannot be read.</exception>
    internal static (ImmutableArray<byte[]> Digests, long Length) Compute(
        Stream file,
        long expected,
        ImmutableArray<DigestAlgorithm> algorithms,
        Action<long>? read = null,
        CancellationToken cancellation = default) =>
        Copy(file, expected, null, algorithms, read, cancellation);

    /// <summary>Digests of what is read, and a copy of it.</summary>
    /// <param name="file">What is read, to its end.</param>
    /// <param name="expected">How many bytes it should be.</param>
    /// <param name="copy">Where the copy goes; null for none.</param>
    /// <param name="algorithms">Which digests; the dearest first, since it has a thread of its own in large files.</param>
    /// <param name="read">Receives how many bytes more were read.</param>
    /// <returns>Digests in the order of the algorithms, and the number of bytes.</returns>
    internal static (ImmutableArray<byte[]> Digests, long Length) Copy(
        Stream file,
        long expected,
        Stream? copy,
        ImmutableArray<DigestAlgorithm> algorithms,
        Action<long>? read,
        CancellationToken cancellation)
    {
        var digests = algorithms.Select(algorithm => algorithm.Start()).ToArray();
        try
        {
            var isLarge = expected >= Large && Environment.ProcessorCount > 1;
            var length = Drain(file, copy, digests, isLarge ? LargeStep : SmallStep, isLarge, read, cancellation);
            return ([.. digests.Select(digest => digest.Finish())], length);
        }
        finally
        {
            foreach (var digest in digests) digest.Dispose();
        }
    }

    // While one stretch is digested by the dearest algorithm on another thread, the others take it in, it is copied, and the next one is
    // read.
    private static long Drain(
        Stream file, Stream? copy, IDigest[] digests, int step, bool overlap, Action<long>? read, CancellationToken cancellation)
    {
        var (now, next) = (ArrayPool<byte>.Shared.Rent(step), ArrayPool<byte>.Shared.Rent(step));
        try
        {
            var (length, filled) = (0L, file.ReadAtLeast(now.AsSpan(0, step), step, throwOnEndOfStream: false));
            while (filled > 0)
            {
                cancellation.ThrowIfCancellationRequested();
                var (stretch, count) = (now, filled);
                var dearest = overlap && digests.Length > 0
                    ? Task.Run(() => digests[0].Append(stretch.AsSpan(0, count)), CancellationToken.None)
                    : null;
                try
                {
                    foreach (var digest in dearest is null ? digests : digests.AsSpan(1)) digest.Append(stretch.AsSpan(0, count));
                    copy?.Write(stretch, 0, count);
                    filled = count < step ? 0 : file.ReadAtLeast(next.AsSpan(0, step), step, throwOnEndOfStream: false);
                }
                finally
                {
                    dearest?.GetAwaiter().GetResult();
                }

                length += count;
                read?.Invoke(count);
                (now, next) = (next, now);
            }

            return length;
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(now);
            ArrayPool<byte>.Shared.Return(next);
        }
    }
}

using System.Collections.Concurrent;
using System.Collections.Immutable;
using Archive.Preservation.Fixity;
using Archive.Publishing.Requests;

namespace Archive.Preservation.Sealing;

/// <summary>A file that a bag will hold.</summary>
/// <param name="Path">Its path in the bag.</param>
/// <param name="From">Full path of the original.</param>
/// <param name="Copy">Full path of the copy; null where the original itself will be moved there, or is left out.</param>
internal sealed record PayloadFile(string Path, string From, string? Copy);

/// <summary>
/// Takes files into a bag: each is read once, both digests taken and the copy written on the way, as many at a time as there are cores.
/// </summary>
/// <param name="journal">What was done before.</param>
/// <param name="progress">Receives how many MiB are done.</param>
/// <param name="cancellation">Gives up; what is done is kept in the journal.</param>
internal sealed class PayloadPacker(SealJournal journal, IProgress<BuildProgress>? progress, CancellationToken cancellation) : IDisposable
{
    // A file this large is read by all cores together; smaller ones by a core each.
    private const long Large = 32 << 20;

    // As much as a good disk takes in a tenth of a second.
    private const long MostUnderWay = 64 << 20;
    private static readonly ImmutableArray<DigestAlgorithm> Both = [DigestAlgorithm.Sha512, DigestAlgorithm.Sha256];
    private readonly DiskWriteQueue _written = new(MostUnderWay);
    private readonly ConcurrentDictionary<string, bool> _folders = new(StringComparer.Ordinal);
    private long _done;
    private long _total = 1;
    private int _kept;

    /// <summary>Files that were done before.</summary>
    internal int Kept => _kept;

    /// <summary>Takes files in.</summary>
    /// <returns>They, sealed, ordinal by path.</returns>
    /// <exception cref="IOException">One cannot be read or written, or changed while it was read.</exception>
    internal ImmutableArray<SealedFile> Take(IReadOnlyCollection<PayloadFile> files)
    {
        var sized = files.Select(file => (File: file, new FileInfo(file.From).Length))
            .OrderBy(file => file.File.Path, StringComparer.Ordinal)
            .ToList();
        Interlocked.Add(ref _total, sized.Sum(file => file.Length));
        var taken = new ConcurrentBag<SealedFile>();
        var options = new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount, CancellationToken = cancellation };
        var small = Partitioner.Create(
            sized.Where(file => file.Length < Large).Select(file => file.File), EnumerablePartitionerOptions.NoBuffering);
        Parallel.ForEach(small, options, file => taken.Add(Take(file)));
        foreach (var (file, _) in sized.Where(file => file.Length >= Large)) taken.Add(Take(file));
        _written.Drain();
        journal.WriteDown();
        return [.. taken.OrderBy(file => file.Path, StringComparer.Ordinal)];
    }

    public void Dispose() => _written.Dispose();

    private SealedFile Take(PayloadFile file)
    {
        cancellation.ThrowIfCancellationRequested();
        var began = DateTime.UtcNow;
        var original = new FileInfo(file.From);
        if (journal.Known(file.Path, original) is { } known && IsCopied(file, original))
        {
            Interlocked.Increment(ref _kept);
            Read(known.Length);
            return known;
        }

        var (digests, length) = Digest(file, original);
        var after = new FileInfo(file.From);
        if (length != original.Length || (after.Length, after.LastWriteTimeUtc) != (original.Length, original.LastWriteTimeUtc))
        {
            throw new IOException($"{file.From} changed while it was read");
        }

        var done = new SealedFile(file.Path, length, Convert.ToHexStringLower(digests[0]), Convert.ToHexStringLower(digests[1]));
        journal.Add(done, original, began);
        return done;
    }

    private (ImmutableArray<byte[]> Digests, long Length) Digest(PayloadFile file, FileInfo original)
    {
        using var from = FileDigester.Open(file.From);
        if (file.Copy is null) return FileDigester.Compute(from, original.Length, Both, Read, cancellation);
        var folder = Path.GetDirectoryName(file.Copy)!;
        if (_folders.TryAdd(folder, true) || !Directory.Exists(folder)) Directory.CreateDirectory(folder);
        var copy = new FileStream(file.Copy, new FileStreamOptions
        {
            Mode = FileMode.Create,
            Access = FileAccess.Write,
            Share = FileShare.None,
            BufferSize = 0,
            PreallocationSize = original.Length
        });
        try
        {
            var read = FileDigester.Copy(from, original.Length, copy, Both, Read, cancellation);
            File.SetLastWriteTimeUtc(copy.SafeFileHandle, original.LastWriteTimeUtc);
            _written.Add(copy);
            return read;
        }
        catch
        {
            copy.Dispose();
            throw;
        }
    }

    private static bool IsCopied(PayloadFile file, FileInfo original) =>
        file.Copy is null || (new FileInfo(file.Copy) is { Exists: true } copy
            && (copy.Length, copy.LastWriteTimeUtc) == (original.Length, original.LastWriteTimeUtc));

    private void Read(long bytes)
    {
        var done = Interlocked.Add(ref _done, bytes);
        progress?.Report(new BuildProgress(BuildStep.Seal, (int)(done >> 20), Math.Max(1, (int)(Interlocked.Read(ref _total) >> 20))));
    }
}

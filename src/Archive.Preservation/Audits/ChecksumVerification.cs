using System.Collections.Concurrent;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Preservation.Bags;
using Archive.Preservation.Fixity;
using Archive.Publishing.Requests;
using Archive.Storage;

namespace Archive.Preservation.Audits;

/// <summary>A checksum that was recorded for a file.</summary>
/// <param name="Algorithm">How it was taken.</param>
/// <param name="Digest">The checksum.</param>
internal readonly record struct RecordedChecksum(DigestAlgorithm Algorithm, byte[] Digest, SourceSpan Span);

/// <summary>Compares files with the checksums recorded for them: each file is read once, as many at a time as there are cores.</summary>
internal static class ChecksumVerification
{
    /// <summary>Reads files and tells those that differ or cannot be read.</summary>
    /// <param name="folder">Where they lie.</param>
    /// <param name="sums">Checksums by path; each path is a file of the folder.</param>
    /// <param name="progress">Receives how many MiB were read.</param>
    /// <returns>Errors, and how many bytes were read.</returns>
    internal static (ImmutableArray<Diagnostic> Faults, long Bytes) Verify(
        BagContents folder, ILookup<string, RecordedChecksum> sums, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var files = sums.Select(group => group.Key).Order(StringComparer.Ordinal).ToList();
        var total = Math.Max(1, Mebibytes(files.Sum(file => folder.Sizes[file])));
        var done = 0L;
        var diagnostics = new ConcurrentQueue<Diagnostic>();
        var options = new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount, CancellationToken = cancellation };
        Parallel.ForEach(Partitioner.Create(files, EnumerablePartitionerOptions.NoBuffering), options, file =>
        {
            foreach (var diagnostic in Check(folder, file, [.. sums[file]], Read, cancellation)) diagnostics.Enqueue(diagnostic);
        });
        return ([.. diagnostics], done);

        void Read(long bytes)
        {
            var sofar = Interlocked.Add(ref done, bytes);
            progress?.Report(new BuildProgress(BuildStep.Verify, Mebibytes(sofar), total));
        }
    }

    private static List<Diagnostic> Check(
        BagContents folder, string file, ImmutableArray<RecordedChecksum> sums, Action<long> read, CancellationToken cancellation)
    {
        ImmutableArray<DigestAlgorithm> algorithms = [.. sums.Select(sum => sum.Algorithm)
            .Distinct()
            .OrderByDescending(algorithm => algorithm.Length)];
        try
        {
            using var bytes = folder.Open(file);
            var (digests, _) = FileDigester.Compute(bytes, folder.Sizes[file], algorithms, read, cancellation);
            return [.. sums.Where(sum => !digests[algorithms.IndexOf(sum.Algorithm)].AsSpan().SequenceEqual(sum.Digest))
                .Select(sum => DiagnosticDescriptors.FileDiffers.At(
                    sum.Span,
                    $"{file} does not match its recorded {sum.Algorithm.Name}",
                    "the file or this line has changed; restore the file from another copy"))];
        }
        catch (PackedDataException broken)
        {
            return [Broken(broken, sums[0].Span)];
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            return [DiagnosticDescriptors.FileUnreadable.At(
                sums[0].Span,
                $"{file} cannot be read: {DiskErrors.Describe(exception)}",
                "check the disk and its permissions, then audit again")];
        }
    }

    /// <summary>
    /// Unpacks files for which no checksum is recorded: what they unpack to must be the same to all unpackers nevertheless.
    /// </summary>
    /// <param name="folder">Where they lie.</param>
    /// <param name="files">Their paths.</param>
    internal static IEnumerable<Diagnostic> OfUnlisted(BagContents folder, IEnumerable<string> files, CancellationToken cancellation)
    {
        foreach (var path in files)
        {
            Diagnostic? wrong = null;
            try
            {
                using var file = folder.Open(path);
                FileDigester.Compute(file, folder.Sizes[path], [], cancellation: cancellation);
            }
            catch (PackedDataException broken)
            {
                wrong = Broken(broken, new SourceText(path, "").Whole);
            }

            if (wrong is not null) yield return wrong;
        }
    }

    /// <summary>Reports a packed file that is not what its headers say.</summary>
    /// <param name="place">Collects the diagnostics.</param>
    internal static Diagnostic Broken(PackedDataException broken, SourceSpan place) =>
        DiagnosticDescriptors.PackedDataDiffers.At(
            place,
            broken.Message,
            "unpackers make different files of it, or none; get the bag from another copy, or pack it again from an intact folder");

    private static int Mebibytes(long bytes) => (int)(bytes >> 20);
}

using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Archive.Preservation.Fixity;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Storage;

namespace Archive.Comparison;

/// <summary>
/// Whether an original is the same in two states, byte for byte, where its record does not say so by a checksum in both. What differs is
/// added as a fact of the photo, <c>file.bytes</c>. Git names a file's content by a checksum, so of two commits nothing is read; of a
/// folder only originals of one size are.
/// </summary>
internal static class OriginalBytes
{
    private const string Fact = "file.bytes";

    /// <summary>Adds the fact to photos whose originals differ.</summary>
    /// <param name="before">The earlier state.</param>
    /// <param name="old">Its records.</param>
    /// <param name="after">The later state.</param>
    /// <param name="now">Its records.</param>
    internal static (ImmutableArray<RawRecord> Old, ImmutableArray<RawRecord> Now) Add(
        ArchiveVersion before,
        ImmutableArray<RawRecord> old,
        ArchiveVersion after,
        ImmutableArray<RawRecord> now,
        CancellationToken cancellation)
    {
        var earlier = old.Where(IsUnvouched).ToFrozenDictionary(photo => photo.Id, StringComparer.Ordinal);
        var (oldFacts, nowFacts) =
            (new Dictionary<string, RawFact>(StringComparer.Ordinal), new Dictionary<string, RawFact>(StringComparer.Ordinal));
        foreach (var photo in now.Where(photo => earlier.ContainsKey(photo.Id) && IsOfFile(photo)))
        {
            cancellation.ThrowIfCancellationRequested();
            if (Differ(before, earlier[photo.Id].Fact("file")!.Value, after, photo.Fact("file")!.Value) is not { } bytes) continue;
            oldFacts[photo.Id] = bytes.Before;
            nowFacts[photo.Id] = bytes.After;
        }

        return (With(old, oldFacts), With(now, nowFacts));
    }

    private static bool IsOfFile(RawRecord record) => record.Kind == RecordKind.Photo && record.Fact("file") is not null;

    private static bool IsUnvouched(RawRecord record) => IsOfFile(record) && record.Fact("sha256") is null;

    private static ImmutableArray<RawRecord> With(ImmutableArray<RawRecord> records, Dictionary<string, RawFact> facts) =>
        facts.Count == 0 ? records
            : [.. records.Select(record => facts.TryGetValue(record.Id, out var fact)
                ? record with { Facts = [.. record.Facts.Append(fact).OrderBy(each => each.Name, StringComparer.Ordinal)] }
                : record)];

    private static (RawFact Before, RawFact After)? Differ(ArchiveVersion before, RawFact one, ArchiveVersion after, RawFact other)
    {
        if (Find(before, one) is not { } old || Find(after, other) is not { } now) return null;
        if (MayStandForAnother(old, now) || MayStandForAnother(now, old)) return null;
        if (old.Size is not null && now.Size is not null && old.Size != now.Size)
            return (new RawFact(Fact, Describe(old.Size, null), one.Span), new RawFact(Fact, Describe(now.Size, null), other.Span));
        var isShort = (old.Blob ?? now.Blob)?.Length == 2 * SHA1.HashSizeInBytes;
        return Name(old, isShort) is { } first && Name(now, isShort) is { } second && first != second
            ? (new RawFact(Fact, Describe(old.Size, first), one.Span), new RawFact(Fact, Describe(now.Size, second), other.Span)) : null;
    }

    // Large files are often kept beside git, which then holds a few lines in their place (some 130 bytes).
    private static bool MayStandForAnother(OriginalFile one, OriginalFile other) =>
        one is { Blob: not null, Size: > 100 and < 200 } && other.Blob is null;

    private static string Describe(long? size, string? name) => FormattableString.Invariant(
        $"{(size is null ? "" : $"{size} bytes")}{(size is null || name is null ? "" : ", ")}{(name is null ? "" : name[..12])}");

    private static OriginalFile? Find(ArchiveVersion edition, RawFact file)
    {
        if (edition.Folder.Follow(file.Span.Path, file.Text) is not { Outcome: PathStatus.Exists, Path: { } path }) return null;
        if (edition.Blobs is { } blobs) return blobs.TryGetValue(path, out var blob) ? blob : null;
        return edition.Folder.FullPath(path) is { } full && new FileInfo(full) is { Exists: true, LinkTarget: null } there
            ? new OriginalFile(there.Length, null, full)
            : null;
    }

    // As git names the content of a file: the checksum of "blob", its length, a zero byte, and the content.
    private static string? Name(OriginalFile file, bool isShort)
    {
        if (file.Blob is not null) return file.Blob;
        try
        {
            using var hash = IncrementalHash.CreateHash(isShort ? HashAlgorithmName.SHA1 : HashAlgorithmName.SHA256);
            hash.AppendData(Encoding.ASCII.GetBytes(FormattableString.Invariant($"blob {file.Size}\0")));
            using var stream = FileDigester.Open(file.FullPath!);
            var buffer = new byte[1 << 16];
            for (var read = stream.Read(buffer); read > 0; read = stream.Read(buffer)) hash.AppendData(buffer, 0, read);
            return Convert.ToHexStringLower(hash.GetHashAndReset());
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            return null;
        }
    }
}

/// <summary>An original in one state of a record.</summary>
/// <param name="Size">Bytes; null where they are not known.</param>
/// <param name="Blob">Git's name of its content; null where it is not known.</param>
/// <param name="FullPath">Full path where it lies on a disk; else null.</param>
internal readonly record struct OriginalFile(long? Size, string? Blob, string? FullPath);

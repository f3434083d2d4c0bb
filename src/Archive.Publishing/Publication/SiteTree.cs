using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Security.Cryptography;
using Archive.Storage;
using Archive.Storage.Output;

namespace Archive.Publishing.Publication;

/// <summary>
/// The new tree while it grows. A file that the old site has already, byte for byte, is taken over by a second name; only others are
/// written.
/// </summary>
/// <remarks>Safe for use by many threads at once, a path at most once.</remarks>
public sealed class SiteTree(string folder, ExistingSite old, SpareTree spare)
{
    private readonly ConcurrentDictionary<string, bool> _folders = new(StringComparer.Ordinal);
    private readonly ConcurrentBag<PublishedFile> _files = [];
    private int _written;
    private int _count;

    /// <summary>Files written so far, taken-over ones left out.</summary>
    internal int Written => _written;

    /// <summary>Files so far.</summary>
    internal int Count => _count;

    /// <summary>All files, ordinal by path.</summary>
    internal ImmutableArray<PublishedFile> Files => [.. _files.OrderBy(file => file.Path, StringComparer.Ordinal)];

    /// <summary>Adds a file of known bytes.</summary>
    internal void Add(string path, ReadOnlySpan<byte> bytes)
    {
        var sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes));
        var target = Target(path);
        if (!TakeOver(path, sha256, bytes.Length, target)) Write(path, sha256, bytes, target);
    }

    /// <summary>Adds a file that is written as it is made. Only then is it known whether the old site has it.</summary>
    internal void Add(StreamedFile streamed)
    {
        var target = Target(streamed.Path);
        using var hash = SHA256.Create();
        using (var file = new FileStream(target, FileMode.CreateNew, FileAccess.Write, FileShare.None))
        using (var through = new CryptoStream(file, hash, CryptoStreamMode.Write))
        {
            streamed.Write(through);
        }

        var written = new FileInfo(target);
        var sha256 = Convert.ToHexStringLower(hash.Hash!);
        var second = target + "~";
        if (TakeOver(streamed.Path, sha256, written.Length, second))
        {
            File.Move(second, target, overwrite: true);
            return;
        }

        Put(new PublishedFile(streamed.Path, sha256, written.Length, written.LastWriteTimeUtc.Ticks));
    }

    /// <summary>Adds a file that stands elsewhere. It is copied, never linked: a cache must not change with the site.</summary>
    internal void Add(CopiedFile copied)
    {
        var sha256 = copied.Sha256 ?? Sha256Of(copied.From);
        var target = Target(copied.Path);
        if (TakeOver(copied.Path, sha256, new FileInfo(copied.From).Length, target)) return;
        File.Copy(copied.From, target);
        var written = new FileInfo(target);
        Put(new PublishedFile(copied.Path, sha256, written.Length, written.LastWriteTimeUtc.Ticks));
    }

    /// <summary>Adds a file that is a part of another.</summary>
    /// <exception cref="IOException">The other file is cut off, or is no longer what it was.</exception>
    internal void Add(ExcerptFile excerpt)
    {
        var target = Target(excerpt.Path);
        if (TakeOver(excerpt.Path, excerpt.Sha256, excerpt.Size, target)) return;
        Write(excerpt.Path, excerpt.Sha256, OutputBytes.Read(excerpt), target);
    }

    public static string Sha256Of(string file)
    {
        using var stream = File.OpenRead(file);
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }

    private bool TakeOver(string path, string sha256, long size, string target)
    {
        if (old.Same(path, sha256, size) is not { } same || !NativeFolder.TryLink(same.FullPath, target)) return false;
        _files.Add(same.File);
        Interlocked.Increment(ref _count);
        return true;
    }

    private void Write(string path, string sha256, ReadOnlySpan<byte> bytes, string target)
    {
        using var file = File.OpenHandle(target, FileMode.CreateNew, FileAccess.Write, FileShare.None);
        RandomAccess.Write(file, bytes, 0);
        Put(new PublishedFile(path, sha256, bytes.Length, File.GetLastWriteTimeUtc(file).Ticks));
    }

    private void Put(PublishedFile file)
    {
        _files.Add(file);
        Interlocked.Increment(ref _written);
        Interlocked.Increment(ref _count);
    }

    private string Target(string path)
    {
        spare.MakeWay(path);
        var target = Path.Combine(folder, path);
        var below = path[..Math.Max(0, path.LastIndexOf('/'))];
        if (spare.Has(below)) return target;
        var full = Path.GetDirectoryName(target)!;
        if (_folders.TryAdd(below, true)) Directory.CreateDirectory(full);
        else if (!Directory.Exists(full)) Directory.CreateDirectory(full); // another thread is about to
        return target;
    }
}

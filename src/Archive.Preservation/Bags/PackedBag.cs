using System.Collections.Concurrent;
using System.IO.Compression;

namespace Archive.Preservation;

/// <summary>A bag in a ZIP file, read where it lies: nothing is unpacked. A reader of its own goes to each file that is open, since one reads one file at a time.</summary>
internal sealed class PackedBag : BagContents, IDisposable
{
    private readonly string _zip;
    private readonly Dictionary<string, PackedEntry> _files;
    private readonly HashSet<string> _folders;
    private readonly ConcurrentBag<ZipArchive> _readers;

    private PackedBag(string zip, ZipArchive reader, Dictionary<string, PackedEntry> files, IEnumerable<string> links, HashSet<string> folders)
        : base(files.ToDictionary(file => file.Key, file => file.Value.Size), links)
    {
        _zip = zip;
        _files = files;
        _folders = folders;
        _readers = [reader];
    }

    /// <summary>Reads what is in a ZIP file.</summary>
    /// <param name="zip">Its full path.</param>
    /// <exception cref="InvalidDataException">It is no ZIP file, or a damaged one.</exception>
    internal static PackedList List(string zip)
    {
        var reader = Reader(zip);
        return new PackedList(zip, new FileInfo(zip).Length, reader, [.. reader.Entries.Select(PackedEntry.Of)]);
    }

    /// <summary>The bag in a folder of it.</summary>
    /// <param name="list">What is in the file.</param>
    /// <param name="root">The folder, with the stroke behind it; empty where the bag lies at the top.</param>
    internal static PackedBag In(PackedList list, string root)
    {
        var files = new Dictionary<string, PackedEntry>(StringComparer.Ordinal);
        var folders = new HashSet<string>(StringComparer.Ordinal);
        var links = new HashSet<string>(StringComparer.Ordinal);
        foreach (var entry in list.Entries.Where(entry => entry.Name.StartsWith(root, StringComparison.Ordinal) && entry.Name.Length > root.Length))
        {
            var path = entry.Name[root.Length..];
            folders.UnionWith(PackedList.Folders(path));
            if (entry.IsFolder) continue;
            if (entry.IsLink) links.Add(path);
            else files.TryAdd(path, entry);
        }

        return new PackedBag(list.Zip, list.Reader, files, links, folders);
    }

    internal override bool HasFolder(string path) => _folders.Contains(path);

    internal override Stream Open(string path)
    {
        var entry = _files[path];
        if (entry.IsEncrypted) throw new InvalidDataException("it is encrypted");
        var reader = _readers.TryTake(out var free) ? free : Reader(_zip);
        try
        {
            return new Lent(reader.Entries[entry.Number].Open(), () => _readers.Add(reader));
        }
        catch
        {
            _readers.Add(reader);
            throw;
        }
    }

    public void Dispose()
    {
        while (_readers.TryTake(out var reader)) reader.Dispose();
    }

    private static ZipArchive Reader(string zip) => new(new FileStream(zip, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0, FileOptions.SequentialScan), ZipArchiveMode.Read);

    // Hands its reader back when it is closed.
    private sealed class Lent(Stream file, Action back) : Stream
    {
        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

        public override int Read(Span<byte> buffer) => file.Read(buffer);

        public override int Read(byte[] buffer, int offset, int count) => file.Read(buffer, offset, count);

        public override void Flush()
        {
            // Nothing is written.
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        protected override void Dispose(bool disposing)
        {
            if (disposing)
            {
                file.Dispose();
                back();
            }

            base.Dispose(disposing);
        }
    }
}

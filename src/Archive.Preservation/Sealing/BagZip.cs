using System.IO.Compression;
using Archive.Preservation.Bags;
using Archive.Storage;

namespace Archive.Preservation.Sealing;

/// <summary>
/// A bag as one file (draft-kunze-bagit-14, 4; the RFC leaves packing out): nothing compressed, names in ordinal order, one date for all,
/// so that the same bag gives the same bytes.
/// </summary>
internal static class BagZip
{
    // What Unix makes of an entry: a plain file, read by all, written by its owner.
    private const int PlainFile = 0x81A4 << 16;

    /// <summary>Packs a bag.</summary>
    /// <param name="bag">Full path of its folder.</param>
    /// <param name="name">The folder's name in the file.</param>
    /// <param name="zip">Full path of the file.</param>
    /// <param name="now">The date that entries carry.</param>
    internal static void Write(string bag, string name, string zip, DateTimeOffset now, CancellationToken cancellation)
    {
        using var file = new FileStream(zip, FileMode.Create, FileAccess.Write, FileShare.None, 1 << 20);
        using (var archive = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
            Fill(archive, BagFolder.List(bag), name, now, cancellation);
        DiskSync.Flush(file);
    }

    private static void Fill(ZipArchive archive, BagFolder folder, string name, DateTimeOffset now, CancellationToken cancellation)
    {
        // A zip keeps time from 1980 on.
        var stamp = new DateTimeOffset(Math.Max(now.UtcTicks, new DateTime(1980, 1, 1).Ticks), TimeSpan.Zero);
        var piece = new byte[1 << 20];
        foreach (var path in folder.Files)
        {
            cancellation.ThrowIfCancellationRequested();
            var entry = archive.CreateEntry($"{name}/{path}", CompressionLevel.NoCompression);
            entry.LastWriteTime = stamp;
            entry.ExternalAttributes = PlainFile;
            using var from = new FileStream(
                folder.FullPath(path), FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 20, FileOptions.SequentialScan);
            using var to = entry.Open();
            for (int read; (read = from.Read(piece)) > 0;)
            {
                cancellation.ThrowIfCancellationRequested();
                to.Write(piece, 0, read);
            }
        }
    }
}

using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Archive.Preservation.Bags;
using Archive.Storage;

namespace Archive.Preservation.Sealing;

/// <summary>A file of the payload, sealed.</summary>
/// <param name="Path">Its path in the bag.</param>
/// <param name="Length">Bytes.</param>
/// <param name="Sha512">Checksum, in lower-case hexadecimal.</param>
/// <param name="Sha256">Checksum, in lower-case hexadecimal.</param>
internal sealed record SealedFile(string Path, long Length, string Sha512, string Sha256);

/// <summary>
/// What an interrupted sealing has done already, a line a file. A line stands for a file while the original has the size and last writing
/// that it had when it was read, and its times were settled then (<see cref="FileTimes"/>); a line that was torn is no line. No line is
/// written before what it stands for is on disk: a power cut must not leave a line without its copy.
/// </summary>
internal sealed class SealJournal : IDisposable
{
    // Once a second or so at the speed of a good disk: what is done again after a power cut is no more than that.
    private const long MostWaiting = 256 << 20;
    private const int MostLinesWaiting = 10_000;
    private readonly Action _settle;
    private List<string> _waiting = [];
    private long _bytesWaiting;
    private readonly Dictionary<string, (SealedFile File, long Ticks)> _known = new(StringComparer.Ordinal);
    private readonly StreamWriter _writer;
    private readonly Lock _turn = new();

    /// <summary>Opens it.</summary>
    /// <param name="path">Full path.</param>
    /// <param name="settle">Waits until everything is on disk.</param>
    internal SealJournal(string path, Action settle)
    {
        _settle = settle;
        if (File.Exists(path))
        {
            foreach (var line in File.ReadLines(path)) Read(line);
        }

        // A torn last line gets its end, so that the next one stands alone.
        _writer =
            new StreamWriter(new FileStream(path, FileMode.Append, FileAccess.Write, FileShare.Read)) { AutoFlush = true, NewLine = "\n" };
        if (_writer.BaseStream.Position > 0) _writer.WriteLine();
    }

    /// <summary>What is known of a file, if its original is as it was.</summary>
    /// <param name="path">Its path in the bag.</param>
    internal SealedFile? Known(string path, FileInfo original) =>
        _known.TryGetValue(path, out var known) && known.File.Length == original.Length && known.Ticks == original.LastWriteTimeUtc.Ticks
            ? known.File
            : null;

    /// <summary>Writes down that a file is done.</summary>
    /// <param name="original">The original, as it was when its reading began.</param>
    /// <param name="began">When that was.</param>
    internal void Add(SealedFile file, FileInfo original, DateTime began)
    {
        if (!FileTimes.AreSettled(original.LastWriteTimeUtc, began)) return;
        var text = string.Create(
            CultureInfo.InvariantCulture,
            $"{file.Sha512} {file.Sha256} {file.Length} {original.LastWriteTimeUtc.Ticks} {BagPath.Encode(file.Path)}");
        lock (_turn)
        {
            _waiting.Add($"{Check(text)} {text}");
            _bytesWaiting += file.Length;
            if (_bytesWaiting < MostWaiting && _waiting.Count < MostLinesWaiting) return;
        }

        WriteDown();
    }

    /// <summary>Writes down all that is done, once it is written to disk.</summary>
    /// <exception cref="IOException">The disk lost something.</exception>
    internal void WriteDown()
    {
        List<string> lines;
        lock (_turn)
        {
            (lines, _waiting, _bytesWaiting) = (_waiting, [], 0);
        }

        if (lines.Count == 0) return;
        _settle();
        lock (_turn)
        {
            foreach (var line in lines) _writer.WriteLine(line);
        }
    }

    public void Dispose()
    {
        try
        {
            WriteDown();
            _writer.Dispose();
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            // What is not recorded is done again.
        }
    }

    private void Read(string line)
    {
        var parts = line.Split(' ', 6);
        if (parts.Length < 6 || Check(line[(parts[0].Length + 1)..]) != parts[0]) return;
        var path = BagPath.Decode(parts[5], BagVersion.One);
        _known[path] = (
            new SealedFile(path, long.Parse(parts[3], CultureInfo.InvariantCulture), parts[1], parts[2]),
            long.Parse(parts[4], CultureInfo.InvariantCulture));
    }

    private static string Check(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..8];
}

using System.Collections.Concurrent;
using System.Security.Cryptography;
using Archive.Records.Reading;
using Archive.Storage;

namespace Archive.Publishing.Caching;

/// <summary>An input file as it was seen.</summary>
/// <param name="Size">Bytes.</param>
/// <param name="ModifiedTicks">Last writing, in ticks of UTC.</param>
/// <param name="Sha256">Checksum of its bytes; null where size and time alone stand for it.</param>
/// <param name="IsSettled">Whether its last writing lay far enough back when it was seen.</param>
internal sealed record InputStamp(long Size, long ModifiedTicks, string? Sha256, bool IsSettled);

/// <summary>
/// Says whether inputs are the same as before without reading them again. A stamp stands for a file while path, size and last writing are
/// the same and its times were settled when it was stamped (<see cref="FileTimes"/>). A fresher file is read and its bytes decide. Pictures
/// that are not fresh are not read: size and time stand for them. Photos has a stamp cache of its own (FileStampCache), because that one
/// also keeps what a picture's header says, a file for each picture, and is read only if a build has work to do; this one is a single small
/// file, read before every build.
/// </summary>
internal sealed class InputStamps
{
    private const string UsualName = "inputs.bin";
    private const string Header = "asfound inputs 2";
    private readonly CacheFolder _cache;
    private readonly string _name;
    private readonly DateTime _now;
    private readonly Dictionary<string, InputStamp> _before;
    private readonly ConcurrentDictionary<string, InputStamp> _seen = new(StringComparer.Ordinal);

    private InputStamps(CacheFolder cache, string name, DateTime now, Dictionary<string, InputStamp> before)
    {
        _cache = cache;
        _name = name;
        _now = now;
        _before = before;
    }

    /// <summary>The stamps of the last run, as far as they can be read.</summary>
    /// <param name="clock">Tells how fresh a file is.</param>
    /// <param name="name">The file of the cache that they are kept in.</param>
    internal static InputStamps Open(CacheFolder cache, TimeProvider clock, string name = UsualName) =>
        new(cache, name, clock.GetUtcNow().UtcDateTime, Read(cache, name));

    /// <summary>What stands for a file's content.</summary>
    /// <param name="isPicture">Whether it is large and looked at elsewhere.</param>
    /// <returns>A text that is the same while the content is; also for a file that is gone or cannot be read.</returns>
    internal string Checksum(string fullPath, bool isPicture)
    {
        try
        {
            var file = new FileInfo(fullPath);
            var (size, ticks) = (file.Length, file.LastWriteTimeUtc.Ticks);
            var settled = FileTimes.AreSettled(file.LastWriteTimeUtc, _now);
            if (_before.TryGetValue(fullPath, out var before) && (before.Size, before.ModifiedTicks) == (size, ticks))
            {
                if (!before.IsSettled) before = new InputStamp(size, ticks, Hash(fullPath), settled);
            }
            else
            {
                before = new InputStamp(size, ticks, isPicture && settled ? null : Hash(fullPath), settled);
            }

            _seen[fullPath] = before;
            return before.Sha256 ?? $"{size} {ticks}";
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            return "unreadable";
        }
    }

    /// <summary>Keeps the stamps for the next run.</summary>
    internal void Keep()
    {
        if (_seen.Count == _before.Count
            && _seen.All(seen => _before.TryGetValue(seen.Key, out var before) && before == seen.Value)) return;
        _cache.Replace(_name, stream =>
        {
            using var writer = new BinaryWriter(stream);
            writer.Write(Header);
            writer.Write(_seen.Count);
            foreach (var (path, stamp) in _seen)
            {
                writer.Write(path);
                writer.Write(stamp.Size);
                writer.Write(stamp.ModifiedTicks);
                writer.Write(stamp.Sha256 ?? "");
                writer.Write(stamp.IsSettled);
            }
        });
    }

    private static string Hash(string fullPath)
    {
        using Stream stream = ArchiveFolder.IsEmpty(fullPath) ? new MemoryStream([]) : new FileStream(
            fullPath, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0, FileOptions.SequentialScan);
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }

    private static Dictionary<string, InputStamp> Read(CacheFolder cache, string name)
    {
        var stamps = new Dictionary<string, InputStamp>(StringComparer.Ordinal);
        try
        {
            if (cache.Read(name) is not { } kept) return stamps;
            using var reader = new BinaryReader(kept);
            if (reader.ReadString() != Header) return stamps;
            for (var left = reader.ReadInt32(); left > 0; left--)
            {
                var file = reader.ReadString();
                var (size, ticks, sha256, settled) = (reader.ReadInt64(), reader.ReadInt64(), reader.ReadString(), reader.ReadBoolean());
                stamps[file] = new InputStamp(size, ticks, sha256.Length == 0 ? null : sha256, settled);
            }

            return stamps;
        }
        catch (Exception exception) when (DiskErrors.Is(exception) || exception is FormatException)
        {
            return new Dictionary<string, InputStamp>(StringComparer.Ordinal);
        }
    }
}

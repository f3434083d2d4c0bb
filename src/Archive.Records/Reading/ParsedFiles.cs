using System.Collections.Concurrent;
using System.Security.Cryptography;
using Archive.Records.Model;

namespace Archive.Records.Reading;

/// <summary>
/// What came of reading an archive's files, by path and content, for the next reading in the same process: a file that has not changed is
/// neither read nor parsed again.
/// </summary>
/// <param name="checksumOf">
/// What stands for the content of a file now: its SHA-256 in lower-case hexadecimal, or another text where that is not known.
/// </param>
/// <param name="before">What came of the reading before; null for the first.</param>
public sealed class ParsedFiles(Func<string, string> checksumOf, ParsedFiles? before)
{
    private readonly ConcurrentDictionary<string, (string Sha256, FileReadResult[] Parts)> _files = new(StringComparer.Ordinal);

    // Only the reading before is asked, not those before that.
    private readonly ConcurrentDictionary<string, (string Sha256, FileReadResult[] Parts)>? _before = before?._files;

    /// <summary>How many files were read in this reading.</summary>
    public int Read { get; private set; }

    /// <summary>What came of a file whose content is the same as before.</summary>
    /// <param name="folder">Where the paths that it names must lead as they did.</param>
    internal FileReadResult[]? Find(string path, IArchiveFolder folder)
    {
        if (_before is null || !_before.TryGetValue(path, out var known) || known.Sha256 != checksumOf(path)) return null;
        foreach (var part in known.Parts)
        {
            foreach (var record in part.Records)
            {
                if (record is Photo { File: { } file } photo && !LeadsTo(folder.Follow(file.Span.Path, file.Value), photo.FilePath))
                    return null;
            }
        }

        _files[path] = known;
        return known.Parts;
    }

    /// <summary>Keeps what came of a file.</summary>
    /// <param name="bytes">Its content, as it was parsed.</param>
    internal void Keep(string path, ReadOnlySpan<byte> bytes, FileReadResult[] parts)
    {
        _files[path] = (Convert.ToHexStringLower(SHA256.HashData(bytes)), parts);
        lock (_files) Read++;
    }

    private static bool LeadsTo(PathResult now, string? before) => now.Outcome != PathStatus.Leaves && now.Path == before;
}

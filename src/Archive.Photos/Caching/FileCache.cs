using System.Security.Cryptography;
using System.Text;
using Archive.Storage;

namespace Archive.Photos.Caching;

/// <summary>The cache's folder: files appear in it whole or not at all, and texts in it carry their own checksum.</summary>
/// <param name="root">The folder; made when first written to.</param>
internal sealed class FileCache(string root)
{
    private const int ChecksumDigits = 64;

    /// <summary>Full path of a file.</summary>
    /// <param name="name">Path relative to the folder.</param>
    public string PathOf(string name) => Path.Combine(root, name);

    /// <summary>Puts a file in its place in one step; one that is there is replaced.</summary>
    /// <param name="name">Path relative to the folder.</param>
    /// <param name="content">Its bytes, part by part.</param>
    /// <exception cref="IOException">The disk won't take it.</exception>
    public void Put(string name, IEnumerable<byte[]> content) => Put(name, file =>
    {
        foreach (var part in content) file.Write(part);
    });

    /// <summary>Puts a file in its place in one step; one that is there is replaced.</summary>
    /// <param name="name">Path relative to the folder.</param>
    /// <param name="write">Writes it; where it throws, nothing is put.</param>
    /// <param name="verify">Looks at what was written, by its full path, before it is put; where it throws, nothing is put.</param>
    /// <exception cref="IOException">The disk won't take it.</exception>
    public void Put(string name, Action<FileStream> write, Action<string>? verify = null) =>
        WholeFile.Replace(PathOf(name), write, PathOf("drafts"), verify);

    /// <summary>Puts a text in its place, its SHA-256 in the line above it.</summary>
    public void PutText(string name, string text)
    {
        var content = Encoding.UTF8.GetBytes(text);
        Put(name, [[.. Encoding.ASCII.GetBytes(Convert.ToHexStringLower(SHA256.HashData(content))), (byte)'\n', .. content]]);
    }

    /// <summary>A text as it was put.</summary>
    /// <returns>Its UTF-8 bytes; null if it isn't there, can't be read, or isn't as it was put.</returns>
    public ReadOnlyMemory<byte>? Text(string name)
    {
        try
        {
            ReadOnlyMemory<byte> file = File.ReadAllBytes(PathOf(name));
            if (file.Length <= ChecksumDigits || file.Span[ChecksumDigits] != '\n') return null;
            var content = file[(ChecksumDigits + 1)..];
            var checksum = Encoding.ASCII.GetBytes(Convert.ToHexStringLower(SHA256.HashData(content.Span)));
            return file.Span[..ChecksumDigits].SequenceEqual(checksum) ? content : null;
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>Removes drafts that a killed run left behind.</summary>
    /// <param name="before">Drafts last changed before this (UTC) are of no living run.</param>
    public void Sweep(DateTime before)
    {
        var drafts = new DirectoryInfo(PathOf("drafts"));
        if (!drafts.Exists) return;
        foreach (var draft in drafts.EnumerateFiles())
        {
            if (draft.LastWriteTimeUtc < before) draft.Delete();
        }
    }
}

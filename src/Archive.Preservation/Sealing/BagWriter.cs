using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Archive.Diagnostics.Rendering;
using Archive.Preservation.Bags;
using Archive.Storage;

namespace Archive.Preservation.Sealing;

/// <summary>Writes what a bag says of itself, once its payload is in place (RFC 8493, 2).</summary>
/// <param name="root">Full path of the bag's folder.</param>
/// <param name="payload">Its payload, ordinal by path.</param>
internal sealed class BagWriter(string root, ImmutableArray<SealedFile> payload)
{
    /// <summary>The size as <c>Payload-Oxum</c> gives it: bytes, a full stop, files.</summary>
    internal string Oxum => string.Create(CultureInfo.InvariantCulture, $"{payload.Sum(file => file.Length)}.{payload.Length}");

    /// <summary>Writes tag files, the manifests, and the manifests of tag files; takes away what does not belong in the bag.</summary>
    /// <param name="info">Lines of <c>bag-info.txt</c>, in order.</param>
    /// <param name="more">Other tag files.</param>
    internal void Write(IEnumerable<(string Label, string Value)> info, IEnumerable<(string Name, byte[] Bytes)> more)
    {
        var tags = new SortedDictionary<string, byte[]>(StringComparer.Ordinal)
        {
            [BagDeclaration.FileName] = Encoding.UTF8.GetBytes(
                $"BagIt-Version: {BagVersion.One.Name}\nTag-File-Character-Encoding: UTF-8\n"),
            [BagVersion.One.InfoFile] = Encoding.UTF8.GetBytes(
                string.Concat(info.Select(line => $"{line.Label}: {OneLine(line.Value)}\n"))),
            ["manifest-sha256.txt"] = Manifest(file => file.Sha256),
            ["manifest-sha512.txt"] = Manifest(file => file.Sha512),
        };
        foreach (var (name, bytes) in more) tags[name] = bytes;
        Dictionary<string, byte[]> ofTags = new(StringComparer.Ordinal)
        {
            ["tagmanifest-sha256.txt"] = Lines(tags, SHA256.HashData),
            ["tagmanifest-sha512.txt"] = Lines(tags, SHA512.HashData),
        };
        foreach (var (name, bytes) in tags.Concat(ofTags)) Put(name, bytes);
        TakeAway(payload.Select(file => file.Path).Concat(tags.Keys).Concat(ofTags.Keys).ToHashSet(StringComparer.Ordinal));
    }

    private void Put(string name, byte[] bytes)
    {
        using var file = File.Create(Path.Combine(root, name), 1);
        file.Write(bytes);
        DiskSync.Flush(file);
    }

    // What an interrupted run took in and is no more in the record.
    private void TakeAway(HashSet<string> wanted)
    {
        var bag = BagFolder.List(root);
        foreach (var stray in bag.Files.Concat(bag.Links).Where(path => !wanted.Contains(path))) File.Delete(bag.FullPath(stray));
    }

    private byte[] Manifest(Func<SealedFile, string> sum)
    {
        var text = new StringBuilder(payload.Length * 200);
        foreach (var file in payload) text.Append(sum(file)).Append("  ").Append(BagPath.Encode(file.Path)).Append('\n');
        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static byte[] Lines(SortedDictionary<string, byte[]> tags, Func<byte[], byte[]> digest) =>
        Encoding.UTF8.GetBytes(string.Concat(tags.Select(tag => $"{Convert.ToHexStringLower(digest(tag.Value))}  {tag.Key}\n")));

    private static string OneLine(string text) =>
        string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Select(VisibleText.Text));
}

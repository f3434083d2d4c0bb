using System.Security.Cryptography;
using System.Text;
using Archive.Preservation.Audits;

namespace Archive.Preservation.Tests;

/// <summary>
/// A small bag of BagIt 1.0, made by these tests alone: lists are written from what is in <see cref="Files"/>, then bent as a test needs.
/// </summary>
internal sealed class SketchBag : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    internal SortedDictionary<string, byte[]> Files { get; } = new(StringComparer.Ordinal)
    {
        ["bagit.txt"] = Utf8("BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"),
        ["data/one"] = Utf8("one"),
        ["data/two/three"] = Utf8("three"),
    };

    internal static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);

    internal string Root => _folder.Root;

    internal string Text(string file, string text)
    {
        Files[file] = Utf8(text);
        return text;
    }

    /// <summary>A manifest of the payload as it is, names encoded by the three rules of the standard.</summary>
    internal string Manifest(string algorithm = "sha512") =>
        Text($"manifest-{algorithm}.txt", Lines(algorithm, file => file.StartsWith("data/", StringComparison.Ordinal)));

    /// <summary>A tag manifest of everything else.</summary>
    internal string TagManifest(string algorithm = "sha512") => Text($"tagmanifest-{algorithm}.txt", Lines(algorithm, file =>
        !file.StartsWith("data/", StringComparison.Ordinal) && !file.StartsWith("tagmanifest", StringComparison.Ordinal)));

    internal AuditOutcome Audit()
    {
        foreach (var (path, bytes) in Files)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(_folder[path])!);
            File.WriteAllBytes(_folder[path], bytes);
        }

        return Archive.Preservation.Audits.Audit.Run(AuditSubject.Bag, Root, null, CancellationToken.None);
    }

    internal IEnumerable<string> Told() => Audit().Diagnostics.Select(diagnostic => $"{diagnostic.Span} {diagnostic.Code}");

    public void Dispose() => _folder.Dispose();

    private string Lines(string algorithm, Func<string, bool> which) => string.Concat(Files.Where(file => which(file.Key)).Select(file =>
        $"{Convert.ToHexStringLower(Hash(algorithm, file.Value))}  {file.Key.Replace("%", "%25").Replace("\n", "%0A").Replace("\r", "%0D")}\n"));

    private static byte[] Hash(string algorithm, byte[] bytes) => CryptographicOperations.HashData(
        new HashAlgorithmName(algorithm switch { "sha512" => "SHA512", "sha256" => "SHA256", "md5" => "MD5", _ => "SHA1" }), bytes);
}

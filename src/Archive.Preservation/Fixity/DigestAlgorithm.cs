using System.Security.Cryptography;

namespace Archive.Preservation.Fixity;

/// <summary>A way to take a checksum.</summary>
/// <param name="Name">Its name as manifests carry it: lower case, letters and digits only.</param>
/// <param name="Length">Bytes of a digest.</param>
internal sealed record DigestAlgorithm(string Name, int Length, Func<IDigest> Start)
{
    internal static readonly DigestAlgorithm Sha256 = Create(HashAlgorithmName.SHA256, 32), Sha512 = Create(HashAlgorithmName.SHA512, 64);

    // SHA-256 and SHA-512 must be known, MD5 and SHA-1 should be (RFC 8493, 2.4); the others are met in bags.
    private static readonly DigestAlgorithm[] Known =
    [
        Create(HashAlgorithmName.MD5, 16),
            Create(HashAlgorithmName.SHA1, 20),
            new("sha224", 28, () => new Sha224()),
            Sha256,
            Create(HashAlgorithmName.SHA384, 48),
            Sha512,
            .. SHA3_256.IsSupported
                ? [Create(HashAlgorithmName.SHA3_256, 32), Create(HashAlgorithmName.SHA3_384, 48), Create(HashAlgorithmName.SHA3_512, 64)]
                : Array.Empty<DigestAlgorithm>(),
        ];

    /// <summary>The algorithm of a name, however it is written; null where it is not known.</summary>
    /// <param name="name">Such as <c>sha512</c> or <c>SHA-512</c>.</param>
    internal static DigestAlgorithm? Named(string name)
    {
        var plain = Plain(name);
        return Array.Find(Known, algorithm => algorithm.Name == plain);
    }

    /// <summary>A name in lower case, without what is neither letter nor digit (RFC 8493, 2.4).</summary>
    internal static string Plain(string name) => string.Concat(name.Where(char.IsAsciiLetterOrDigit)).ToLowerInvariant();

    private static DigestAlgorithm Create(HashAlgorithmName name, int length) =>
        new(Plain(name.Name!), length, () => new PlatformDigest(name));

    private sealed class PlatformDigest(HashAlgorithmName name) : IDigest
    {
        private readonly IncrementalHash _hash = IncrementalHash.CreateHash(name);

        public void Append(ReadOnlySpan<byte> bytes) => _hash.AppendData(bytes);

        public byte[] Finish() => _hash.GetHashAndReset();

        public void Dispose() => _hash.Dispose();
    }
}

/// <summary>A digest in progress.</summary>
internal interface IDigest : IDisposable
{
    /// <summary>Takes the next bytes in.</summary>
    void Append(ReadOnlySpan<byte> bytes);

    /// <summary>The digest of all bytes; nothing may be appended behind.</summary>
    byte[] Finish();
}

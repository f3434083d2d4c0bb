using System.Text;
using Archive.Preservation.Bags;
using Archive.Preservation.Fixity;
using CsCheck;
using Xunit;

namespace Archive.Preservation.Tests;

public class FixityTests
{
    // FIPS 180-4's examples for SHA-224 (NIST, "Examples with intermediate values"): one block, two blocks; and a million letters a.
    [Theory]
    [InlineData("abc", 1, "23097d223405d8228642a477bda255b32aadbce4bda0b3f7e36c9da7")]
    [InlineData("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", 1, "75388b16512776cc5dba5da1fd890150b0c6455cb4f58b1952522525")]
    [InlineData("a", 1_000_000, "20794655980c91d8bbb4c1ea97618a4bf03f42581948b2ee4ee7ad67")]
    [InlineData("", 1, "d14a028c2a3a2bc9476102bb288234c415a2b01f828ea62ac5b3e42f")]
    public void Sha224_is_that_of_the_standard(string text, int times, string digest)
    {
        using var sha = new Sha224();
        var bytes = Encoding.ASCII.GetBytes(text);
        for (var i = 0; i < times; i++) sha.Append(bytes);
        Assert.Equal(digest, Convert.ToHexStringLower(sha.Finish()));
    }

    [Fact]
    public void A_file_has_one_digest_however_it_is_read()
    {
        using var folder = new TemporaryFolder();
        foreach (var size in (int[])[0, 1, (1 << 18) - 1, 1 << 18, (1 << 18) + 1, 40 << 20, (40 << 20) + 4097])
        {
            var bytes = new byte[size];
            new Random(size).NextBytes(bytes);
            File.WriteAllBytes(folder["file"], bytes);
            using var file = FileDigester.Open(folder["file"]);
            using var copy = new MemoryStream();
            var (digests, length) = FileDigester.Copy(
                file, size, copy, [DigestAlgorithm.Sha512, DigestAlgorithm.Sha256], null, TestContext.Current.CancellationToken);
            Assert.Equal(size, length);
            Assert.Equal(System.Security.Cryptography.SHA512.HashData(bytes), digests[0]);
            Assert.Equal(System.Security.Cryptography.SHA256.HashData(bytes), digests[1]);
            Assert.True(bytes.AsSpan().SequenceEqual(copy.GetBuffer().AsSpan(0, (int)copy.Length)));
        }
    }

    // The Unicode Standard, 3.11 (order of marks) and 3.12 (Hangul): its own examples.
    [Theory]
    [InlineData("N\u00FA\u00F1ez", "Nu\u0301n\u0303ez")]
    [InlineData("a\u0301\u0323", "a\u0323\u0301")]
    [InlineData("\u1E69", "s\u0323\u0307")]
    [InlineData("\uD4DB", "\u1111\u1171\u11B6")]
    [InlineData("\u212B", "A\u030A")]
    [InlineData("\u0307\u0323a\u0307\u0323\u0307b", "\u0323\u0307a\u0323\u0307\u0307b")]
    public void Letters_are_taken_apart_as_Unicode_does(string name, string apart) => Assert.Equal(apart, CanonicalLetters.Apart(name));

    [Fact]
    public void Taking_apart_twice_is_taking_apart_once() =>
        Gen.String[Gen.Char['\u0020', '\uD7FF'], 0, 12].Sample(name =>
            CanonicalLetters.Apart(CanonicalLetters.Apart(name)) == CanonicalLetters.Apart(name));

    [Fact]
    public void A_name_written_and_read_is_the_name() =>
        Gen.String[Gen.OneOf(Gen.Char, Gen.Int[0, 7].Select(i => "%\n\r0A25D"[i])), 0, 20].Sample(name =>
            BagPath.Decode(BagPath.Encode(name), BagVersion.One) == name);
}

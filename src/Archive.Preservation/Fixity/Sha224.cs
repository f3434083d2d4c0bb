using System.Buffers.Binary;
using System.Numerics;

namespace Archive.Preservation.Fixity;

/// <summary>SHA-224 (FIPS 180-4), which the platform does not offer and old bags carry: SHA-256 from other beginnings, cut to 28 bytes.</summary>
internal sealed class Sha224 : IDigest
{
    private const int Block = 64;

    // FIPS 180-4, 4.2.2: fractional parts of the cube roots of the first 64 primes.
    private static readonly uint[] K = Roots();

    // FIPS 180-4, 5.3.2.
    private readonly uint[] _state = [0xc1059ed8, 0x367cd507, 0x3070dd17, 0xf70e5939, 0xffc00b31, 0x68581511, 0x64f98fa7, 0xbefa4fa4];
    private readonly byte[] _rest = new byte[Block];
    private int _filled;
    private ulong _length;

    public void Append(ReadOnlySpan<byte> bytes)
    {
        _length += (ulong)bytes.Length;
        while (!bytes.IsEmpty)
        {
            var part = bytes[..Math.Min(Block - _filled, bytes.Length)];
            part.CopyTo(_rest.AsSpan(_filled));
            _filled += part.Length;
            bytes = bytes[part.Length..];
            if (_filled < Block) continue;
            Compress(_rest);
            _filled = 0;
        }
    }

    public byte[] Finish()
    {
        var bits = _length * 8;
        Append([0x80]);
        while (_filled != Block - 8) Append([0]);
        Span<byte> length = stackalloc byte[8];
        BinaryPrimitives.WriteUInt64BigEndian(length, bits);
        Append(length);
        var digest = new byte[28];
        for (var i = 0; i < 7; i++) BinaryPrimitives.WriteUInt32BigEndian(digest.AsSpan(4 * i), _state[i]);
        return digest;
    }

    public void Dispose()
    {
        // Nothing is held.
    }

    private void Compress(ReadOnlySpan<byte> block)
    {
        Span<uint> w = stackalloc uint[64];
        for (var t = 0; t < 16; t++) w[t] = BinaryPrimitives.ReadUInt32BigEndian(block[(4 * t)..]);
        for (var t = 16; t < 64; t++) w[t] = Small(w[t - 2], 17, 19, 10) + w[t - 7] + Small(w[t - 15], 7, 18, 3) + w[t - 16];
        var (a, b, c, d, e, f, g, h) = (_state[0], _state[1], _state[2], _state[3], _state[4], _state[5], _state[6], _state[7]);
        for (var t = 0; t < 64; t++)
        {
            var one = h + Large(e, 6, 11, 25) + ((e & f) ^ (~e & g)) + K[t] + w[t];
            var two = Large(a, 2, 13, 22) + ((a & b) ^ (a & c) ^ (b & c));
            (h, g, f, e, d, c, b, a) = (g, f, e, d + one, c, b, a, one + two);
        }

        ReadOnlySpan<uint> after = [a, b, c, d, e, f, g, h];
        for (var i = 0; i < 8; i++) _state[i] += after[i];
    }

    private static uint Large(uint x, int p, int q, int r) => BitOperations.RotateRight(x, p) ^ BitOperations.RotateRight(x, q) ^ BitOperations.RotateRight(x, r);

    private static uint Small(uint x, int p, int q, int r) => BitOperations.RotateRight(x, p) ^ BitOperations.RotateRight(x, q) ^ (x >> r);

    // The first 32 bits behind the point: the whole cube root of prime x 2^96, found exactly, less its whole part.
    private static uint[] Roots()
    {
        var primes = Enumerable.Range(2, 400).Where(n => Enumerable.Range(2, n - 2).TakeWhile(d => d * d <= n).All(d => n % d != 0)).Take(64);
        return [.. primes.Select(prime => (uint)(ulong)(CubeRoot((BigInteger)prime << 96) & uint.MaxValue))];
    }

    private static BigInteger CubeRoot(BigInteger value)
    {
        var (low, high) = (BigInteger.Zero, BigInteger.One << 40);
        while (high - low > 1)
        {
            var middle = (low + high) >> 1;
            if (middle * middle * middle <= value) low = middle;
            else high = middle;
        }

        return low;
    }
}

using System.Buffers.Binary;
using System.Numerics;

namespace Archive.Preservation.Fixity;

/// <summary>
/// SHA-224 (FIPS 180-4), which the platform does not offer and old bags carry: SHA-256 from other beginnings, cut to 28 bytes.
/// </summary>
internal sealed class Sha224 : IDigest
{
    private const int Block = 64;

    // FIPS 180-4, 4.2.2.
    private static readonly uint[] K =
    [
        0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
        0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
        0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
        0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
        0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
        0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
        0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
        0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
    ];

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

    private static uint Large(uint x, int p, int q, int r) =>
        BitOperations.RotateRight(x, p) ^ BitOperations.RotateRight(x, q) ^ BitOperations.RotateRight(x, r);

    private static uint Small(uint x, int p, int q, int r) => BitOperations.RotateRight(x, p) ^ BitOperations.RotateRight(x, q) ^ (x >> r);
}

using System.Buffers.Binary;
using System.IO.Compression;
using System.IO.Hashing;
using Microsoft.Win32.SafeHandles;

namespace Archive.Preservation.Bags;

/// <summary>A file of a packed bag does not unpack to what its headers say.</summary>
/// <param name="why">What is wrong, as a sentence about it.</param>
public sealed class PackedDataException(string name, string why) : IOException($"{name} {why}")
{
    internal string Name => name;
}

/// <summary>
/// One file of a ZIP file, unpacked while it is read, and compared with its headers at its end: it has exactly the size and the CRC that
/// they say, and all of its packed bytes were used. An unpacker that trusts the headers and one that trusts the data then write the same
/// file.
/// </summary>
internal sealed class ZippedFile : ForwardStream
{
    private const int Stored = 0, Deflated = 8;

    private readonly ZippedEntry _entry;
    private readonly ZipSection _packed;
    private readonly Stream _bytes;
    private readonly Crc32 _crc = new();
    private readonly byte[] _before = new byte[DescriptorLength - 1];
    private long _size;

    // A signature, a CRC and two sizes of 8 bytes, the longest form (APPNOTE.TXT, 4.3.9).
    private const int DescriptorLength = 24;

    /// <summary>Opens a file.</summary>
    /// <param name="entry">What its list says of the file.</param>
    /// <exception cref="PackedDataException">It is encrypted, or packed in a way that is not read here.</exception>
    internal ZippedFile(SafeFileHandle zip, ZippedEntry entry)
    {
        if (entry.IsEncrypted) throw new PackedDataException(entry.Name, "is encrypted");
        if (entry.Method is not (Stored or Deflated))
            throw new PackedDataException(entry.Name, $"is compressed with method {entry.Method}; only deflate is supported");
        if (entry.DataAt < 0) throw new PackedDataException(entry.Name, "has no data where the list of files says");
        _entry = entry;
        _packed = new ZipSection(zip, entry.DataAt, entry.Packed, whole: entry.Method == Stored);
        _bytes = entry.Method == Stored ? _packed : new DeflateStream(_packed, CompressionMode.Decompress);
    }

    public override int Read(Span<byte> buffer)
    {
        if (buffer.IsEmpty) return 0;
        var read = Unpack(buffer);
        _crc.Append(buffer[..read]);
        if (_entry.Method == Stored && _entry.HasDescriptor) RefuseFalseEnd(buffer[..read]);
        _size += read;
        if (_size > _entry.Size)
            throw new PackedDataException(_entry.Name, $"unpacks to more than the {_entry.Size} bytes that its headers state");
        if (read == 0) CheckEnd();
        return read;
    }

    protected override void Dispose(bool disposing)
    {
        if (disposing) _bytes.Dispose();
        base.Dispose(disposing);
    }

    private int Unpack(Span<byte> buffer)
    {
        try
        {
            return _bytes.Read(buffer);
        }
        catch (InvalidDataException)
        {
            throw new PackedDataException(_entry.Name, "cannot be unpacked");
        }
    }

    private void CheckEnd()
    {
        if (_size != _entry.Size)
            throw new PackedDataException(_entry.Name, $"unpacks to {_size} bytes, but its headers state {_entry.Size}");
        if (_packed.Left > 0) throw new PackedDataException(_entry.Name, "has packed bytes after its end");
        if (_crc.GetCurrentHashAsUInt32() != _entry.Crc)
            throw new PackedDataException(_entry.Name, "does not match the CRC in its headers");
    }

    // What reads a ZIP file as it arrives does not know the size of such a file, and takes it to end where what could be its descriptor
    // states as many bytes as were read.
    private void RefuseFalseEnd(ReadOnlySpan<byte> read)
    {
        var kept = (int)Math.Min(_size, _before.Length);
        Span<byte> seam = stackalloc byte[2 * (DescriptorLength - 1)];
        _before.AsSpan(_before.Length - kept).CopyTo(seam);
        var more = Math.Min(read.Length, DescriptorLength - 1);
        read[..more].CopyTo(seam[kept..]);
        Look(seam[..(kept + more)], _size - kept);
        Look(read, _size);
        if (read.Length >= _before.Length) read[^_before.Length..].CopyTo(_before);
        else
        {
            _before.AsSpan(read.Length).CopyTo(_before);
            read.CopyTo(_before.AsSpan(_before.Length - read.Length));
        }

        void Look(ReadOnlySpan<byte> bytes, long at)
        {
            for (var i = 0; bytes[i..].IndexOf("PK\x07\x08"u8) is >= 0 and var found; i += found + 4)
            {
                var descriptor = bytes[(i + found)..];
                var size = at + i + found;
                if (size == _entry.Size) return;
                if ((descriptor.Length >= 12 && BinaryPrimitives.ReadUInt32LittleEndian(descriptor[8..]) == (uint)size)
                    || (descriptor.Length >= 16 && BinaryPrimitives.ReadInt64LittleEndian(descriptor[8..]) == size))
                {
                    throw new PackedDataException(_entry.Name, "contains what some unpackers treat as its end");
                }
            }
        }
    }
}

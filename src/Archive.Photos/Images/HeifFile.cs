using System.Buffers.Binary;

namespace Archive.Photos.Images;

/// <summary>
/// What the boxes of a HEIF file say of its picture (ISO/IEC 14496-12 and 23008-12): HEIC and AVIF. No pixel is decoded.
/// </summary>
/// <remarks>How it lies is said by its boxes alone; an orientation in its EXIF is only a note (23008-12, annex A.2.1).</remarks>
internal sealed class HeifFile
{
    // A camera writes some kilobytes.
    private const int LargestMeta = 16 << 20;
    private const int LargestNote = 16 << 20;
    private const int MostBoxes = 10_000;

    private readonly Dictionary<uint, string> _types = [];
    private readonly Dictionary<uint, List<(bool IsInMeta, long From, long Length)>> _places = [];
    private readonly List<(string Type, uint From, uint To)> _references = [];
    private readonly List<(string Type, byte[] Content)> _properties = [];
    private readonly Dictionary<uint, List<int>> _propertiesOf = [];
    private byte[] _data = [];
    private uint _primary;

    /// <summary>Width of the upright picture, pixels.</summary>
    public long Width { get; private set; }

    /// <summary>Height of the upright picture, pixels.</summary>
    public long Height { get; private set; }

    /// <summary>Whether the file ends before what it lists.</summary>
    public bool IsCutOff { get; private set; }

    /// <summary>Whether its colours are those of Display P3 (ITU-T H.273: colour primaries 12).</summary>
    public bool IsDisplayP3 { get; private set; }

    /// <summary>The EXIF block, without a name before it; null for none.</summary>
    public byte[]? Exif { get; private set; }

    /// <summary>The XMP packet; null for none.</summary>
    public byte[]? Xmp { get; private set; }

    public bool HasThumbnail { get; private set; }

    /// <summary>Whether it has pictures that belong to the first, such as a map of depth or gain.</summary>
    public bool HasMaps { get; private set; }

    /// <summary>How many pictures it has that stand for themselves.</summary>
    public int Pictures { get; private set; } = 1;

    /// <summary>Reads the boxes.</summary>
    /// <exception cref="UnusablePhotoException">They are damaged, or what a picture needs is not in them.</exception>
    /// <exception cref="IOException">It can't be read.</exception>
    public static HeifFile Read(Stream file)
    {
        var heif = new HeifFile();
        var meta = heif.FindMeta(file) ?? throw Damaged();
        var reader = new BoxReader(meta);
        reader.Skip(4);
        foreach (var (type, content) in reader.Boxes()) heif.ReadBox(type, content);
        heif.Measure();
        heif.IsCutOff |= heif._places.Values.SelectMany(extents => extents)
            .Any(extent => !extent.IsInMeta && extent.From + extent.Length > file.Length);
        heif.Exif = heif.Note(file, "Exif") is { Length: > 4 } exif ? AfterOffset(exif) : null;
        heif.Xmp = heif.Note(file, "mime");
        heif.Count();
        return heif;
    }

    private static UnusablePhotoException Damaged() =>
        new(PhotoError.Unreadable, "has a damaged HEIC or AVIF header, or is cut off within it");

    private byte[]? FindMeta(Stream file)
    {
        byte[]? meta = null;
        var head = new byte[16];
        long at = 0;
        for (var count = 0; at < file.Length && count < MostBoxes; count++)
        {
            file.Position = at;
            if (file.ReadAtLeast(head, 8, throwOnEndOfStream: false) < 8) break;
            long size = BinaryPrimitives.ReadUInt32BigEndian(head);
            var begin = size == 1 ? 16 : 8;
            if (size == 1) size = (long)Math.Min(BinaryPrimitives.ReadUInt64BigEndian(head.AsSpan(8)), long.MaxValue);
            if (size == 0) size = file.Length - at;
            if (size < begin) throw Damaged();
            var isWhole = size <= file.Length - at;
            if (meta is null && head.AsSpan(4, 4).SequenceEqual("meta"u8))
            {
                if (!isWhole || size > LargestMeta) throw Damaged();
                meta = new byte[size - begin];
                file.Position = at + begin;
                file.ReadExactly(meta);
            }

            IsCutOff |= !isWhole;
            if (!isWhole) break;
            at += size;
        }

        return meta;
    }

    private void ReadBox(string type, BoxReader box)
    {
        switch (type)
        {
            case "pitm":
                _primary = box.Version() == 0 ? box.U16() : box.U32();
                break;
            case "iinf":
                ReadItems(box);
                break;
            case "iloc":
                ReadPlaces(box);
                break;
            case "iref":
                ReadReferences(box);
                break;
            case "iprp":
                foreach (var (inner, content) in box.Boxes())
                {
                    if (inner == "ipco") _properties.AddRange(content.Boxes().Select(one => (one.Type, one.Content.Rest())));
                    else if (inner == "ipma") ReadAssociations(content);
                }

                break;
            case "idat":
                _data = box.Rest();
                break;
        }
    }

    private void ReadItems(BoxReader box)
    {
        box.Skip(box.Version() == 0 ? 2 : 4);
        foreach (var (type, item) in box.Boxes())
        {
            if (type != "infe") continue;
            var version = item.Version();
            if (version < 2) continue;
            var id = version == 2 ? item.U16() : item.U32();
            item.Skip(2);
            _types[id] = item.FourLetters();
        }
    }

    private void ReadPlaces(BoxReader box)
    {
        var version = box.Version();
        var sizes = box.U16();
        int Size(int shift) => (sizes >> shift) & 0xF;
        var count = version < 2 ? box.U16() : box.U32();
        for (uint i = 0; i < count; i++)
        {
            var id = version < 2 ? box.U16() : box.U32();
            var method = version == 0 ? 0 : box.U16() & 0xF;
            box.Skip(2);
            var start = box.Number(Size(4));
            var extents = new List<(bool, long, long)>();
            for (var extent = box.U16(); extent > 0; extent--)
            {
                if (version > 0) _ = box.Number(Size(0));
                var from = start + box.Number(Size(12));
                var length = box.Number(Size(8));
                if (from < 0 || length < 0 || from + length < 0) throw Damaged();
                if (method <= 1) extents.Add((method == 1, from, length));
            }

            _places[id] = extents;
        }
    }

    private void ReadReferences(BoxReader box)
    {
        var isLong = box.Version() > 0;
        foreach (var (type, reference) in box.Boxes())
        {
            var from = isLong ? reference.U32() : reference.U16();
            for (var count = reference.U16(); count > 0; count--)
                _references.Add((type, from, isLong ? reference.U32() : reference.U16()));
        }
    }

    private void ReadAssociations(BoxReader box)
    {
        var (version, isLong) = (box.Version(out var flags), (flags & 1) != 0);
        for (var count = box.U32(); count > 0; count--)
        {
            var id = version == 0 ? box.U16() : box.U32();
            var properties = new List<int>();
            for (var each = box.U8(); each > 0; each--) properties.Add(isLong ? box.U16() & 0x7FFF : box.U8() & 0x7F);
            _propertiesOf[id] = properties;
        }
    }

    // In the order of the associations: cut out, then turned.
    private void Measure()
    {
        foreach (var index in _propertiesOf.GetValueOrDefault(_primary) ?? [])
        {
            if (index == 0 || index > _properties.Count) continue;
            var (type, content) = _properties[index - 1];
            var box = new BoxReader(content);
            switch (type)
            {
                case "ispe":
                    box.Skip(4);
                    (Width, Height) = (box.U32(), box.U32());
                    break;
                case "clap":
                    var (width, widthBy, height, heightBy) = (box.U32(), box.U32(), box.U32(), box.U32());
                    if (widthBy == 0 || heightBy == 0) throw Damaged();
                    (Width, Height) = (Math.Min(Width, width / widthBy), Math.Min(Height, height / heightBy));
                    break;
                case "irot" when (box.U8() & 1) == 1:
                    (Width, Height) = (Height, Width);
                    break;
                case "colr" when box.FourLetters() == "nclx":
                    IsDisplayP3 = box.U16() == 12;
                    break;
            }
        }

        if (Width == 0 || Height == 0) throw Damaged();
    }

    private byte[]? Note(Stream file, string type)
    {
        var id = _types.FirstOrDefault(item => item.Value == type).Key;
        if (id == 0 || !_places.TryGetValue(id, out var extents)) return null;
        var length = extents.Sum(extent => Math.Min(extent.Length, LargestNote + 1L));
        if (length > LargestNote) return null;
        var bytes = new byte[length];
        var at = 0;
        foreach (var (isInMeta, from, size) in extents)
        {
            if (isInMeta && from + size > _data.Length) return null;
            if (isInMeta) _data.AsSpan((int)from, (int)size).CopyTo(bytes.AsSpan(at));
            else
            {
                if (from + size > file.Length) return null;
                file.Position = from;
                file.ReadExactly(bytes, at, (int)size);
            }

            at += (int)size;
        }

        return bytes;
    }

    private static byte[]? AfterOffset(byte[] exif) =>
        BinaryPrimitives.ReadUInt32BigEndian(exif) is var offset && offset <= exif.Length - 4 ? exif[(4 + (int)offset)..] : null;

    private void Count()
    {
        ILookup<string, (string Type, uint From, uint To)> byType = _references.ToLookup(reference => reference.Type);
        HasThumbnail = byType["thmb"].Any();
        HasMaps = byType["auxl"].Any();
        var parts = byType["dimg"].Select(reference => reference.To)
            .Concat(byType["thmb"].Select(reference => reference.From)).Concat(byType["auxl"].Select(reference => reference.From))
            .ToHashSet();
        Pictures = Math.Clamp(
            _types.Count(item => item.Value is "hvc1" or "av01" or "grid" or "iden" or "iovl" && !parts.Contains(item.Key)),
            1,
            PhotoHeader.MostPictures);
    }

    /// <summary>Reads numbers one after the other, and never beyond the box.</summary>
    private sealed class BoxReader(ReadOnlyMemory<byte> bytes)
    {
        private int _at;

        public void Skip(int count) => _ = Take(count);

        public byte U8() => Take(1)[0];

        public ushort U16() => BinaryPrimitives.ReadUInt16BigEndian(Take(2));

        public uint U32() => BinaryPrimitives.ReadUInt32BigEndian(Take(4));

        public int Version() => Version(out _);

        public int Version(out int flags)
        {
            var both = U32();
            flags = (int)(both & 0xFFFFFF);
            return (int)(both >> 24);
        }

        public string FourLetters() => System.Text.Encoding.Latin1.GetString(Take(4));

        /// <summary>A number of 0, 4 or 8 bytes.</summary>
        public long Number(int size) => size switch
        {
            0 => 0,
            4 => U32(),
            8 => BinaryPrimitives.ReadInt64BigEndian(Take(8)),
            _ => throw Damaged(),
        };

        public byte[] Rest() => bytes[_at..].ToArray();

        public IEnumerable<(string Type, BoxReader Content)> Boxes()
        {
            var count = 0;
            while (bytes.Length - _at >= 8)
            {
                if (++count > MostBoxes) throw Damaged();
                var size = U32();
                var type = FourLetters();
                if (size == 0) size = (uint)(bytes.Length - _at + 8);
                if (size < 8 || size - 8 > bytes.Length - _at) throw Damaged();
                yield return (type, new BoxReader(bytes.Slice(_at, (int)size - 8)));
                _at += (int)size - 8;
            }
        }

        private ReadOnlySpan<byte> Take(int count)
        {
            if (count > bytes.Length - _at) throw Damaged();
            _at += count;
            return bytes.Span.Slice(_at - count, count);
        }
    }
}

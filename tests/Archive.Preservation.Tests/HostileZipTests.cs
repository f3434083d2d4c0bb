using System.IO.Compression;
using System.IO.Hashing;
using System.Text;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Preservation.Audits;
using Archive.Preservation.Bags;
using Xunit;

namespace Archive.Preservation.Tests;

/// <summary>
/// Packed bags that unpackers disagree about. Each of these was unpacked with Info-ZIP's unzip 6.00, bsdtar of libarchive 3.6.2 (from the
/// file, and from a pipe), 7-Zip 26.02 and Python's zipfile (3.12 and others), and came out otherwise than listed from at least one of
/// them; what only Windows does is from Python's own source (<c>ZipFile._sanitize_windows_name</c>) and common knowledge. Every one was
/// called valid when only the list was read.
/// </summary>
public sealed class HostileZipTests : IDisposable
{
    private static readonly byte[] Good = "good"u8.ToArray(), Evil = "EVIL"u8.ToArray();
    private readonly TemporaryFolder _folder = new();
    private readonly SketchBag _bag = new();
    private readonly ZipSketch _zip = new();

    public HostileZipTests() => Take();

    public void Dispose()
    {
        _bag.Dispose();
        _folder.Dispose();
    }

    [Theory]
    [InlineData("sketch/./data/one")]
    [InlineData("sketch//data/one")]
    [InlineData("sketch/data/./one")]
    [InlineData("./sketch/data/one")]
    [InlineData("sketch/data/one ")]
    [InlineData("sketch/data/one.")]
    [InlineData("sketch/data /one")]
    [InlineData("sketch/data/o\u0001ne")]
    [InlineData("sketch/data/one\u001b")]
    [InlineData("sketch/data/one\n")]
    [InlineData("sketch/data/one\u007f")]
    [InlineData("sketch/data/one\u0085")]
    [InlineData("sketch/data/one:stream")]
    [InlineData("sketch/data/one?")]
    [InlineData("sketch/data/CON")]
    [InlineData("sketch/data/nul.txt")]
    [InlineData("sketch/data/Com\u00B9.jpg")]
    [InlineData("sketch/aux/x")]
    [InlineData("sketch/data/one;1")]
    [InlineData("sketch/data/one;")]
    public void A_name_that_unpackers_change(string name) => Finds("AF1239", new SketchEntry(name, Evil));

    [Fact]
    public void A_name_that_is_too_long()
    {
        Finds("AF1239", new SketchEntry("sketch/data/" + new string('n', 256), Evil));
        Finds("AF1239", new SketchEntry("sketch/data/" + new string('\u00E9', 128), Evil));
        Finds("AF1239", new SketchEntry("sketch/" + string.Concat(Enumerable.Repeat("d/", 2100)) + "x", Evil));
    }

    [Theory]
    [InlineData("sketch/data/../data/one")]
    [InlineData("sketch\\data\\one")]
    [InlineData("C:sketch/data/one")]
    [InlineData("sketch/data/one\0.txt")]
    [InlineData("/sketch/data/one")]
    public void A_name_that_leads_elsewhere(string name) => Finds("AF1206", new SketchEntry(name, Evil));

    [Theory]
    [InlineData("sketch/data/One")]
    [InlineData("sketch/Data/other")]
    [InlineData("sketch/data/one")]
    [InlineData("sketch/data/one/below")]
    [InlineData("sketch/data/ONE/below")]
    [InlineData("sketch/data/one/")]
    [InlineData("sketch/data/two")]
    [InlineData("sketch/data/o\u200Cne")]
    [InlineData("sketch/data/./one")]
    [InlineData("sketch/data/one ")]
    public void Two_things_that_come_to_one_place(string name) => Finds("AF1231", new SketchEntry(name, name.EndsWith('/') ? [] : Evil));

    [Fact]
    public void Two_ways_to_write_one_letter()
    {
        _zip.Entries.Add(new SketchEntry("sketch/data/\u00E9", Good));
        Finds("AF1231", new SketchEntry("sketch/data/e\u0301", Evil));
        _zip.Entries.Add(new SketchEntry("sketch/data/\u017Fee", Good));
        Finds("AF1231", new SketchEntry("sketch/data/See", Evil));
    }

    [Fact]
    public void A_name_that_is_not_marked_as_UTF8_or_is_none()
    {
        Finds("AF1239", new SketchEntry(Encoding.UTF8.GetBytes("sketch/data/caf\u00E9"), Evil));
        Finds("AF1239", new SketchEntry([.. "sketch/data/"u8, 0x82], Evil));
        Finds("AF1239", new SketchEntry([.. "sketch/data/"u8, 0xFF, 0xFE], Evil) { Flags = 0x800 });
    }

    // Info-ZIP's Unicode path: unzip, 7-Zip and bsdtar follow it, each from another of the two headers.
    [Fact]
    public void A_further_field_with_another_name()
    {
        var field = SketchEntry.Field(0x7075, [1, .. ZipSketch.U32(Crc32.HashToUInt32("sketch/data/one"u8)), .. "sketch/data/evil"u8]);
        Bends("AF1239", one => one with { Extra = field, LocalExtra = field });
        Bends("AF1239", one => one with { Extra = field });
        Bends("AF1240", one => one with { LocalExtra = field });
        var same = SketchEntry.Field(0x7075, [1, .. ZipSketch.U32(Crc32.HashToUInt32("sketch/data/one"u8)), .. "sketch/data/one"u8]);
        Bends(null, one => one with { Extra = same, LocalExtra = same });
    }

    [Theory]
    [InlineData(0xA1FFu << 16, 3)]
    [InlineData(0xA1FFu << 16, 0)]
    [InlineData(0x11A4u << 16, 3)]
    [InlineData(0x21A4u << 16, 3)]
    [InlineData(0x400u, 11)]
    public void A_link_a_pipe_or_a_device(uint attributes, int host) =>
        Bends("AF1224", one => one with { Attributes = attributes, Host = host });

    [Fact]
    public void A_kind_that_depends_on_the_unpacker()
    {
        Bends("AF1245", one => one with { Attributes = 0x41EDu << 16 });
        Bends("AF1245", one => one with { Attributes = 0x10, Host = 0 });
        Bends("AF1245", one => one with { Attributes = 0x08, Host = 0 });
        Finds("AF1245", new SketchEntry("sketch/data/folder/", Evil));

        // libarchive's experimental field: version, attributes of Unix that make a link of it.
        Bends("AF1240", one => one with
        {
            LocalExtra = SketchEntry.Field(0x6C78, [7, .. ZipSketch.U16(0x314), .. ZipSketch.U16(0), .. ZipSketch.U32(0xA1FFu << 16)])
        });
        Bends("AF1245", one => one with { Extra = SketchEntry.Field(0x6C78, 4, 0, 0, 0xFF, 0xA1) });
        Bends("AF1245", one => one with { Extra = [.. SketchEntry.Field(1, new byte[8]), .. SketchEntry.Field(1, new byte[8])] });
    }

    [Fact]
    public void A_header_before_the_data_that_differs_from_the_list()
    {
        Bends("AF1240", one => one with { LocalName = "sketch/data/two"u8.ToArray() }, "name");
        Bends("AF1240", one => one with { LocalSize = 2 }, "size");
        Bends("AF1240", one => one with { LocalCrc = 1 }, "CRC");
        Bends("AF1240", one => one with { LocalMethod = 8 }, "method");
        Bends("AF1240", one => one with { LocalFlags = 0x800 }, "flags");
        Bends("AF1240", one => one with { LocalFlags = 1 }, "flags");
        Bends("AF1240", one => one with { Flags = 8, LocalFlags = 0 }, "flags");
        Bends("AF1240", one => one with { LocalCrc = 1, LocalName = "x"u8.ToArray() }, "name, CRC");
    }

    [Fact]
    public void A_descriptor_is_allowed_and_must_be_right()
    {
        Bends(null, one => one with { Flags = 8 });
        Bends(null, one => one with { Flags = 8, Method = 8 });
        Bends(null, one => one with { Flags = 8, Descriptor = ZipSketch.Descriptor(one)[4..] });
        Bends(null, one =>
            one with { Flags = 8, Descriptor = [.. ZipSketch.Descriptor(one)[..8], .. ZipSketch.U64(3), .. ZipSketch.U64(3)] });
        Bends("AF1241", one => one with { Flags = 8, Descriptor = [] });
        Bends("AF1241", one =>
            one with { Flags = 8, Descriptor = [.. "PK\x07\x08"u8, .. ZipSketch.U32(1), .. ZipSketch.U32(2), .. ZipSketch.U32(3)] });
        Bends("AF1240", one => one with { Flags = 8, LocalSize = 7 });
    }

    // bsdtar writes "good" and another file when it reads this from a pipe.
    [Fact]
    public void Stored_bytes_that_look_like_their_own_end()
    {
        var inner = new MemoryStream();
        ZipSketch.WriteLocal(inner, new SketchEntry("sketch/data/hidden", Evil));
        byte[] bytes = [.. Good, .. ZipSketch.Descriptor(new SketchEntry("x", Good)), .. inner.ToArray()];
        Bends("AF1244", one => one with { Bytes = bytes, Flags = 8 }, "end", bytes);

        // Across two reads; and where the look is chance alone.
        byte[] far = [.. new byte[(1 << 18) - 2], .. "PK\x07\x08"u8, .. new byte[4], .. ZipSketch.U32((1 << 18) - 2), .. new byte[30]];
        Bends("AF1244", one => one with { Bytes = far, Flags = 8 }, "end", far);
        byte[] chance = [.. new byte[(1 << 18) - 2], .. "PK\x07\x08"u8, .. new byte[40], .. "PK\x07\x08"u8];
        Bends(null, one => one with { Bytes = chance, Flags = 8 }, "", chance);
        Bends(null, one => one with { Bytes = far }, "", far);
    }

    [Fact]
    public void Data_that_unpack_to_something_else()
    {
        byte[] both = [.. "one"u8, .. Evil];
        Bends("AF1244", one => one with { Method = 8, Packed = SketchEntry.Deflate(both) }, "more than the 3 bytes");
        Bends(
            "AF1244",
            one => one with { Method = 8, Packed = SketchEntry.Deflate(both), Crc = Crc32.HashToUInt32(both) },
            "more than the 3 bytes");
        Bends(
            "AF1244", one => one with { Method = 8, Packed = [.. SketchEntry.Deflate(one.Bytes), .. Evil] }, "packed bytes after its end");
        Bends(
            "AF1244",
            one => one with { Method = 8, Packed = [.. SketchEntry.Deflate(one.Bytes), .. new byte[200_000]] },
            "packed bytes after its end");
        Bends("AF1244", one => one with { Method = 8, Packed = [.. SketchEntry.Deflate(one.Bytes), 0] }, "packed bytes after its end");
        Bends("AF1244", one => one with { Packed = both }, "more than the 3 bytes");
        Bends("AF1244", one => one with { Size = 9 }, "its headers state 9");
        Bends("AF1244", one => one with { Crc = 1 }, "CRC");
        Bends("AF1244", one => one with { Method = 8, Packed = [7, 7, 7, 7] }, "cannot be unpacked");
        Bends("AF1244", one => one with { Method = 12 }, "method 12");

        // A file that no manifest verifies is compared with its headers all the same.
        Finds("AF1244", new SketchEntry("sketch/notes.txt", Good) { Method = 8, Packed = SketchEntry.Deflate([.. Good, .. Evil]) });
    }

    [Fact]
    public void An_encrypted_file()
    {
        Bends("AF1243", one => one with { Flags = 1 });
        Bends("AF1243", one => one with { Flags = 0x2000 });
        Bends("AF1243", one => one with { Extra = SketchEntry.Field(0x9901, 2, 0, 65, 69, 3, 0, 0), Method = 99 });
    }

    [Fact]
    public void Bytes_that_belong_to_no_file()
    {
        var hidden = new MemoryStream();
        ZipSketch.WriteLocal(hidden, new SketchEntry("sketch/data/hidden", Evil));
        Bends("AF1241", one => one with { Behind = hidden.ToArray() }, "belong to no file");
        Bends("AF1241", one => one with { Behind = [0] }, "after sketch/data/one belong to no file (1 in all)");
        _zip.Before = "#!/bin/sh\n"u8.ToArray();
        Finds("AF1241");
        Take();
        _zip.Before = new ZipSketch { Entries = { new SketchEntry("sketch/data/one", Evil) } }.Write();
        Finds("AF1241");
        Take();
        _zip.Behind = "junk"u8.ToArray();
        Finds("AF1241");
    }

    [Fact]
    public void Two_files_with_the_same_data()
    {
        var at = _zip.Entries.FindIndex(entry => entry.Name.AsSpan().SequenceEqual("sketch/data/one"u8));
        _zip.Entries.Insert(at + 1, new SketchEntry("sketch/data/two/three", "one"u8.ToArray()) { IsShared = true });
        var outcome = Audit();
        Assert.False(outcome.IsValid);
        Assert.Contains(outcome.Diagnostics, wrong => wrong.Code is "AF1241");
        Assert.Contains(outcome.Diagnostics, wrong => wrong.Code is "AF1240");
    }

    [Fact]
    public void Two_end_records()
    {
        var other = new ZipSketch { Entries = { new SketchEntry("sketch/data/one", Evil) } }.Write();
        _zip.Comment = other;
        Finds("AF1242");
        Take();
        _zip.Behind = other;
        Finds("AF1241", null, "AF1242");
        Take();
        _zip.Comment = "a plain comment"u8.ToArray();
        Assert.Empty(Audit().Diagnostics);
        _zip.Behind = new byte[4096];
        Assert.Empty(Audit().Diagnostics);
        _zip.Behind = [.. new byte[4096], 1];
        Finds("AF1241");

        // A ZIP file in the payload, not compressed, has an end of its own, which is none of this one's.
        Take();
        Bends(null, one => one with { Bytes = other }, "", other);
    }

    [Fact]
    public void An_end_record_that_lies()
    {
        _zip.Count = _zip.Entries.Count - 1;
        Finds("AF1242");
        _zip.Count = _zip.Entries.Count + 1;
        Finds("AF1242");
        Take();
        _zip.Zip64 = (count, length, at) => (count, length, at);
        Assert.Empty(Audit().Diagnostics);
        _zip.HasSentinels = true;
        Assert.Empty(Audit().Diagnostics);
        _zip.Zip64 = (count, length, at) => (count - 1, length, at);
        Finds("AF1242");
        _zip.HasSentinels = false;
        Finds("AF1242");
        _zip.Zip64 = (count, length, at) => (count, length - 46, at);
        Finds("AF1242");
        _zip.HasSentinels = true;
        Finds("AF1241");
    }

    [Fact]
    public void Very_many_errors_are_cut_short()
    {
        for (var i = 0; i < 3000; i++) _zip.Entries.Add(new SketchEntry($"sketch/data/{i}.", []));
        var outcome = Audit();
        Assert.False(outcome.IsValid);
        Assert.Equal(ZippedBagList.MostReported, outcome.Diagnostics.Count(wrong => wrong.Code is "AF1239" or "AF1231"));
        Assert.Contains(outcome.Diagnostics, wrong => wrong.Descriptor == DiagnosticDescriptors.TooManyFaults);
    }

    // No name costs more than its length: a tree of what 400 names of 4,000 bytes lead through has 800,000 places, not 800,000 texts.
    [Fact]
    public void Deep_names_cost_their_length()
    {
        var tree = new ZippedTree();
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 400; i++) Assert.Null(tree.Put($"sketch/{i}/" + string.Concat(Enumerable.Repeat("d/", 1990)) + "x"));
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 400L << 20);
    }

    [Fact]
    public void Random_damage_is_never_a_crash_and_never_another_file()
    {
        var whole = _zip.Write();
        var random = new Random(13);
        for (var i = 0; i < 800; i++)
        {
            var damaged = whole.ToArray();
            for (var n = random.Next(1, 4); n > 0; n--) damaged[random.Next(damaged.Length)] = (byte)random.Next(256);
            File.WriteAllBytes(_folder["sketch.zip"], damaged);
            var outcome = Archive.Preservation.Audits.Audit.OfPacked(_folder["sketch.zip"], null, CancellationToken.None);
            if (!outcome.IsValid) continue;

            // What is called valid unpacks to the bag: dates, versions and comments are all that may differ.
            using var zip = ZipFile.OpenRead(_folder["sketch.zip"]);
            Assert.Equal(
                _bag.Files.Select(file => ("sketch/" + file.Key, Convert.ToHexString(file.Value))).Order(),
                zip.Entries.Select(entry => (entry.FullName, Text(entry))).Order());
        }

        static string Text(ZipArchiveEntry entry)
        {
            using var from = entry.Open();
            using var to = new MemoryStream();
            from.CopyTo(to);
            return Convert.ToHexString(to.ToArray());
        }
    }

    // The bag, afresh, with data/one as a test needs it.
    private void Take(byte[]? one = null)
    {
        (_zip.Before, _zip.Behind, _zip.Comment, _zip.Count, _zip.Zip64, _zip.HasSentinels) = ([], [], [], null, null, false);
        _bag.Files["data/one"] = one ?? "one"u8.ToArray();
        _bag.Manifest();
        _bag.TagManifest();
        _zip.Entries.Clear();
        _zip.Entries.AddRange(_bag.Files.Select(file => new SketchEntry("sketch/" + file.Key, file.Value)));
    }

    private AuditOutcome Audit()
    {
        File.WriteAllBytes(_folder["sketch.zip"], _zip.Write());
        return Archive.Preservation.Audits.Audit.OfPacked(_folder["sketch.zip"], null, CancellationToken.None);
    }

    private void Finds(string code, SketchEntry? more = null, string? or = null)
    {
        if (more is not null) _zip.Entries.Add(more);
        var outcome = Audit();
        if (more is not null) _zip.Entries.Remove(more);
        Assert.False(outcome.IsValid);
        Assert.True(
            outcome.Diagnostics.Any(wrong => (wrong.Code == code || wrong.Code == or) && wrong.Severity == Severity.Error),
            string.Join("; ", outcome.Diagnostics));
    }

    // data/one, bent; null for a bend that is no error.
    private void Bends(string? code, Func<SketchEntry, SketchEntry> bend, string says = "", byte[]? bytes = null)
    {
        Take(bytes);
        var at = _zip.Entries.FindIndex(entry => entry.Name.AsSpan().SequenceEqual("sketch/data/one"u8));
        _zip.Entries[at] = bend(_zip.Entries[at]);
        var outcome = Audit();
        if (code is null) Assert.Empty(outcome.Diagnostics);
        else Assert.True(outcome.Diagnostics.Any(wrong => wrong.Code == code
            && wrong.Severity == Severity.Error
            && wrong.Message.Contains(says, StringComparison.Ordinal)), string.Join("; ", outcome.Diagnostics));
        Take();
    }
}

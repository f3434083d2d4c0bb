using System.IO.Compression;
using System.Text;
using Archive.Diagnostics;
using Archive.Preservation.Audits;
using Xunit;

namespace Archive.Preservation.Tests;

/// <summary>
/// Bags in ZIP files, ours and hostile ones. The rules of packing are those of draft-kunze-bagit-14, section 4; what a ZIP file can do to
/// anyone who unpacks it is common knowledge.
/// </summary>
public sealed class PackedBagTests : IDisposable
{
    private const int LinkMode = 0xA1FF, FileMode = 0x81A4;
    private readonly TemporaryFolder _folder = new();
    private readonly SketchBag _bag = new();
    private readonly List<(string Name, byte[] Bytes, int Mode)> _entries = [];

    public PackedBagTests()
    {
        _bag.Manifest();
        _bag.TagManifest();
        foreach (var (path, bytes) in _bag.Files) _entries.Add(($"sketch/{path}", bytes, FileMode));
    }

    public void Dispose()
    {
        _bag.Dispose();
        _folder.Dispose();
    }

    [Theory]
    [InlineData(CompressionLevel.NoCompression)]
    [InlineData(CompressionLevel.SmallestSize)]
    public void A_packed_bag_is_as_valid_as_its_folder(CompressionLevel level)
    {
        Assert.Empty(Told(level));
        _entries.AddRange([("sketch/", [], FileMode), ("sketch/data/", [], FileMode), ("sketch/data/empty/", [], FileMode)]);
        Assert.Empty(Told(level));
        Assert.Equal("packed bag of BagIt 1.0", Audit.OfPacked(_folder["sketch.zip"], null, CancellationToken.None).Name);
    }

    [Fact]
    public void What_is_sealed_and_packed_is_valid_and_its_damage_is_found()
    {
        using var station = new SealedStation();
        station.Seal(zip: true);
        station.Seal("other/small");
        var zip = station["vault/small.zip"];
        var packed = Audit.OfPacked(zip, null, CancellationToken.None);
        var folder = station.Audit("other/small");
        Assert.True(packed.IsValid, string.Join("; ", packed.Diagnostics));
        Assert.Equal((folder.Files, folder.Bytes), (packed.Files, packed.Bytes));

        // Any byte of any file in it, and of what lies between them: found, or of no account (a date, say), but never a crash.
        var whole = File.ReadAllBytes(zip);
        var random = new Random(11);
        var found = 0;
        for (var i = 0; i < 60; i++)
        {
            var damaged = whole.ToArray();
            damaged[random.Next(damaged.Length)] ^= (byte)(1 << random.Next(8));
            File.WriteAllBytes(zip, damaged);
            if (!Audit.OfPacked(zip, null, CancellationToken.None).IsValid) found++;
        }

        Assert.InRange(found, 50, 60); // the pictures are most of it
        File.WriteAllBytes(zip, whole[..^30]);
        Assert.Equal("AF1233", Assert.Single(Audit.OfPacked(zip, null, CancellationToken.None).Diagnostics).Code);
    }

    [Fact]
    public void A_file_of_the_payload_that_changed_is_named()
    {
        _entries[^1] = ("sketch/" + _bag.Files.Keys.Last(), "x"u8.ToArray(), FileMode);
        var at = _entries.FindIndex(entry => entry.Name == "sketch/data/one");
        _entries[at] = ("sketch/data/one", "two"u8.ToArray(), FileMode);
        Assert.Contains(Told(), told => told.EndsWith("AF1209", StringComparison.Ordinal));
        Assert.Contains(Audit.OfPacked(_folder["sketch.zip"], null, CancellationToken.None).Diagnostics, diagnostic =>
            diagnostic.Message.StartsWith("data/one does not match its recorded sha512", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("/etc/passwd", "AF1206")]
    [InlineData("sketch/../../x", "AF1206")]
    [InlineData("../x", "AF1206")]
    [InlineData("C:/x", "AF1206")]
    [InlineData("\\\\host\\share\\x", "AF1206")]
    [InlineData("sketch\\data\\x", "AF1206")]
    [InlineData("~root/x", "AF1206")]
    [InlineData("beside", "AF1230")]
    [InlineData("other/bagit.txt", "AF1230")]
    [InlineData("sketch/data/one", "AF1231")]
    [InlineData("sketch/DATA/One", "AF1231")]
    [InlineData("sketch/data", "AF1231")]
    [InlineData("sketch/data/new", "AF1208")]
    public void What_would_do_harm_when_it_is_unpacked_is_refused(string name, string code)
    {
        _entries.Add((name, "three"u8.ToArray(), FileMode));
        var diagnostics = AuditOf(CompressionLevel.Optimal).Diagnostics;
        Assert.Contains(diagnostics, diagnostic => diagnostic.Code == code
            && diagnostic.Severity == Severity.Error
            && diagnostic.Message.Contains(
                name[(name.StartsWith("sketch/", StringComparison.Ordinal) && code == "AF1208" ? 7 : 0)..], StringComparison.Ordinal));
    }

    [Fact]
    public void A_link_is_told_and_not_followed()
    {
        _entries.Add(("sketch/data/link", "/etc/passwd"u8.ToArray(), LinkMode));
        Assert.Equal(["data/link:1:1 AF1224"], Told());
    }

    [Fact]
    public void A_bag_without_a_folder_about_it_is_refused_and_read()
    {
        for (var i = 0; i < _entries.Count; i++) _entries[i] = _entries[i] with { Name = _entries[i].Name["sketch/".Length..] };
        Assert.Equal(["AF1230"], AuditOf(CompressionLevel.Optimal).Diagnostics.Select(diagnostic => diagnostic.Code));
    }

    // 1.1 GB of zeros in a megabyte: what deflate can do at most.
    [Fact]
    public void What_grows_beyond_measure_is_not_read()
    {
        _bag.Files["data/zeros"] = [];
        using (var zip = new ZipArchive(File.Create(_folder["sketch.zip"]), ZipArchiveMode.Create))
        {
            using var to = zip.CreateEntry("sketch/data/zeros", CompressionLevel.Fastest).Open();
            var zeros = new byte[1 << 20];
            for (var i = 0; i < 1100; i++) to.Write(zeros);
        }

        var outcome = Audit.OfPacked(_folder["sketch.zip"], null, CancellationToken.None);
        Assert.Equal("AF1232", Assert.Single(outcome.Diagnostics).Code);
        Assert.Equal(0, outcome.Bytes);
    }

    // Two entries of the list that lead to one stretch of the file.
    [Fact]
    public void What_overlaps_is_not_read()
    {
        _entries.Clear();
        _entries.Add(("sketch/data/a", new byte[5000], FileMode));
        _entries.Add(("sketch/data/b", new byte[1], FileMode));
        Pack(CompressionLevel.NoCompression);
        var bytes = File.ReadAllBytes(_folder["sketch.zip"]);
        var list = Find(bytes, 0x02014b50, 0);
        var next = Find(bytes, 0x02014b50, list + 4);
        bytes.AsSpan(list + 20, 8).CopyTo(bytes.AsSpan(next + 20)); // sizes
        bytes.AsSpan(list + 42, 4).CopyTo(bytes.AsSpan(next + 42)); // where it begins
        File.WriteAllBytes(_folder["sketch.zip"], bytes);
        Assert.Equal("AF1232", Assert.Single(Audit.OfPacked(_folder["sketch.zip"], null, CancellationToken.None).Diagnostics).Code);
    }

    [Fact]
    public void What_is_no_zip_is_told()
    {
        File.WriteAllText(_folder["sketch.zip"], "no zip");
        Assert.Equal("AF1233", Assert.Single(Audit.OfPacked(_folder["sketch.zip"], null, CancellationToken.None).Diagnostics).Code);
    }

    private AuditOutcome AuditOf(CompressionLevel level)
    {
        Pack(level);
        return Audit.OfPacked(_folder["sketch.zip"], null, CancellationToken.None);
    }

    private string[] Told(CompressionLevel level = CompressionLevel.Optimal) =>
        [.. AuditOf(level).Diagnostics.Select(diagnostic => $"{diagnostic.Span} {diagnostic.Code}")];

    private void Pack(CompressionLevel level)
    {
        using var zip = new ZipArchive(File.Create(_folder["sketch.zip"]), ZipArchiveMode.Create, leaveOpen: false, Encoding.UTF8);
        foreach (var (name, bytes, mode) in _entries)
        {
            var entry = zip.CreateEntry(name, level);
            entry.ExternalAttributes = mode << 16;
            using var to = entry.Open();
            to.Write(bytes);
        }
    }

    private static int Find(byte[] bytes, int mark, int from)
    {
        while (BitConverter.ToInt32(bytes, from) != mark) from++;
        return from;
    }
}

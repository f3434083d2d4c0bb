using System.Runtime.Versioning;
using System.Text;
using Archive.Preservation.Bags;
using Xunit;

namespace Archive.Preservation.Tests;

/// <summary>The rules of RFC 8493 that the conformance suite leaves out, each by the section that sets it.</summary>
public sealed class BagRuleTests : IDisposable
{
    private readonly SketchBag _bag = new();

    public void Dispose() => _bag.Dispose();

    [Fact] // 2.1, 2.2.1: the least bag, and the same with a tag manifest
    public void The_least_bag_is_valid()
    {
        _bag.Manifest();
        Assert.Empty(_bag.Told());
        _bag.TagManifest();
        Assert.Empty(_bag.Told());
    }

    [Fact] // 2.1.3: only LF, CR and % are encoded; a reader decodes only these, and letter case does not matter
    public void Three_characters_are_percent_encoded_and_only_those()
    {
        foreach (var name in (string[])["data/a\nb", "data/a\rb", "data/100%", "data/%7Etilde", "data/%2525", "data/grüße 7"])
            _bag.Files[name] = SketchBag.Utf8(name);
        var manifest = _bag.Manifest();
        Assert.Contains("data/a%0Ab\n", manifest, StringComparison.Ordinal);
        Assert.True(_bag.Audit().IsValid);

        _bag.Text(
            "manifest-sha512.txt",
            manifest.Replace("%0A", "%0a", StringComparison.Ordinal).Replace("%0D", "%0d", StringComparison.Ordinal));
        Assert.True(_bag.Audit().IsValid);

        // %7E is not decoded: a line that means ~ by it means a file that is not there.
        _bag.Files.Remove("data/%7Etilde");
        File.Delete(Path.Combine(_bag.Root, "data/%7Etilde"));
        _bag.Files["data/~tilde"] = SketchBag.Utf8("data/%7Etilde");
        _bag.Text("manifest-sha512.txt", manifest.Replace("%257E", "%7E", StringComparison.Ordinal));
        var codes = _bag.Audit().Diagnostics.Select(diagnostic => diagnostic.Code).ToList();
        Assert.Contains("AF1207", codes);
        Assert.Contains("AF1208", codes);
    }

    [Fact] // 5.1: what is encoded is decoded before it is judged
    public void A_path_that_leaves_the_bag_is_refused_also_when_encoded()
    {
        _bag.Text(
            "manifest-sha512.txt",
            _bag.Manifest() + new string('0', 128) + "  data/..%0A/x\n" + new string('0', 128) + "  data/../../%25\n");
        Assert.Equal(["AF1207", "AF1219", "AF1206"], _bag.Audit().Diagnostics.Select(diagnostic => diagnostic.Code));
    }

    [Fact] // 2.1.3, 3: every manifest lists every file
    public void A_file_that_one_manifest_leaves_out_is_told()
    {
        _bag.Manifest();
        var lines = _bag.Manifest("sha256").Split('\n');
        _bag.Text("manifest-sha256.txt", lines[0] + "\n");
        Assert.Equal(["data/two/three:1:1 AF1208"], _bag.Told());
    }

    [Fact] // 2.2.1
    public void A_tag_manifest_lists_every_payload_manifest_and_neither_payload_nor_tag_manifests()
    {
        _bag.Manifest();
        _bag.TagManifest();
        _bag.Manifest("sha256"); // after the tag manifest was taken: not in it
        Assert.Equal(["tagmanifest-sha512.txt:1:1 AF1215"], _bag.Told());

        var whole = _bag.TagManifest();
        var hashOfOne = _bag.Files["manifest-sha512.txt"].AsSpan(0, 128);
        var hashOfTags = Convert.ToHexStringLower(System.Security.Cryptography.SHA512.HashData(_bag.Files["tagmanifest-sha512.txt"]));
        _bag.Text("tagmanifest-sha256.txt", "");
        _bag.Text(
            "tagmanifest-sha512.txt",
            whole + Encoding.UTF8.GetString(hashOfOne) + "  data/one\n" + hashOfTags + "  tagmanifest-sha512.txt\n");
        var told = _bag.Told().ToList();
        Assert.Contains("tagmanifest-sha512.txt:4:131 AF1215", told);
        Assert.Contains("tagmanifest-sha512.txt:5:131 AF1215", told);
        Assert.Equal(2, told.Count(fault => fault == "tagmanifest-sha256.txt:1:1 AF1215")); // it lists neither of the two manifests
    }

    [Fact] // 2.2.1 lets a tag manifest leave tag files out: valid, but reported
    public void A_tag_file_that_no_tag_manifest_lists_is_told()
    {
        _bag.Manifest();
        _bag.Text("read-me.html", "hello");
        Assert.Empty(_bag.Told()); // without a tag manifest, no tag file has a checksum
        _bag.TagManifest();
        Assert.Empty(_bag.Told());
        _bag.Text("added.html", "later");
        Assert.Equal(["added.html:1:1 AF1408"], _bag.Told());
        Assert.True(_bag.Audit().IsValid);
    }

    [Fact] // 2.2.2: order, repeats, continuation, letter case of reserved labels
    public void Bag_info_is_read_as_the_standard_writes_it()
    {
        _bag.Manifest();
        _bag.Text(
            "bag-info.txt",
            "Source-Organization: Marrow Point\nContact-Name: One\nContact-Name: Two\nExternal-Description: a long\n\t description\n  of it\nPAYLOAD-OXUM: 8.2\nBagging-Date: 2026-05-12\nBag-Count: 1 of ?\nTime: 10:42:07\n");
        Assert.Empty(_bag.Told());
        var info = BagInfo.Read(BagFolder.List(_bag.Root), new BagDeclaration(BagVersion.One, true, Encoding.UTF8), []);
        Assert.Equal(["One", "Two"], info.Where(line => line.Is("contact-name")).Select(line => line.Value));
        Assert.Equal("a long description of it", info.Single(line => line.Is("External-Description")).Value);
        Assert.Equal("10:42:07", info.Single(line => line.Is("Time")).Value);
    }

    [Theory]
    [InlineData("no colon in this line\n", "bag-info.txt:1:1 AF1217")]
    [InlineData("Contact-Name : blank before the colon\n", "bag-info.txt:1:1 AF1217")]
    [InlineData("Contact-Name:no blank behind the colon\n", "bag-info.txt:1:1 AF1223")]
    [InlineData("Contact-Name:\n\tgoes on\n", null)]
    [InlineData("Payload-Oxum: 9.2\n", "bag-info.txt:1:1 AF1214")]
    [InlineData("Payload-Oxum: 8.3\n", "bag-info.txt:1:1 AF1214")]
    [InlineData("Payload-Oxum: 8,2\n", "bag-info.txt:1:1 AF1223")]
    [InlineData("Payload-Oxum: 8.2\nPayload-Oxum: 8.2\n", "bag-info.txt:2:1 AF1223")]
    [InlineData("Bagging-Date: 12 May 2026\n", "bag-info.txt:1:1 AF1223")]
    [InlineData("Bagging-Date: 2026-02-30\n", "bag-info.txt:1:1 AF1223")]
    [InlineData("Bag-Count: two of five\n", "bag-info.txt:1:1 AF1223")]
    public void What_bag_info_says_amiss_is_told(string text, string? told)
    {
        _bag.Manifest();
        _bag.Text("bag-info.txt", text);
        Assert.Equal(told is null ? [] : [told], _bag.Told());
    }

    // 2.2.2: "279164409832.1198" is the RFC's own sample: 279,164,409,832 octets in 1,198 files.
    [Fact]
    public void The_sample_of_the_standard_is_read()
    {
        _bag.Manifest();
        _bag.Text("bag-info.txt", "Payload-Oxum: 279164409832.1198\n");
        var diagnostic = Assert.Single(_bag.Audit().Diagnostics);
        Assert.Equal("AF1214", diagnostic.Code);
        Assert.Equal("the payload is 8.2 in bytes and files, but `Payload-Oxum` says 279164409832.1198", diagnostic.Message);
    }

    [Theory] // 2.2.3
    [InlineData("https://archive.example/one - data/one\n", null)]
    [InlineData("https://archive.example/one 3 data/one\n", null)]
    [InlineData("https://archive.example/one 4 data/one\n", "fetch.txt:1:31 AF1226")]
    [InlineData("/one - data/one\n", "fetch.txt:1:1 AF1216")]
    [InlineData("one - data/one\n", "fetch.txt:1:1 AF1216")]
    [InlineData("https://archive.example/one many data/one\n", "fetch.txt:1:1 AF1216")]
    [InlineData("https://archive.example/four - data/four\n", "fetch.txt:1:32 AF1225")]
    [InlineData("https://archive.example/info - bag-info.txt\n", "fetch.txt:1:32 AF1206")]
    [InlineData("https://archive.example/x - data/../../x\n", "fetch.txt:1:29 AF1206")]
    public void Fetch_is_read_and_never_done(string line, string? told)
    {
        _bag.Manifest();
        _bag.Text("fetch.txt", line);
        Assert.Equal(told is null ? [] : [told], _bag.Told());
    }

    [Fact] // 2.2.3, 3: a bag with a hole is whole when the hole is filled
    public void What_is_still_to_be_fetched_is_missing_and_says_where_it_is()
    {
        _bag.Manifest();
        _bag.Files.Remove("data/one");
        _bag.Text("fetch.txt", "https://archive.example/one - data/one\n");
        var diagnostic = Assert.Single(_bag.Audit().Diagnostics);
        Assert.Equal("AF1207", diagnostic.Code);
        Assert.Contains("https://archive.example/one", diagnostic.Help, StringComparison.Ordinal);
    }

    [Fact] // 2.1, 3
    public void A_bag_without_payload_or_manifest_is_none()
    {
        foreach (var file in _bag.Files.Keys.Where(file => file.StartsWith("data/", StringComparison.Ordinal)).ToList())
            _bag.Files.Remove(file);
        Assert.Equal(["data:1:1 AF1204", "manifest-sha512.txt:1:1 AF1204"], _bag.Told());
    }

    [Theory] // 2.4
    [InlineData("manifest-sha-512.txt", null)]
    [InlineData("manifest-SHA512.txt", null)]
    [InlineData("manifest-whirlpool.txt", "manifest-whirlpool.txt:1:1 AF1218")]
    public void The_name_of_an_algorithm_is_read_without_its_dashes(string name, string? told)
    {
        var text = _bag.Manifest();
        _bag.Files.Remove("manifest-sha512.txt");
        _bag.Text(name, text);
        Assert.Equal(told is null ? [] : [told], _bag.Told());
    }

    [Fact] // 2.1.3: either letter case, blanks and tabs; a line that is cut short is reported
    public void A_line_is_a_checksum_blanks_and_a_path()
    {
        var lines = _bag.Manifest().Split('\n');
        _bag.Text("manifest-sha512.txt", $"{lines[0][..128].ToUpperInvariant()}\t \t{lines[0][130..]}\r{lines[1]}\r\n");
        Assert.Empty(_bag.Told());
        _bag.Text("manifest-sha512.txt", $"{lines[0][2..]}\n{lines[1]}\n");
        Assert.Equal(["data/one:1:1 AF1208", "manifest-sha512.txt:1:1 AF1205"], _bag.Told());
        _bag.Text("manifest-sha512.txt", $"{lines[0][..64].ToUpperInvariant()}{lines[0][64..]}\n{lines[1]}\n");
        Assert.Equal(["manifest-sha512.txt:1:1 AF1213"], _bag.Told());
    }

    [Fact] // 2.3
    public void Tag_files_are_in_the_encoding_that_is_said_and_UTF_8_has_no_mark()
    {
        _bag.Manifest();
        _bag.Files["bag-info.txt"] = [0xEF, 0xBB, 0xBF, .. "Contact-Name: x\n"u8];
        Assert.Equal(["bag-info.txt:1:1 AF1222"], _bag.Told());
        _bag.Files["bag-info.txt"] = [.. "Contact-Name: "u8, 0xE9, (byte)'\n'];
        Assert.Equal(["bag-info.txt:1:1 AF1222"], _bag.Told());
        _bag.Text("bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: ISO-8859-1\n");
        Assert.Empty(_bag.Told());
        _bag.Text("bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: EBCDIC-NOWHERE\n");
        Assert.Contains("bagit.txt:2:30 AF1222", _bag.Told());
        _bag.Text("bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-7\n"); // a known name that the platform refuses
        Assert.Contains("bagit.txt:2:30 AF1222", _bag.Told());
    }

    [Fact] // 3: complete is what is there and listed; 2.2.2: the size is a quick test
    public void A_file_that_is_cut_short_leaves_a_bag_complete_and_not_valid()
    {
        _bag.Manifest();
        _bag.Text("bag-info.txt", "Payload-Oxum: 8.2\n");
        Assert.Empty(_bag.Told());
        _bag.Text("data/one", "on");
        var outcome = _bag.Audit();
        Assert.Equal(["AF1214", "AF1209"], outcome.Diagnostics.Select(diagnostic => diagnostic.Code));
        Assert.Equal((true, false), (outcome.IsComplete, outcome.IsValid));
    }

    [Fact]
    public void Names_that_are_not_UTF_8_are_told()
    {
        if (!OperatingSystem.IsLinux()) return;
        _bag.Manifest();
        _bag.Audit();
        // a disk that takes no such names
        if (!Shell("cd \"$0\" && : > \"$(printf 'data/x\\377')\" && : > \"$(printf 'data/x\\376')\"")) return;
        Assert.Equal("AF1208", Assert.Single(_bag.Audit().Diagnostics).Code);
        Shell("rm \"$0\"/data/x*"); // the platform cannot delete what it cannot name

        bool Shell(string command)
        {
            using var shell = System.Diagnostics.Process.Start("sh", ["-c", command, _bag.Root]);
            shell.WaitForExit();
            return shell.ExitCode == 0;
        }
    }

    [Fact] // 6.1.2
    public void Names_that_Windows_cannot_hold_are_doubted()
    {
        _bag.Files["data/aux.txt"] = [1];
        _bag.Files["data/what?"] = [1];
        _bag.Manifest();
        Assert.Equal(["AF1219", "AF1219"], _bag.Audit().Diagnostics.Select(diagnostic => diagnostic.Code));
        Assert.True(_bag.Audit().IsValid);
    }

    [Fact]
    [UnsupportedOSPlatform("windows")]
    public void A_link_is_told_and_not_followed()
    {
        _bag.Manifest();
        _bag.Audit();
        File.CreateSymbolicLink(Path.Combine(_bag.Root, "data/link"), "/etc/passwd");
        Assert.Equal(["data/link:1:1 AF1224"], _bag.Told());
        Directory.CreateSymbolicLink(Path.Combine(_bag.Root, "data/folder"), "/");
        Assert.Equal(["data/folder:1:1 AF1224", "data/link:1:1 AF1224"], _bag.Told());
    }
}

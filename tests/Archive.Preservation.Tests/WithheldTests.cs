using Archive.Preservation.Sealing;
using Xunit;

namespace Archive.Preservation.Tests;

/// <summary>Originals that show what <c>redact</c> hides: never silently sealed, never silently left out.</summary>
public sealed class WithheldTests : IDisposable
{
    private const string Hidden = "data/record/photos/b.jpg";
    private readonly SealedStation _station = new(withHidden: true);

    public void Dispose() => _station.Dispose();

    [Fact]
    public void Without_a_word_nothing_is_sealed()
    {
        var diagnostic = Assert.Single(Assert.IsType<SealResult.Withheld>(_station.Seal()).Faults);
        Assert.Equal(("AF1227", "content/photos/p.yaml:2:41"), (diagnostic.Code, diagnostic.Place.ToString()));
        Assert.False(Directory.Exists(_station["vault/small"]));
    }

    [Fact]
    public void A_scanned_page_does_not_show_what_a_photo_hides()
    {
        Directory.CreateDirectory(_station["content/documents"]);
        File.Copy(_station["content/photos/b.jpg"], _station["content/documents/page.jpg"]);
        _station.Write("content/documents/d.yaml", "{id: D-1, name: Page, files: page.jpg}\n");
        var sealing = Assert.IsType<SealResult.Withheld>(_station.Seal(withheld: Withholding.Include));
        Assert.Equal(["AF0709"], sealing.Faults.Select(fault => fault.Code));
    }

    /// <summary>What could not be read may be what withholds it.</summary>
    [Fact]
    public void The_files_of_a_document_with_an_error_are_not_published()
    {
        _station.Write("content/documents/letter.txt", "Not to be printed.\n");
        _station.Write("content/documents/d.yaml", "{id: D-1, name: Letter, files: letter.txt, withheld: [by, the, writer]}\n");
        Assert.IsType<SealResult.Done>(_station.Seal(withheld: Withholding.Include, withErrors: true));
        Assert.Contains("data/site/documents/D-1/index.html", _station.Files());
        Assert.DoesNotContain(_station.Files(), file => file.StartsWith("data/site/files/", StringComparison.Ordinal));
    }

    [Fact]
    public void The_files_of_a_record_with_an_error_are_withheld()
    {
        _station.Write("content/documents/letter.txt", "Not to be printed.\n");
        _station.Write("content/documents/d.yaml", "{id: D-1, name: Letter, files: letter.txt, withheld: [by, the, writer]}\n");
        _station.Write(
            "content/photos/p.yaml",
            "- {id: P-1, file: 100% a.jpg, shows: [R1-01]}\n- {id: P-2, file: b.jpg, redact: [{bx: [0.1, 0.1, 0.2, 0.2]}]}\n");
        Assert.IsType<SealResult.Done>(_station.Seal(withheld: Withholding.LeaveOut, withErrors: true));
        Assert.DoesNotContain("data/record/documents/letter.txt", _station.Files());
        Assert.DoesNotContain(Hidden, _station.Files());
        Assert.Contains("data/record/photos/100% a.jpg", _station.Files());
    }

    [Fact]
    public void They_are_sealed_with_everything_else()
    {
        _station.Seal(withheld: Withholding.Include);
        Assert.Contains(Hidden, _station.Files());
        Assert.False(File.Exists(_station["vault/small/withheld.txt"]));
    }

    /// <summary>What the sensor wrote shows what the picture hides; and it is verified like the picture.</summary>
    [Fact]
    public void A_raw_file_is_withheld_with_its_picture_and_verified()
    {
        _station.Write("content/photos/b.dng", "as the sensor wrote it");
        _station.Write(
            "content/photos/p.yaml",
            "- {id: P-1, file: 100% a.jpg, shows: [R1-01]}\n"
                + $"- {{id: P-2, file: b.jpg, raw: b.dng, raw_sha256: {new string('0', 64)}, redact: [{{box: [0.1, 0.1, 0.2, 0.2], why: names}}]}}\n");
        var spoiled = Assert.IsType<SealResult.Withheld>(_station.Seal(withheld: Withholding.LeaveOut));
        Assert.Contains("AF0703", spoiled.Faults.Select(fault => fault.Code));
        var sum = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData("as the sensor wrote it"u8));
        _station.Write(
            "content/photos/p.yaml",
            File.ReadAllText(_station["content/photos/p.yaml"]).Replace(new string('0', 64), sum, StringComparison.Ordinal));
        Assert.IsType<SealResult.Done>(_station.Seal(withheld: Withholding.LeaveOut));
        Assert.DoesNotContain("data/record/photos/b.dng", _station.Files());
        Assert.DoesNotContain(_station.Files(), file => file.EndsWith(".dng", StringComparison.Ordinal));
    }

    [Fact]
    public void They_are_left_out_and_named()
    {
        // A second copy under another name, in no record, and one whose record was withdrawn.
        File.Copy(_station["content/photos/b.jpg"], _station["content/photos/copy.jpg"]);
        _station.Seal(withheld: Withholding.LeaveOut);
        Assert.DoesNotContain(Hidden, _station.Files());
        Assert.DoesNotContain("data/record/photos/copy.jpg", _station.Files());
        Assert.True(_station.Audit().IsValid);
        var list = File.ReadAllText(_station["vault/small/withheld.txt"]);
        Assert.Contains($"  {Hidden}\n", list, StringComparison.Ordinal);
        Assert.Contains("  data/record/photos/copy.jpg\n", list, StringComparison.Ordinal);
        Assert.Contains(
            "not in this bag: 2 files, left out.", File.ReadAllText(_station["vault/small/bag-info.txt"]), StringComparison.Ordinal);
        Assert.Equal(["small"], Directory.GetFileSystemEntries(_station["vault"]).Select(Path.GetFileName));
        var original = File.ReadAllBytes(_station["content/photos/b.jpg"]);
        Assert.DoesNotContain(_station.Files(), file => new FileInfo(_station["vault/small/" + file]).Length == original.Length
            && File.ReadAllBytes(_station["vault/small/" + file]).AsSpan().SequenceEqual(original));
    }

    [Fact]
    public void They_are_sealed_apart()
    {
        var done = Assert.IsType<SealResult.Done>(_station.Seal(withheld: Withholding.Apart));
        Assert.Equal([_station["vault/small"], _station["vault/small-withheld"]], done.Targets);
        Assert.True(_station.Audit().IsValid);
        Assert.True(_station.Audit("vault/small-withheld").IsValid);
        Assert.DoesNotContain(Hidden, _station.Files());
        Assert.Equal([Hidden], _station.Files("vault/small-withheld").Where(file => file.StartsWith("data/", StringComparison.Ordinal)));
        Assert.Equal(File.ReadAllBytes(_station["content/photos/b.jpg"]), File.ReadAllBytes(_station["vault/small-withheld/" + Hidden]));
    }

    /// <summary>
    /// A copy under another name, wherever it lies and whatever a second record says of it: neither its bytes nor a picture that shows what
    /// is hidden are in the bag.
    /// </summary>
    [Theory, InlineData(Withholding.LeaveOut), InlineData(Withholding.Apart)]
    public void What_is_withheld_is_not_in_the_bag_s_site_either(Withholding withheld)
    {
        // The samples are black where the box lies.
        foreach (var photo in new[] { "100% a.jpg", "b.jpg" })
        {
            using var image = NetVips.Image.NewFromBuffer(File.ReadAllBytes(_station["content/photos/" + photo]));
            using var light = image.Invert();
            File.WriteAllBytes(_station["content/photos/" + photo], light.JpegsaveBuffer());
        }

        var original = File.ReadAllBytes(_station["content/photos/b.jpg"]);
        foreach (var copy in new[] { "photos/copy.jpg", "stories/copy.jpg" })
        {
            Directory.CreateDirectory(Path.GetDirectoryName(_station["content/" + copy])!);
            File.Copy(_station["content/photos/b.jpg"], _station["content/" + copy]);
        }

        _station.Write("content/photos/q.yaml", "- id: P-3\n  file: copy.jpg\n  publish_original: true\n");
        var told = Assert.IsType<SealResult.Withheld>(_station.Seal(withheld: withheld)).Faults;
        Assert.Contains(told, diagnostic => (diagnostic.Code, diagnostic.Place.ToString()) == ("AF0709", "content/photos/q.yaml:2:9"));

        // Sealed with errors all the same.
        Assert.IsType<SealResult.Done>(_station.Seal(withheld: withheld, withErrors: true));
        Assert.True(_station.Audit().IsValid);
        Assert.All(_station.Files(), file =>
            Assert.False(File.ReadAllBytes(_station["vault/small/" + file]).AsSpan().SequenceEqual(original), file));
        var pictures = _station.Files().Where(file => file.StartsWith("data/site/images/", StringComparison.Ordinal)
            && !file.EndsWith(".json", StringComparison.Ordinal)).ToList();
        var whole = pictures.Where(file => file.StartsWith(FolderOf("P-1"), StringComparison.Ordinal)).ToList();

        // Of three photos there are pictures there: a.jpg is whole, b.jpg and its copy are not.
        Assert.NotEmpty(whole);
        Assert.All(whole, file => Assert.False(IsBlack(_station["vault/small/" + file]), file));
        Assert.All(pictures.Except(whole), file => Assert.True(IsBlack(_station["vault/small/" + file]), file));
        Assert.All(
            new[] { "P-2", "P-3" }, photo => Assert.Contains(pictures, file => file.StartsWith(FolderOf(photo), StringComparison.Ordinal)));
    }

    [Fact]
    public void A_theme_cannot_bring_in_what_is_withheld()
    {
        _station.CopyTheme();
        File.Copy(_station["content/photos/b.jpg"], _station["themes/ledger/assets/cover.jpg"]);
        var diagnostic = Assert.Single(Assert.IsType<SealResult.Withheld>(_station.Seal(withheld: Withholding.LeaveOut)).Faults, told =>
            told.Severity == Diagnostics.Severity.Error);
        Assert.Equal(
            (
                "AF0715",
                "content/photos/p.yaml:2:41",
                "`assets/cover.jpg` of the site is the original `photos/b.jpg`, which is withheld from the bag"),
            (diagnostic.Code, diagnostic.Place.ToString(), diagnostic.Message));
        Assert.False(Directory.Exists(_station["vault/small"]));
        Assert.IsType<SealResult.Done>(_station.Seal(withheld: Withholding.Include));
    }

    private string FolderOf(string photo) =>
        "data/site/" + System.Text.RegularExpressions.Regex.Match(
            File.ReadAllText(_station[$"vault/small/data/site/photos/{photo}/index.html"]), "images/../[0-9a-f]{32}").Value;

    // The hidden box is [0.1, 0.1, 0.2, 0.2] of the upright picture.
    private static bool IsBlack(string file)
    {
        using var image = NetVips.Image.NewFromFile(file);
        return image.Getpoint((int)(image.Width * 0.2), (int)(image.Height * 0.2)).All(band => band < 8);
    }
}

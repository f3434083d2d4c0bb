using NetVips;
using QRCoder;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary><c>asfound intake photos</c>, from a folder of the archive and from a camera's card.</summary>
public sealed class IntakeTests : IDisposable
{
    private readonly Asfound _archive = new();

    public IntakeTests()
    {
        _archive.Write("content/archive.yaml", "title: Small station\nbase: https://archive.example/small/\n");
    }

    [Fact]
    public async Task A_dry_run_tells_and_a_written_one_makes_a_record_without_faults()
    {
        Photograph("content/photos/row/IMG_0001.jpg", 0, "https://archive.example/small/frames/R1-02/");
        Photograph("content/photos/row/IMG_0002_rear.jpg", 2);
        Photograph("content/photos/row/IMG_0003.jpg", 45);
        Photograph("content/photos/row/IMG_0004.jpg", 46);
        File.Copy(_archive["content/photos/row/IMG_0004.jpg"], _archive["content/photos/row/copy.jpg"]);
        _archive.Write("content/photos/row/IMG_0004.yaml", "id: P-0004\nfile: IMG_0004.jpg\ncaption: A curator's words.\n");
        _archive.Write("content/photos/row/broken.jpg", "no photo");
        var before = Files();

        var dry = await Intake(_archive["content/photos/row"]);
        Assert.Equal(
            (0, "3 new photos in 2 groups, 3 files left alone.\nNothing was written. --write writes the sidecars to photos/row.\n"),
            (dry.Code, dry.Error));
        Assert.Equal(
            """
            2026-05-12 10:00 to 10:02, Kodiak K-100: 2 photos, the first is IMG_0001.jpg
              IMG_0001.jpg       P-0005  label  R1-02  by the label in it
              IMG_0002_rear.jpg  P-0006  rear   R1-02  by the label in IMG_0001.jpg; view by the file's name

            2026-05-12 10:45, Kodiak K-100: 1 photo, the first is IMG_0003.jpg
              IMG_0003.jpg  P-0007  -  -

            Left alone
              IMG_0004.jpg is already recorded as P-0004
              broken.jpg is text, not a JPEG, PNG, TIFF, WebP, HEIC or AVIF picture
              copy.jpg is the same picture as P-0004, which is already recorded

            """.ReplaceLineEndings("\n"), dry.Out);
        Assert.Equal(before, Files());

        var written = await Intake(_archive["content/photos/row"], "--write");
        Assert.Equal(dry.Out, written.Out);
        Assert.Equal(before.Concat(["photos/row/IMG_0001.yaml", "photos/row/IMG_0002_rear.yaml", "photos/row/IMG_0003.yaml"])
            .Order(StringComparer.Ordinal), Files());
        Assert.Equal(
            $"id: P-0006\nfile: IMG_0002_rear.jpg\nsha256: {Sum("content/photos/row/IMG_0002_rear.jpg")}\ntaken: 2026-05-12T10:02:00\n"
            + "view: rear # guessed from the file's name\nshows: [R1-02] # guessed from the label in IMG_0001.jpg\n",
            await File.ReadAllTextAsync(_archive["content/photos/row/IMG_0002_rear.yaml"], TestContext.Current.CancellationToken));

        // What was left alone is still there, and no record names it.
        var (code, reported) = await Checked();
        Assert.Equal(0, code);
        Assert.Contains("warning AF0716: no record names this picture, nor 1 more", reported, StringComparison.Ordinal);
        Assert.Single(reported.Split('\n'), line => line.Contains("warning", StringComparison.Ordinal));
        Assert.DoesNotContain("error", reported, StringComparison.Ordinal);

        // Nothing is new any more, and what a curator changed stands.
        _archive.Write("content/photos/row/IMG_0003.yaml", "id: P-0003\nfile: IMG_0003.jpg\nview: detail\n");
        var again = await Intake(_archive["content/photos/row"], "--write");
        Assert.StartsWith("no new photos in no groups, 6 files left alone.\n", again.Error, StringComparison.Ordinal);
        Assert.Equal(
            "id: P-0003\nfile: IMG_0003.jpg\nview: detail\n",
            await File.ReadAllTextAsync(_archive["content/photos/row/IMG_0003.yaml"], TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task A_camera_s_card_is_copied_and_left_as_it_is()
    {
        Photograph("card/100SURV/R1-01_front.jpg", 0);
        Photograph("card/.trash/R1-01_rear.jpg", 1);
        _archive.Write("card/R1-02.HEIC", "\0\0\0\u0018ftypheic\0\0\0\0");
        var run = await Intake(_archive["card"], "--write");
        Assert.Equal(
            "1 new photo in 1 group, 1 file left alone.\nSidecars are written, the photos copied, to photos/card: check the guesses.\n",
            run.Error);
        Assert.Contains("R1-02.HEIC has a damaged HEIC or AVIF header", run.Out, StringComparison.Ordinal);
        Assert.Equal(
            ["photos/card/100SURV/R1-01_front.jpg", "photos/card/100SURV/R1-01_front.yaml"],
            Files().Where(path => path.StartsWith("photos/", StringComparison.Ordinal)));
        Assert.Equal(Sum("card/100SURV/R1-01_front.jpg"), Sum("content/photos/card/100SURV/R1-01_front.jpg"));
        Assert.Equal((0, ""), await Checked());

        // The card again, and the same name with another picture in it.
        Assert.StartsWith("no new photos", (await Intake(_archive["card"], "--write")).Error, StringComparison.Ordinal);
        Photograph("card/100SURV/R1-01_front.jpg", 9);
        Assert.Contains(
            "has the same name as another file in the archive", (await Intake(_archive["card"], "--write")).Out, StringComparison.Ordinal);
    }

    /// <summary>What the sensor wrote is kept beside its picture, with its checksum, and is said to be undeveloped.</summary>
    [Fact]
    public async Task A_raw_file_goes_with_the_picture_of_its_name()
    {
        Photograph("card/IMG_0001.JPG", 0);
        _archive.Write("card/IMG_0001.CR3", "\0\0\0\u0018ftypcrx \0\0\0\u0001");
        _archive.Write("card/IMG_0002.CR3", "\0\0\0\u0018ftypcrx \0\0\0\u0002");
        var run = await Intake(_archive["card"], "--write");
        Assert.Contains(
            "IMG_0002.CR3 is a RAW picture, which is not developed: no new photo of the same name is beside it",
            run.Out,
            StringComparison.Ordinal);
        Assert.Contains("with IMG_0001.CR3 (RAW, kept, not developed)", run.Out, StringComparison.Ordinal);
        Assert.Equal(
            ["photos/card/IMG_0001.CR3", "photos/card/IMG_0001.JPG", "photos/card/IMG_0001.yaml"],
            Files().Where(path => path.StartsWith("photos/", StringComparison.Ordinal)));
        Assert.Contains(
            $"raw: IMG_0001.CR3\nraw_sha256: {Sum("card/IMG_0001.CR3")}\n",
            await File.ReadAllTextAsync(_archive["content/photos/card/IMG_0001.yaml"], TestContext.Current.CancellationToken),
            StringComparison.Ordinal);
        Assert.Equal((0, ""), await Checked());

        File.Delete(_archive["content/photos/card/IMG_0001.CR3"]);
        Assert.Contains(
            "AF0701: there is no RAW file `photos/card/IMG_0001.CR3`", (await Checked()).Item2, StringComparison.Ordinal);
    }

    /// <summary>A YAML file that stands is a curator's, whatever it holds: the sidecar takes another name, or none.</summary>
    [Fact]
    public async Task What_stands_is_never_written_to()
    {
        Photograph("content/photos/a.jpg", 0);
        Photograph("content/photos/a.png", 1);
        _archive.Write("content/photos/a.yaml", "# notes to come\n[]\n");
        await Intake(_archive["content/photos"], "--write");
        Assert.Equal(
            "# notes to come\n[]\n", await File.ReadAllTextAsync(_archive["content/photos/a.yaml"], TestContext.Current.CancellationToken));
        Assert.True(File.Exists(_archive["content/photos/a.jpg.yaml"]));
        Assert.True(File.Exists(_archive["content/photos/a.png.yaml"]));
    }

    [Fact]
    public async Task Sidecars_that_cannot_be_read_stop_it()
    {
        Photograph("content/photos/a.jpg", 0);
        _archive.Write("content/photos/b.yaml", "- {id: P-9, file: a.jpg, veiw: rear}\n");
        var run = await Intake(_archive["content/photos"], "--write");
        Assert.Equal(1, run.Code);
        Assert.Contains("b.yaml:1:26: error", run.Out, StringComparison.Ordinal);
        Assert.False(File.Exists(_archive["content/photos/a.yaml"]));
    }

    /// <summary>Only what was accepted is written, and what was rejected is not proposed again.</summary>
    [Fact]
    public async Task Photos_are_accepted_and_rejected_one_by_one()
    {
        Photograph("card/A-01_front.jpg", 0);
        Photograph("card/A-01_rear.jpg", 1);
        Photograph("card/A-02.jpg", 2);
        var first = await Intake(_archive["card"], "--by", "dm", "--view", "detail", "--review", _archive["decisions.txt"]);
        Assert.Equal(0, first.Code);
        Assert.False(Directory.Exists(_archive["content/photos"]));
        var text = await File.ReadAllTextAsync(_archive["decisions.txt"], TestContext.Current.CancellationToken);
        Assert.Contains("\nlater  P-0001:view = front\n", text, StringComparison.Ordinal);
        Assert.Contains("\nlater  P-0003:view = detail\n", text, StringComparison.Ordinal);
        _archive.Write("decisions.txt", text.Replace("later  P-0001", "accept P-0001", StringComparison.Ordinal)
            .Replace("later  P-0002", "reject P-0002", StringComparison.Ordinal));
        var second = await Intake(_archive["card"], "--by", "dm", "--view", "detail", "--review", _archive["decisions.txt"]);
        Assert.Equal(0, second.Code);
        Assert.Equal(
            ["photos/card/A-01_front.jpg", "photos/card/A-01_front.yaml", "rejected.yaml"],
            Files().Where(path => path.StartsWith("photos/", StringComparison.Ordinal) || path == "rejected.yaml"));
        Assert.Contains(
            "\nby: dm\nview: front # guessed from the file's name\n",
            await File.ReadAllTextAsync(_archive["content/photos/card/A-01_front.yaml"], TestContext.Current.CancellationToken),
            StringComparison.Ordinal);

        var third = await Intake(_archive["card"], "--format", "json");
        Assert.Contains("\"record\": \"P-0002\"", third.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("A-01", third.Out, StringComparison.Ordinal);
        var last = await Intake(_archive["card"], "--write");
        Assert.Contains("  A-01_rear.jpg was rejected before\n", last.Out, StringComparison.Ordinal);
        Assert.Equal((0, ""), await Checked());
        Assert.Equal(2, (await Intake(_archive["card"], "--accept", "P-9999")).Code);
    }

    [Fact]
    public async Task A_photographer_is_one_of_the_people_of_the_archive()
    {
        Photograph("card/a.jpg", 0);
        _archive.Write("content/archive.yaml", "title: Small station\npeople: {it: {name: Ida T.}, dm: {name: Dov M.}}\n");
        var run = await Intake(_archive["card"], "--by", "xy", "--write");
        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.Contains("xy is not one of the people in archive.yaml", run.Error, StringComparison.Ordinal);
        Assert.Contains("use one of dm, it, or add xy there", run.Error, StringComparison.Ordinal);
        Assert.Equal(0, (await Intake(_archive["card"], "--by", "it", "--write")).Code);
        Assert.Equal((0, ""), await Checked());
    }

    [Theory]
    [InlineData("cannot take in videos, only photos", "videos", "photos")]
    [InlineData("there is no folder", "photos", "nowhere")]
    [InlineData("is in it but outside its photos folder", "photos", "content/frames")]
    [InlineData("contains the archive", "photos", "")]
    [InlineData("contains the archive", "photos", "/")]
    [InlineData("a gap of 0 minutes makes no groups", "photos", "content", "--gap", "0")]
    public async Task A_wrong_command_line_says_so(string told, string what, string folder, params string[] more)
    {
        var run = await Asfound.Typed(["intake", what, _archive[folder], "--content", _archive["content"], .. more]);
        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.Contains(told, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_empty_folder_name_says_so()
    {
        var run = await Asfound.Typed("intake", "photos", "", "--content", _archive["content"]);
        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.Contains("FOLDER is empty", run.Error, StringComparison.Ordinal);
    }

    // The first of them in order has a name that no record can hold.
    [Fact]
    public async Task Of_two_identical_pictures_the_one_whose_name_a_record_can_hold_is_taken_in()
    {
        Photograph("card/a.jpg", 0);
        File.Copy(_archive["card/a.jpg"], _archive["card/\u0007.jpg"]);
        File.Copy(_archive["card/a.jpg"], _archive["card/z.jpg"]);
        var run = await Intake(_archive["card"], "--write");
        Assert.StartsWith("1 new photo in 1 group, 2 files left alone.\n", run.Error, StringComparison.Ordinal);
        Assert.Contains(
            "has a name that a record cannot hold: give it a simpler one; a.jpg is the same picture\n", run.Out, StringComparison.Ordinal);
        Assert.Contains("  z.jpg is the same picture as a.jpg\n", run.Out, StringComparison.Ordinal);
        Assert.Equal(
            ["photos/card/a.jpg", "photos/card/a.yaml"], Files().Where(path => path.StartsWith("photos/", StringComparison.Ordinal)));
        Assert.Equal((0, ""), await Checked());
    }

    public void Dispose() => _archive.Dispose();

    [Theory]
    [InlineData("content/photos")]
    [InlineData("content/photos/card")]
    [InlineData("content/photos/card/day")]
    public async Task Nothing_is_written_through_a_link_that_leads_out_of_the_archive(string link)
    {
        Photograph("card/day/IMG_0001.jpg", 0);
        Directory.CreateDirectory(_archive["letters"]);
        Directory.CreateDirectory(Path.GetDirectoryName(_archive[link])!);
        Directory.CreateSymbolicLink(_archive[link], _archive["letters"]);
        var run = await Intake(_archive["card"], "--write");
        Assert.Equal(3, run.Code);
        Assert.Contains("is behind a link that leads out of the archive", run.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_archive["letters"]));
    }

    private Task<Run> Intake(string folder, params string[] more) =>
        Asfound.Typed(["intake", "photos", folder, "--content", _archive["content"], .. more]);

    private async Task<(int Code, string Out)> Checked()
    {
        var check = await _archive.Run("check");
        return (check.Code, check.Out);
    }

    private string[] Files() => [.. Directory.EnumerateFiles(_archive["content"], "*", SearchOption.AllDirectories)
        .Select(path => Path.GetRelativePath(_archive["content"], path).Replace('\\', '/')).Order(StringComparer.Ordinal)];

    private string Sum(string path) =>
        Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(_archive[path])));

    private void Photograph(string path, int minute, string? code = null)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(_archive[path])!);
        var pixels = new byte[900 * 600 * 3];
        new Random(minute).NextBytes(pixels.AsSpan(0, 3000));
        pixels.AsSpan(3000).Fill(190);
        using var ground = Image.NewFromMemory(pixels, 900, 600, 3, Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Srgb);
        using var label = code is null ? ground.Copy() : ground.Insert(Qr(code), 200, 80);
        using var noted = label.Mutate(picture =>
        {
            picture.Set(GValue.GStrType, "exif-ifd0-Make", "Kodiak");
            picture.Set(GValue.GStrType, "exif-ifd0-Model", "K-100");
            picture.Set(GValue.GStrType, "exif-ifd2-DateTimeOriginal", new DateTime(2026, 5, 12, 10, 0, 0)
                .AddMinutes(minute)
                .ToString("yyyy:MM:dd HH:mm:ss", System.Globalization.CultureInfo.InvariantCulture));
        });
        noted.WriteToFile(_archive[path]);
    }

    private static Image Qr(string text)
    {
        using var generator = new QRCodeGenerator();
        var rows = generator.CreateQrCode(text, QRCodeGenerator.ECCLevel.M).ModuleMatrix;
        var side = rows.Count * 10;
        var pixels = new byte[side * side * 3];
        for (var i = 0; i < side * side; i++) Array.Fill(pixels, (byte)(rows[i / side / 10][i % side / 10] ? 10 : 250), 3 * i, 3);
        return Image.NewFromMemory(pixels, side, side, 3, Enums.BandFormat.Uchar);
    }
}

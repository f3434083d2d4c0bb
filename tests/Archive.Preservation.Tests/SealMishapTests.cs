using System.Security.Cryptography;
using Archive.Preservation.Sealing;
using Archive.Publishing.Requests;
using Xunit;

namespace Archive.Preservation.Tests;

/// <summary>What goes wrong around a sealing: places, links, names, disks that spoil files, kills between two names.</summary>
public sealed class SealMishapTests : IDisposable
{
    private readonly SealedStation _station = new();

    public void Dispose() => _station.Dispose();

    [Fact]
    public void No_bag_lies_in_its_archive_in_another_bag_or_in_a_site()
    {
        _station.Seal();
        Directory.CreateSymbolicLink(_station["way"], _station["content"]);
        _station.Write("site/site.sha256", "");
        foreach (var place in (string[])["content/bag", "way/bag", "vault/small/data/bag", "site/bag"])
        {
            Assert.Equal("AF1235", Assert.IsType<SealResult.Refused>(_station.Seal(place)).Why.Code);
            Assert.False(Path.Exists(_station[place]));
        }

        Assert.True(_station.Audit().IsValid);
    }

    [Theory]
    [InlineData("~small")]
    [InlineData("c:small")]
    [InlineData("sm\\all")]
    public void A_bag_is_not_packed_under_a_name_that_no_audit_would_take(string name)
    {
        if (OperatingSystem.IsWindows()) return;
        Assert.Equal("AF1235", Assert.IsType<SealResult.Refused>(_station.Seal("vault/" + name, zip: true)).Why.Code);
        Assert.IsType<SealResult.Done>(_station.Seal("vault/" + name));
        Assert.True(_station.Audit("vault/" + name).IsValid);
    }

    [Fact]
    public void A_link_within_the_archive_is_sealed_as_its_file_and_any_other_is_told()
    {
        File.CreateSymbolicLink(_station["content/photos/again.jpg"], "b.jpg");
        _station.Seal();
        Assert.Equal(
            File.ReadAllBytes(_station["content/photos/b.jpg"]), File.ReadAllBytes(_station["vault/small/data/record/photos/again.jpg"]));
        Assert.Null(new FileInfo(_station["vault/small/data/record/photos/again.jpg"]).LinkTarget);

        foreach (var end in (string[])[TestFolder.Folder + "/House.cs", "../frames", "nowhere"])
        {
            File.CreateSymbolicLink(_station["content/photos/odd"], end);
            var diagnostic = Assert.Single(Assert.IsType<SealResult.Withheld>(_station.Seal("vault/next")).Faults);
            Assert.Equal(("AF1234", "content/photos/odd"), (diagnostic.Code, diagnostic.Place.ToString()));
            File.Delete(_station["content/photos/odd"]);
        }

        Assert.Equal(["small"], Directory.GetFileSystemEntries(_station["vault"]).Select(Path.GetFileName));
    }

    [Fact]
    public void Nothing_is_left_beside_a_place_where_nothing_was_sealed()
    {
        _station.Write("content/frames/r2.yaml", "- {id: R1-01}\n");
        Assert.IsType<SealResult.Withheld>(_station.Seal());
        Assert.Empty(Directory.GetFileSystemEntries(_station["vault"]));
    }

    // A check trusts a file that looks untouched; this one is spoiled when it was looked at already.
    [Fact]
    public void A_photo_that_was_spoiled_since_it_was_checked_is_not_sealed()
    {
        var photo = _station["content/photos/b.jpg"];
        var bytes = File.ReadAllBytes(photo);
        _station.Write(
            "content/photos/p.yaml",
            $"- {{id: P-2, file: b.jpg, sha256: {Convert.ToHexStringLower(SHA256.HashData(bytes))}}}\n- {{id: P-1, file: 100% a.jpg}}\n");
        var diagnostic = Assert.Single(Assert.IsType<SealResult.Withheld>(
            _station.Seal(progress: new Once(BuildStep.Make, () => Rewrite(photo, [.. bytes[..^1], (byte)(bytes[^1] ^ 1)])))).Faults);
        Assert.Equal(("AF0703", "content/photos/p.yaml:1:34"), (diagnostic.Code, diagnostic.Place.ToString()));
        Assert.Empty(Directory.GetFileSystemEntries(_station["vault"]));

        Rewrite(photo, bytes);
        Assert.IsType<SealResult.Done>(_station.Seal());
        Assert.Equal(bytes, File.ReadAllBytes(_station["vault/small/data/record/photos/b.jpg"]));
    }

    [Fact]
    public void A_page_that_was_spoiled_since_it_was_made_is_found()
    {
        _station.Seal();
        var page = new SealedFile(
            "data/site/index.html",
            1,
            "",
            Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(_station["vault/small/data/site/index.html"]))));
        var others = File.ReadLines(_station["vault/small/data/site/site.sha256"])
            .Where(line => !line.EndsWith("  index.html", StringComparison.Ordinal))
            .ToList();
        File.WriteAllLines(_station["site.sha256"], File.ReadLines(_station["vault/small/data/site/site.sha256"]).Except(others));
        Assert.Null(RecordedChecksums.Site(_station[""], [page]));
        Assert.Equal("index.html", RecordedChecksums.Site(_station[""], [page with { Sha256 = new string('0', 64) }]));
        Assert.Equal("index.html", RecordedChecksums.Site(_station[""], []));
    }

    // The bag of withheld originals gets its name first: until the other has its own, neither counts.
    [Fact]
    public void A_kill_between_two_names_is_put_right()
    {
        using var station = new SealedStation(withHidden: true);
        Directory.CreateDirectory(station["vault"]);
        using (var work = SealingFolder.Take(station["vault/small"])!)
        {
            Directory.CreateDirectory(Path.Combine(work.Apart, "data"));
            Directory.CreateDirectory(work.Bag);
            Assert.ThrowsAny<IOException>(() =>
                work.Name([(work.Apart, station["vault/small-withheld"]), (work.Bag, station["no/such/place"])]));
            Assert.True(Directory.Exists(station["vault/small-withheld/data"]));
        }

        using (var work = SealingFolder.Take(station["vault/small"])!)
        {
            Assert.False(Directory.Exists(station["vault/small-withheld"]));
            Assert.True(Directory.Exists(Path.Combine(work.Apart, "data")));
        }

        Assert.IsType<SealResult.Done>(station.Seal(withheld: Withholding.Apart));
        Assert.True(station.Audit().IsValid);
        Assert.True(station.Audit("vault/small-withheld").IsValid);
        Assert.Equal(
            ["small", "small-withheld"],
            Directory.GetFileSystemEntries(station["vault"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_finished_bag_of_withheld_originals_is_never_changed()
    {
        using var station = new SealedStation(withHidden: true);
        station.Seal(withheld: Withholding.Apart);
        Directory.Move(station["vault/small"], station["vault/moved"]);
        Assert.Equal("AF1228", Assert.IsType<SealResult.Refused>(station.Seal(withheld: Withholding.Apart)).Why.Code);
        Assert.True(station.Audit("vault/small-withheld").IsValid);
    }

    [Fact]
    public void What_a_run_left_that_was_killed_when_all_was_done_is_cleared()
    {
        _station.Seal();
        using (var work = SealingFolder.Take(_station["vault/small"])!)
        {
            Directory.CreateDirectory(work.Bag);
            work.Name([(work.Bag, _station["vault/other"])]);
            File.WriteAllText(work.Journal, "");
        }

        Assert.Equal(
            [Path.GetFileName(SealingFolder.PathFor(_station["vault/small"])), "other", "small"],
            Directory.GetFileSystemEntries(_station["vault"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Equal("AF1228", Assert.IsType<SealResult.Refused>(_station.Seal()).Why.Code);
        Assert.Equal(
            ["other", "small"], Directory.GetFileSystemEntries(_station["vault"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_site_whose_list_a_power_cut_took_is_made_anew()
    {
        var work = SealingFolder.PathFor(_station["vault/small"]);
        _station.Write(Path.Combine(work, "site/404.html"), "");
        _station.Write(Path.Combine(work, "site/site.sha256"), "");
        Assert.IsType<SealResult.Done>(_station.Seal());
        Assert.True(_station.Audit().IsValid);
    }

    // A bag may be sealed into a folder that came with a stranger's archive: whatever lies there is not resumed, not followed, not moved.
    [Theory]
    [InlineData("bag")]
    [InlineData("site")]
    [InlineData("withheld")]
    [InlineData("journal")]
    [InlineData("lock")]
    [InlineData("naming")]
    [InlineData("")]
    public void A_strangers_sealing_folder_is_left_alone(string entry)
    {
        if (OperatingSystem.IsWindows()) return;
        _station.Write("letters/data/record/dear.txt", "dear");
        _station.Write("letter", "dear");
        var planted = _station[$"vault/.small.sealing/{entry}"].TrimEnd('/');
        Directory.CreateDirectory(Path.GetDirectoryName(planted)!);
        Plant(planted);
        Assert.IsType<SealResult.Done>(_station.Seal());
        RequireUntouched();
        Assert.True(_station.Audit().IsValid);

        // Nor by one who knows the folder's name, through a link.
        if (entry == "naming") return;
        var known = Path.Combine(SealingFolder.PathFor(_station["vault/next"]), entry).TrimEnd('/');
        Directory.CreateDirectory(Path.GetDirectoryName(known)!);
        Plant(known);
        try
        {
            _station.Seal("vault/next");
        }
        catch (IOException)
        {
        }

        RequireUntouched();
        if (Directory.Exists(_station["vault/next"])) Assert.True(_station.Audit("vault/next").IsValid);

        void Plant(string path)
        {
            if (entry == "naming") File.WriteAllText(
                path, string.Join('\0', _station["vault/none"], _station["letter"], _station["letters"], _station["vault/small"]));
            else if (entry is "journal" or "lock") File.CreateSymbolicLink(path, _station["letter"]);
            else Directory.CreateSymbolicLink(path, _station["letters"]);
        }

        void RequireUntouched()
        {
            Assert.Equal("dear", File.ReadAllText(_station["letter"]));
            Assert.Equal(
                [_station["letters/data"], _station["letters/data/record"], _station["letters/data/record/dear.txt"]],
                Directory.GetFileSystemEntries(_station["letters"], "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal));
            Assert.Equal("dear", File.ReadAllText(_station["letters/data/record/dear.txt"]));
        }
    }

    // A power cut must not leave a line whose copy it took: nothing is recorded before the disk was waited for.
    [Fact]
    public void The_journal_waits_for_the_disk()
    {
        var path = _station["journal"];
        var original = new FileInfo(_station["content/photos/b.jpg"]);
        var file = new SealedFile("data/record/photos/b.jpg", original.Length, new string('5', 128), new string('2', 64));
        var settled = 0;
        using (var journal = new SealJournal(path, () =>
        {
            settled++;
            Assert.Equal(0, new FileInfo(path).Length);
        }))
        {
            journal.Add(file, original, original.LastWriteTimeUtc.AddDays(1));
            Assert.Equal((0, 0), (settled, new FileInfo(path).Length));
            journal.WriteDown();
            journal.WriteDown();
        }

        Assert.Equal(1, settled);
        using var next = new SealJournal(path, () => { });
        Assert.Equal(file, next.Known(file.Path, original));
    }

    [Fact]
    public void What_could_not_come_to_the_disk_is_not_written_down()
    {
        var path = _station["journal"];
        var original = new FileInfo(_station["content/photos/b.jpg"]);
        using (var journal = new SealJournal(path, () => throw new IOException("lost")))
        {
            journal.Add(
                new SealedFile("data/record/photos/b.jpg", original.Length, new string('5', 128), new string('2', 64)),
                original,
                original.LastWriteTimeUtc.AddDays(1));
        }

        Assert.Equal(0, new FileInfo(path).Length);
    }

    private static void Rewrite(string path, byte[] bytes)
    {
        var written = File.GetLastWriteTimeUtc(path);
        File.WriteAllBytes(path, bytes);
        File.SetLastWriteTimeUtc(path, written);
    }

    private sealed class Once(BuildStep step, Action what) : IProgress<BuildProgress>
    {
        private int _done;

        public void Report(BuildProgress value)
        {
            if (value.Step == step && Interlocked.Exchange(ref _done, 1) == 0) what();
        }
    }
}

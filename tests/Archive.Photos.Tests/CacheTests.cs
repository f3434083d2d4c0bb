using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Photos.Processing;
using Archive.Photos.Rights;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>The laws above <c>Portfolios</c> and <c>OriginalCards</c>, one by one.</summary>
public sealed class CacheTests : Studio
{
    private static readonly PhotoRecipe Recipe =
        new() { Widths = [200, 100], Watermark = "Marrow Point", Rights = new PhotoRights(Creator: "H. Kessock") };

    public static TheoryData<string> OtherRecipes =>
        [
            "widths", "watermark", "redaction", "creator", "title", "no watermark", "regions", "licence's address"
        ];

    [Fact]
    public void A_second_run_decodes_nothing_and_gives_the_same()
    {
        var orders = Orders(5);
        var (first, decoded) = Counted(orders);
        var (second, again) = Counted(orders);

        Assert.Equal((5, 0), (decoded, again));
        Assert.Equal(first, second);
        Assert.All(first, outcome => Assert.IsType<DevelopedPhoto>(outcome));
    }

    [Fact]
    public void Derivatives_are_named_by_their_content()
    {
        var photo = (DevelopedPhoto)Counted(Orders(1)).Outcomes[0];
        Assert.All(photo.All, derivative => Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(derivative.Read())), derivative.Sha256));
        var list = string.Concat(photo.All
            .OrderBy(derivative => derivative.Path, StringComparer.Ordinal)
            .Select(derivative => $"{derivative.Sha256}  {derivative.Path}\n"));
        var digits = Convert.ToHexStringLower(SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(list)))[..32];
        Assert.Equal($"{digits[..2]}/{digits}", photo.Folder);
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(PathOf("0.jpg")))), photo.Sha256);
    }

    [Theory, MemberData(nameof(OtherRecipes))]
    public void Another_recipe_is_another_entry(string difference)
    {
        var request = Orders(1)[0];
        var before = (DevelopedPhoto)Counted([request]).Outcomes[0];
        var recipe = difference switch
        {
            "widths" => Recipe with { Widths = [200, 90] },
            "watermark" => Recipe with { Watermark = "Marrow Pt" },
            "redaction" => Recipe with { Redactions = [new FractionBox(0.2, 0.2, 0.1, 0.1)] },
            "creator" => Recipe with { Rights = new PhotoRights(Creator: "somebody else") },
            "licence's address" => Recipe with { Rights = Recipe.Rights with { LicenceAddress = "https://archive.example/licence" } },
            "title" => Recipe with { Rights = new PhotoRights(Title: "H. Kessock") },
            _ => Recipe with { Watermark = null },
        };
        var (after, decoded) = Counted([request with { Recipe = recipe }]);

        Assert.Equal(difference is "creator" or "licence's address" or "title" ? 0 : 1, decoded);
        Assert.NotEqual(before.Folder, ((DevelopedPhoto)after[0]).Folder);
        Assert.Equal(0, Counted([request]).Decoded);
    }

    // From pictures without rights to some with, and on to others; prints, WebP and tiles.
    [Fact]
    public void Other_rights_are_put_into_known_pictures_as_if_these_were_made_anew()
    {
        using var scene = Picture.Scene(2405, 380);
        var source = Source(Save(scene, "scene.jpg"));
        PhotoRights[] all = [PhotoRights.None, new("A title", "H. Kessock", "Trust", "CC-BY-4.0"), new(Credit: "Société de télégraphie")];
        foreach (var (rights, i) in all.Select((rights, i) => (rights, i)).Concat([(all[1] with { Title = "Another" }, 3)]))
        {
            PhotoRequest[] request = [new(source, new PhotoRecipe { Rights = rights })];
            var (restated, decoded) = Counted(request);
            var anew = Run(new PhotoProcessor(Path.Combine(CacheFolder, Guid.NewGuid().ToString("N"))), request);

            Assert.Equal(i == 0 ? 1 : 0, decoded);
            Assert.Contains(((DevelopedPhoto)anew[0]).All, picture => picture.Kind == DerivativeKind.LightPrint);
            Assert.Contains(((DevelopedPhoto)anew[0]).All, picture => picture.Kind == DerivativeKind.Tile);
            Assert.Equal(Names(anew), Names(restated));
            AssertNamedByContent(restated);
        }
    }

    [Fact]
    public void Known_pictures_that_were_altered_are_not_used_for_other_rights()
    {
        var request = Orders(1)[0];
        Counted([request]);
        var kept = Assert.Single(Kept);
        Flip(kept, (int)new FileInfo(kept).Length - 10);
        File.SetLastWriteTimeUtc(kept, new DateTime(2000, 1, 1, 0, 0, 0, DateTimeKind.Utc));
        var (after, decoded) = Counted([request with { Recipe = Recipe with { Rights = new PhotoRights(Creator: "somebody else") } }]);

        Assert.Equal(1, decoded);
        AssertNamedByContent(after);
    }

    [Fact]
    public void Another_original_under_the_same_name_is_developed_anew()
    {
        var request = Orders(1)[0];
        var before = Counted([request]).Outcomes[0];
        using var other = Picture.Flat(300, 200, 200, 0, 0);
        Save(other, "0.jpg");
        var (after, decoded) = Counted([request]);

        Assert.Equal(1, decoded);
        Assert.NotEqual(((DevelopedPhoto)before).Sha256, ((DevelopedPhoto)after[0]).Sha256);
    }

    [Fact]
    public void Whatever_is_lost_cut_off_or_altered_is_made_again()
    {
        var orders = Orders(2);
        var whole = Counted(orders).Outcomes;
        Action<string>[] harms =
        [
            File.Delete,
            path => File.WriteAllBytes(path, []),
            path => File.WriteAllBytes(path, File.ReadAllBytes(path)[..(int)(new FileInfo(path).Length / 2)]),
            path => File.WriteAllBytes(path, [.. File.ReadAllBytes(path).Reverse()]),
            path => Flip(path, 40),
            path => Flip(path, (int)new FileInfo(path).Length - 10),
            path => File.WriteAllText(path, "{}"),
            path => File.AppendAllText(path, " "),
            path => Flip(path, 90),
            path => Flip(path, 64),
            path => File.WriteAllText(path, new string('a', 100_000)),
        ];
        foreach (var harm in harms)
        {
            foreach (var path in Kept.ToArray()) harm(path);
            var (mended, decoded) = Counted(orders);

            Assert.Equal(2, decoded);
            Assert.Equal(whole, mended);
            AssertNamedByContent(mended);
            Assert.Equal(0, Counted(orders).Decoded);
        }
    }

    /// <summary>A list is no order to read or write elsewhere: its paths are held to their shape, even under a right checksum.</summary>
    [Theory]
    [InlineData("null"), InlineData("[]"), InlineData("{}"), InlineData(
        "{\"Measures\":null,\"Pieces\":[]}"), InlineData("PIECES []"), InlineData("PIECES [null]"), InlineData("PIECES null")]
    [InlineData("PIECES [{\"Kind\":0,\"Width\":1,\"Height\":1,\"Path\":\"../../../0.jpg\",\"Sha256\":\"SUM\",\"Bytes\":5}]")]
    [InlineData("PIECES [{\"Kind\":0,\"Width\":1,\"Height\":1,\"Path\":\"full/max/0/default.jpg\",\"Sha256\":\"x\",\"Bytes\":5}]")]
    [InlineData("PIECES [{\"Kind\":0,\"Width\":1,\"Height\":1,\"Path\":\"full/max/0/default.jpg\",\"Sha256\":\"SUM\",\"Bytes\":-5}]")]
    [InlineData("PIECES [{\"Kind\":2,\"Width\":1,\"Height\":1,\"Path\":\"full/max/0/default.jpg\",\"Sha256\":\"SUM\",\"Bytes\":5}]")]
    public void A_portfolio_of_another_shape_is_a_miss(string json)
    {
        var orders = Orders(1);
        Counted(orders);
        const string measures =
            "{\"Measures\":{\"Sharpness\":1,\"Lightness\":1,\"Dark\":0,\"Burnt\":0,\"Likeness\":{\"Across\":0,\"Down\":0}},\"Pieces\":";
        if (json.StartsWith("PIECES", StringComparison.Ordinal)) json =
            measures + json[6..].Replace("SUM", Convert.ToHexStringLower(SHA256.HashData("12345"u8)), StringComparison.Ordinal) + "}";
        var kept = Kept.Single();
        File.WriteAllText(
            kept, Convert.ToHexStringLower(SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(json))) + "\n" + json + "\n12345");

        Assert.Equal(1, Counted(orders).Decoded);
    }

    /// <summary>The test of the test: of this shape a portfolio is taken.</summary>
    [Fact]
    public void A_list_longer_than_the_first_look_is_read()
    {
        using var image = Picture.Flat(9000, 9000, 90, 120, 150);
        var request = new PhotoRequest(Source(Save(image, "wide.png")), Recipe);
        var (first, _) = Counted([request]);
        Assert.True(((DevelopedPhoto)first[0]).All.Length > 100);
        var (second, decoded) = Counted([request]);
        Assert.Equal((0, first[0]), (decoded, second[0]));
    }

    /// <summary>Copied between machines without its times: read once and compared, not made again.</summary>
    [Fact]
    public void A_copied_cache_is_used()
    {
        var orders = Orders(3);
        Counted(orders);
        foreach (var path in Kept) File.SetLastWriteTimeUtc(path, DateTime.UtcNow);

        Assert.Equal(0, Counted(orders).Decoded);
        Assert.All(Kept, path => Assert.Equal(2000, File.GetLastWriteTimeUtc(path).Year));
    }

    [Fact]
    public void Two_builds_at_once_agree_and_leave_nothing_behind()
    {
        var orders = Orders(12);
        var outcomes = new ImmutableArray<PhotoResult>[4];
        Parallel.For(0, 4, new ParallelOptions { MaxDegreeOfParallelism = 4 }, run =>
            outcomes[run] = Run(new PhotoProcessor(CacheFolder, workers: 2), orders));

        Assert.All(outcomes, outcome => Assert.Equal(outcomes[0], outcome));
        AssertNamedByContent(outcomes[0]);
        Assert.Empty(Directory.EnumerateFiles(Path.Combine(CacheFolder, "drafts")));
        Assert.Equal(0, Counted(orders).Decoded);
    }

    [Fact]
    public void Workers_folders_and_runs_make_no_difference_to_the_bytes()
    {
        var orders = Orders(6);
        var one = Run(new PhotoProcessor(PathOf("one"), workers: 1), orders);
        var two = Run(new PhotoProcessor(PathOf("two"), workers: 3), orders);

        Assert.Equal(Names(one), Names(two));
        Assert.Equal(Names(one).Distinct().Count(), Names(one).Length);
    }

    /// <summary>A card spares the reading: a file that was changed behind its size and time is mistaken for the same. That is the law, not
    /// a wish.</summary>
    [Fact]
    public void An_original_that_looks_the_same_is_not_read_again()
    {
        var request = Orders(1)[0];
        var before = Counted([request]).Outcomes;
        var time = File.GetLastWriteTimeUtc(PathOf("0.jpg"));
        Flip(PathOf("0.jpg"), 2);
        File.SetLastWriteTimeUtc(PathOf("0.jpg"), time);
        Assert.Equal(before, Counted([request]).Outcomes);

        File.SetLastWriteTimeUtc(PathOf("0.jpg"), time.AddTicks(1));
        Assert.IsType<UnusablePhoto>(Counted([request]).Outcomes[0]);
    }

    /// <summary>Within two seconds of its last change a file may change again unseen: no card is kept of it.</summary>
    [Theory, InlineData(0, false), InlineData(1.9, false), InlineData(-60, false), InlineData(2.1, true)]
    public void A_fresh_original_gets_no_card(double age, bool kept)
    {
        var request = Orders(1)[0];
        var time = new DateTime(2026, 5, 12, 10, 0, 0, DateTimeKind.Utc);
        File.SetLastWriteTimeUtc(PathOf("0.jpg"), time);
        Run(new PhotoProcessor(CacheFolder, clock: new Clock(time.AddSeconds(age))), [request]);

        Assert.Equal(kept, Directory.Exists(Path.Combine(CacheFolder, "originals")));
    }

    [Fact]
    public void A_link_is_judged_by_what_it_points_to()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "links need a privilege there");
        Orders(2);
        File.CreateSymbolicLink(PathOf("link.jpg"), PathOf("0.jpg"));
        var before = Counted([new PhotoRequest(Source("link.jpg"), Recipe)]).Outcomes[0];
        File.Copy(PathOf("1.jpg"), PathOf("0.jpg"), overwrite: true);

        Assert.NotEqual(before, Counted([new PhotoRequest(Source("link.jpg"), Recipe)]).Outcomes[0]);
    }

    [Fact]
    public void A_checksum_of_the_record_is_held_to()
    {
        var request = Orders(1)[0];
        var sha256 = ((DevelopedPhoto)Counted([request]).Outcomes[0]).Sha256;
        Assert.IsType<DevelopedPhoto>(Counted([Stating(sha256.ToUpperInvariant())]).Outcomes[0]);
        foreach (var warm in new[] { true, false })
        {
            if (!warm) Directory.Delete(CacheFolder, recursive: true);
            var spoiled = Assert.IsType<UnusablePhoto>(Counted([Stating(new string('0', 64))]).Outcomes[0]);
            Assert.Equal(PhotoError.ChecksumMismatch, spoiled.Fault);
            Assert.Contains(sha256, spoiled.Reason, StringComparison.Ordinal);
        }

        PhotoRequest Stating(string stated) => request with { Source = request.Source with { Sha256 = stated } };
    }

    [Fact]
    public void An_inspection_decodes_nothing_and_tells_what_the_header_says()
    {
        Orders(1);
        Write("bad.jpg", "no photo"u8);
        var outcomes = new PhotoProcessor(
            CacheFolder).InspectAll([Source("0.jpg"), Source("bad.jpg"), Source("none.jpg")], null, TestContext.Current.CancellationToken);

        Assert.Equal((300, 200), (Assert.IsType<InspectedPhoto>(outcomes[0]).Reading.Width, ((InspectedPhoto)outcomes[0]).Reading.Height));
        Assert.Equal(PhotoError.Unreadable, Assert.IsType<UnusablePhoto>(outcomes[1]).Fault);
        Assert.Equal(PhotoError.Missing, Assert.IsType<UnusablePhoto>(outcomes[2]).Fault);
        Assert.False(Directory.Exists(Path.Combine(CacheFolder, "portfolios")));
    }

    [Fact]
    public void A_stopped_run_says_so_and_what_was_made_is_kept()
    {
        var orders = Orders(8);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        Assert.ThrowsAny<OperationCanceledException>(() =>
            new PhotoProcessor(CacheFolder, workers: 1).DevelopAll(orders, new Stopper(stop, after: 3), stop.Token));

        Assert.InRange(Counted(orders).Decoded, 1, 5);
    }

    [Fact]
    public void A_folder_that_cannot_be_written_is_no_photo_s_fault()
    {
        File.WriteAllText(PathOf("file"), "");
        Assert.ThrowsAny<IOException>(() => Run(new PhotoProcessor(PathOf("file")), Orders(2)));
    }

    [Fact]
    public void Drafts_of_a_killed_run_are_swept_and_those_of_a_living_one_left()
    {
        var drafts = Directory.CreateDirectory(Path.Combine(CacheFolder, "drafts")).FullName;
        File.WriteAllText(Path.Combine(drafts, "left"), "");
        _ = new PhotoProcessor(CacheFolder);
        Assert.Single(Directory.EnumerateFiles(drafts));
        _ = new PhotoProcessor(CacheFolder, clock: new Clock(DateTime.UtcNow.AddDays(2)));
        Assert.Empty(Directory.EnumerateFiles(drafts));
    }

    /// <summary>
    /// Whatever time a file is to bear in its place, its draft looks as young as it is: other runs sweep while this one writes.
    /// </summary>
    [Fact]
    public async Task Drafts_in_hand_are_not_swept()
    {
        var orders = Orders(24);
        var run = Task.Run(() => Run(new PhotoProcessor(CacheFolder, workers: 2), orders), TestContext.Current.CancellationToken);
        while (!run.IsCompleted) _ = new PhotoProcessor(CacheFolder);

        Assert.All(await run, outcome => Assert.IsType<DevelopedPhoto>(outcome));
    }

    /// <summary>The library's version is part of every key: another may make other bytes.</summary>
    [Fact]
    public void The_process_names_the_library_it_is() => Assert.Contains(
        string.Create(
            CultureInfo.InvariantCulture,
            $"libvips {NetVips.NetVips.Version(0)}.{NetVips.NetVips.Version(1)}.{NetVips.NetVips.Version(2)},"),
        PhotoRecipe.Process, StringComparison.Ordinal);

    /// <summary>Recipes whose parts run together to the same letters are still different.</summary>
    [Fact]
    public void Keys_do_not_run_together()
    {
        var sha256 = new string('a', 64);
        PhotoRecipe[] recipes =
        [
            new(),
                new() { Watermark = "2:ab" },
                new() { Watermark = "ab" },
                new() { Rights = new PhotoRights("ab", "c") },
                new() { Rights = new PhotoRights("a", "bc") },
                new() { Rights = new PhotoRights(null, "abc") },
                new() { Widths = [2400, 1280] },
                new() { Redactions = [new FractionBox(0, 0, 1, 1)] },
                new() { Redactions = [new FractionBox(0, 0, 1, 1), new FractionBox(0, 0, 1, 1)] },
            ];
        Assert.Equal(recipes.Length, recipes.Select(recipe => recipe.KeyFor(sha256)).Distinct().Count());
        Assert.Equal(new PhotoRecipe().KeyFor(sha256), new PhotoRecipe { Watermark = " \n" }.KeyFor(sha256));
        Assert.Equal(new PhotoRecipe { Watermark = "ab" }.KeyFor(sha256), new PhotoRecipe { Watermark = "  ab " }.KeyFor(sha256));
        Assert.Equal(new PhotoRecipe().KeyFor(sha256), new PhotoRecipe { Widths = [480, 1280, 2400, 480] }.KeyFor(sha256));
    }

    private (ImmutableArray<PhotoResult> Outcomes, int Decoded) Counted(IReadOnlyList<PhotoRequest> orders)
    {
        var tally = new Tally();
        var outcomes = Run(new PhotoProcessor(CacheFolder, workers: 2), orders, tally);
        return (outcomes, tally.Decoded);
    }

    /// <summary>Originals that differ, last changed an hour ago.</summary>
    private PhotoRequest[] Orders(int count) =>
    [
        .. Enumerable.Range(0, count).Select(i =>
        {
            using var scene = Picture.Scene(300, 200 + i);
            var name = Save(scene, $"{i}.jpg");
            File.SetLastWriteTimeUtc(PathOf(name), DateTime.UtcNow.AddHours(-1));
            return new PhotoRequest(Source(name), Recipe);
        }),
    ];

    private static string[] Names(ImmutableArray<PhotoResult> outcomes) =>
        [.. outcomes.Cast<DevelopedPhoto>().SelectMany(photo => photo.All).Select(derivative => derivative.Sha256)];

    private static void AssertNamedByContent(ImmutableArray<PhotoResult> outcomes) =>
        Assert.All(outcomes.Cast<DevelopedPhoto>().SelectMany(photo => photo.All),
            derivative => Assert.Equal(derivative.Sha256, Convert.ToHexStringLower(SHA256.HashData(derivative.Read()))));

    private IEnumerable<string> Kept => Directory.EnumerateFiles(CacheFolder, "*.portfolio", SearchOption.AllDirectories);

    private static void Flip(string path, int at)
    {
        var bytes = File.ReadAllBytes(path);
        bytes[Math.Clamp(at, 0, bytes.Length - 1)] ^= 1;
        File.WriteAllBytes(path, bytes);
    }

    private sealed class Clock(DateTime now) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => new(now);
    }

    private sealed class Stopper(CancellationTokenSource stop, int after) : IProgress<PhotoProgress>
    {
        public void Report(PhotoProgress value)
        {
            if (value.Done >= after) stop.Cancel();
        }
    }
}

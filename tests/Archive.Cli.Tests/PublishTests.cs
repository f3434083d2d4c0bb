using System.Diagnostics;
using System.Text.RegularExpressions;
using Archive.Publishing.Building;
using Archive.Publishing.Caching;
using Archive.Publishing.Requests;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class PublishTests : IDisposable
{
    private readonly Asfound _archive = new();

    public void Dispose() => _archive.Dispose();

    [Fact]
    public async Task A_clean_record_is_published_and_verifies()
    {
        var run = await _archive.Run("publish");
        Assert.Equal((0, ""), (run.Code, run.Out));
        Assert.Matches(
            @"\A2 frames, 1 cable, no photos: no errors, no warnings\.\nPublished to .*site: \d+ files, \d+ written, 0 removed\. \(\d+\.\d s\)\n\z",
            run.Error);
        Assert.Contains("Small station", File.ReadAllText(_archive["site/index.html"]), StringComparison.Ordinal);
        Assert.Contains("Receiver one", File.ReadAllText(_archive["site/frames/R1-01/index.html"]), StringComparison.Ordinal);
        Assert.True(SiteVerdict.Of(_archive["site"]).IsWhole);
    }

    [Fact]
    public async Task Rebuild_uses_nothing_that_was_kept_and_gives_the_same_site()
    {
        Assert.Equal(0, (await _archive.Run("publish")).Code);
        var before = await File.ReadAllTextAsync(_archive["site/site.sha256"], TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(Path.Combine(_archive.Cache, "left"), "", TestContext.Current.CancellationToken);
        var again = await _archive.Run("publish", "--rebuild");
        Assert.Equal(0, again.Code);
        Assert.DoesNotContain("Nothing changed", again.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(_archive.Cache, "left")));
        Assert.Equal(before, await File.ReadAllTextAsync(_archive["site/site.sha256"], TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Nothing_changed_nothing_written_and_what_was_told_is_told_again()
    {
        _archive.Write("content/frames/r2.yaml", "- {id: R2-01, name: Renamed, was: [R2-00]}\n");
        _archive.Write("content/displays/d.yaml", "- {id: show, name: Show, needs: [R2-00]}\n");
        var first = await _archive.Run("publish");
        Assert.Contains("warning AF0404", first.Out, StringComparison.Ordinal);
        var before = SiteVerdict.Marks(_archive["site"]);
        var second = await _archive.Run("publish");
        Assert.Equal((first.Code, first.Out), (second.Code, second.Out));
        Assert.Contains("Nothing changed", second.Error, StringComparison.Ordinal);
        Assert.Equal(before, SiteVerdict.Marks(_archive["site"]));
        Assert.Equal((await _archive.Run("publish", "--format", "sarif")).Out, (await _archive.Run("check", "--format", "sarif")).Out);
    }

    [Fact]
    public void From_another_working_folder_nothing_changed_and_places_lead_from_there()
    {
        _archive.Write("content/frames/r2.yaml", "- {id: R2-01, name: Renamed, was: [R2-00]}\n");
        _archive.Write("content/displays/d.yaml", "- {id: show, name: Show, needs: [R2-00]}\n");
        var first = Publish("content/");
        var second = Publish("../a/content/");
        Assert.IsType<BuildStatus.Published>(first.Status);
        Assert.IsType<BuildStatus.Unchanged>(second.Status);
        Assert.Equal(["content/displays/d.yaml:1:34", "content/frames/r2.yaml:1:36"], Places(first));
        Assert.Equal(["../a/content/displays/d.yaml:1:34", "../a/content/frames/r2.yaml:1:36"], Places(second));

        BuildResult Publish(string prefix) => SiteBuild.Publish(
            new BuildOptions(
                _archive["content"],
                prefix,
                CacheFolder.Open(null, _archive["content"]),
                [Path.Combine(AppContext.BaseDirectory, "themes")]),
            _archive["site"], "site", null, TestContext.Current.CancellationToken);

        static IEnumerable<string> Places(BuildResult outcome) => outcome.Diagnostics
            .SelectMany(diagnostic => diagnostic.Related.Select(other => other.Place).Prepend(diagnostic.Place))
            .Select(place => place.ToString());
    }

    /// <summary>
    /// Pages name a record's file and id but no line, so that a comment does not write every page of the file again; <c>find</c> gives the
    /// line.
    /// </summary>
    [Fact]
    public async Task A_comment_in_a_record_changes_no_page_and_find_gives_the_new_line()
    {
        _archive.Write("content/displays/d.yaml", "- {id: show, name: Show, needs: [{any: 3, of: [R1-01, R1-02]}]}\n");
        await _archive.Run("publish", "--with-errors");
        var before = Pages();
        Assert.Contains("<code>frames/r1.yaml</code>", before["frames/R1-02/index.html"], StringComparison.Ordinal);
        Assert.Contains("<code>displays/d.yaml</code>", before["plans/working-sets/index.html"], StringComparison.Ordinal);
        Assert.Contains("frames/r1.yaml:2: R1-02", (await _archive.Run("find", "R1-02")).Out, StringComparison.Ordinal);

        foreach (var file in Directory.GetFiles(_archive["content"], "*.yaml", SearchOption.AllDirectories))
            File.WriteAllText(file, "# a comment\n" + File.ReadAllText(file));
        await _archive.Run("publish", "--with-errors");
        Assert.Equal(before, Pages());
        Assert.Contains("frames/r1.yaml:3: R1-02", (await _archive.Run("find", "R1-02")).Out, StringComparison.Ordinal);

        Dictionary<string, string> Pages() =>
            Directory.GetFiles(_archive["site"], "*.html", SearchOption.AllDirectories).Order(StringComparer.Ordinal)
                .ToDictionary(
                    file => Path.GetRelativePath(_archive["site"], file).Replace('\\', '/'), File.ReadAllText, StringComparer.Ordinal);
    }

    [Fact]
    public async Task A_change_writes_the_pages_it_shows_on_and_leaves_the_others()
    {
        await _archive.Run("publish");
        var before = SiteVerdict.Marks(_archive["site"]);
        _archive.Write(
            "content/frames/r1.yaml",
            "- {id: R1-01, name: Receiver one, weight: 310 kg, about: Painted grey.}\n- {id: R1-02, name: Receiver two}\n");
        await _archive.Run("publish");
        var after = SiteVerdict.Marks(_archive["site"]);
        var written =
            after.Where(file => !before.TryGetValue(file.Key, out var mark) || mark != file.Value).Select(file => file.Key).ToList();
        Assert.Contains("frames/R1-01/index.html", written);
        Assert.DoesNotContain("cables/C-1/index.html", written);
        Assert.DoesNotContain("frames/R1-02/index.html", written);
        Assert.Contains("Painted grey", File.ReadAllText(_archive["site/frames/R1-01/index.html"]), StringComparison.Ordinal);
        Assert.True(SiteVerdict.Of(_archive["site"]).IsWhole);
    }

    [Fact]
    public async Task An_incremental_site_equals_one_built_from_nothing()
    {
        await _archive.Run("publish");
        _archive.Write(
            "content/frames/r1.yaml",
            "- {id: R1-02, name: Receiver second}\n- {id: R1-01, name: Receiver one}\n- {id: R1-03, name: Three}\n");
        await _archive.Run("publish");
        await Asfound.Typed("publish", "--content", _archive["content"], "--site", _archive["fresh"], "--cache", _archive["fresh-cache"]);
        Assert.Equal(File.ReadAllText(_archive["fresh/site.sha256"]), File.ReadAllText(_archive["site/site.sha256"]));
    }

    [Fact]
    public async Task Two_checkouts_give_the_same_bytes()
    {
        using var other = new Asfound();
        foreach (var file in Directory.GetFiles(other["content"], "*", SearchOption.AllDirectories))
            File.SetLastWriteTimeUtc(file, new DateTime(1999, 1, 1, 0, 0, 0, DateTimeKind.Utc));
        await _archive.Run("publish");
        await other.Run("publish");
        Assert.Equal(File.ReadAllText(_archive["site/site.sha256"]), File.ReadAllText(other["site/site.sha256"]));
        Assert.True(SiteVerdict.Of(other["site"]).IsWhole);
    }

    [Fact]
    public async Task While_the_record_has_errors_nothing_is_published()
    {
        _archive.Write("content/frames/bad.yaml", "- {id: R2-01, name: Receiver, weight: 310}\n");
        var run = await _archive.Run("publish");
        Assert.Equal(1, run.Code);
        Assert.Contains("AF0204", run.Out, StringComparison.Ordinal);
        Assert.Contains("Nothing was published", run.Error, StringComparison.Ordinal);
        Assert.False(Path.Exists(_archive["site"]));
    }

    [Fact]
    public async Task An_error_leaves_the_published_site_and_its_mend_is_published()
    {
        await _archive.Run("publish");
        var before = SiteVerdict.Marks(_archive["site"]);
        _archive.Write("content/frames/bad.yaml", "- {id: R2-01, name: Receiver, weight: 310}\n");
        Assert.Equal(1, (await _archive.Run("publish")).Code);
        Assert.Equal(before, SiteVerdict.Marks(_archive["site"]));
        _archive.Write("content/frames/bad.yaml", "- {id: R2-01, name: Receiver, weight: 310 kg}\n");
        Assert.Equal(0, (await _archive.Run("publish")).Code);
        Assert.True(File.Exists(_archive["site/frames/R2-01/index.html"]));
    }

    [Theory]
    [InlineData("{at: R9-99/S1/J1}, {at: R9-98}", "lies_over: [C-99], lies_in: [T-99], fate: coil, coil_to: R9-99")]
    [InlineData("{at: GONE/S1/J1}, {at: R9-98}", "lies_over: [LOST], fate: remove")]
    public async Task With_errors_a_cable_may_lead_anywhere(string ends, string rest)
    {
        _archive.Write("content/frames/gone.yaml", "- {id: GONE, withdrawn: never was}\n");
        _archive.Write("content/cables/lost.yaml", $"- {{id: LOST, kind: k-99, ends: [{ends}], {rest}}}\n");
        _archive.Write("content/displays/d.yaml", "- {id: d, needs: [R9-99, GONE, {any: 3, of: [R9-98]}]}\n");
        _archive.Write("content/photos/p.yaml", "- {id: P-9, file: none.jpg, shows: [R9-99, GONE, LOST]}\n");
        _archive.Write("content/events/e.yaml", "- {id: E-9, on: 2030-01-01, what: arrived, of: [R9-99, LOST], to: {hall: h-99}}\n");
        var run = await _archive.Run("publish", "--with-errors");
        Assert.Equal(1, run.Code);
        Assert.True(SiteVerdict.Of(_archive["site"]).IsWhole);
    }

    [Fact]
    public async Task With_errors_it_is_published_and_its_pages_say_so()
    {
        _archive.Write("content/frames/bad.yaml", "- {id: R2-01, name: Receiver, weight: 310}\n");
        var run = await _archive.Run("publish", "--with-errors");
        Assert.Equal(1, run.Code);
        Assert.Matches("1 error", File.ReadAllText(_archive["site/index.html"]));
        Assert.Matches("1 error", File.ReadAllText(_archive["site/cables/C-1/index.html"]));
        Assert.True(SiteVerdict.Of(_archive["site"]).IsWhole);

        // Another option, another site: not taken for unchanged.
        Assert.Contains("Nothing was published", (await _archive.Run("publish")).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_page_changed_by_hand_is_replaced_only_when_that_is_asked_for()
    {
        await _archive.Run("publish");
        File.AppendAllText(_archive["site/index.html"], "scribble");
        var refused = await _archive.Run("publish");
        Assert.Equal(3, refused.Code);
        Assert.Contains("error AF1106: index.html in ", refused.Error, StringComparison.Ordinal);
        Assert.EndsWith("scribble", File.ReadAllText(_archive["site/index.html"]), StringComparison.Ordinal);
        Assert.Contains("1 written", (await _archive.Run("publish", "--replace")).Error, StringComparison.Ordinal);
        Assert.True(SiteVerdict.Of(_archive["site"]).IsWhole);
    }

    [Fact]
    public async Task A_lost_or_broken_cache_costs_time_and_changes_nothing()
    {
        await _archive.Run("publish");
        var before = SiteVerdict.Marks(_archive["site"]);
        Directory.Delete(_archive[".asfound"], recursive: true);
        Assert.Contains(", 0 written", (await _archive.Run("publish")).Error, StringComparison.Ordinal);
        foreach (var file in Directory.GetFiles(_archive[".asfound"], "*", SearchOption.AllDirectories))
            File.WriteAllBytes(file, [.. File.ReadAllBytes(file).Take(40).Reverse()]);
        Assert.Contains(", 0 written", (await _archive.Run("publish")).Error, StringComparison.Ordinal);
        Assert.Equal(before, SiteVerdict.Marks(_archive["site"]));
    }

    [Fact]
    public async Task A_strangers_folder_is_refused_with_3()
    {
        _archive.Write("site/letters.txt", "dear");
        var run = await _archive.Run("publish");
        Assert.Equal(3, run.Code);
        Assert.Contains("error AF1101: ", run.Error, StringComparison.Ordinal);
        Assert.Equal("dear", File.ReadAllText(_archive["site/letters.txt"]));
        Assert.Single(Directory.GetFileSystemEntries(_archive["site"]));
    }

    [Fact]
    public async Task A_site_within_the_archive_or_around_it_is_refused_with_2()
    {
        Assert.Equal(2, (await Asfound.Typed("publish", "--content", _archive["content"], "--site", _archive["content/site"])).Code);
        Assert.Equal(2, (await Asfound.Typed("publish", "--content", _archive["content"], "--site", _archive[""])).Code);
        Assert.Equal(2, (await Asfound.Typed("publish", "--content", _archive["content"], "--site", _archive["content"])).Code);
    }

    [Fact]
    public async Task Places_that_cannot_be_meant_are_refused_with_2()
    {
        _archive.Write("file", "");
        Directory.CreateSymbolicLink(_archive["gone"], _archive["nowhere"]);
        Directory.CreateSymbolicLink(_archive["way"], _archive["content"]);
        foreach (var (site, told) in ((string, string)[])[
            ("/", "the site cannot be /, the top folder of a disk"),
            ("", "--site is empty"),
            (_archive["gone"], $"{_archive["gone"]} is a link to {_archive["nowhere"]}, which does not exist"),
            (_archive["way/site"], "would be inside the archive"),
            (_archive["content/.."], "would contain the archive")])
        {
            await RequireRefused(told, "publish", "--content", _archive["content"], "--site", site);
        }

        foreach (var (cache, told) in ((string, string)[])[
            (_archive["content"], "would be inside the archive"),
            (_archive["content/x"], "would be inside the archive"),
            (_archive["way/x"], "would be inside the archive"),
            ("", "--cache is empty"),
            (_archive["file"], "file is a file, not a folder"),
            (_archive["site/x"], "would be inside the site")
        ])
        {
            await RequireRefused(told, "publish", "--content", _archive["content"], "--site", _archive["site"], "--cache", cache);
        }

        await RequireRefused("--content is empty", "check", "--content", "");
        await RequireRefused("--themes is empty", "check", "--content", _archive["content"], "--themes", "");
        await RequireRefused("PATH is empty", "audit", "");
        await RequireRefused("--to is empty", "seal", "--content", _archive["content"], "--to", "");
        Assert.False(Path.Exists(_archive["site"]));
        Assert.False(Path.Exists(_archive["content/x"]));

        static async Task RequireRefused(string told, params string[] typed)
        {
            var run = await Asfound.Typed(typed);
            Assert.Equal((2, ""), (run.Code, run.Out));
            Assert.Contains(told, run.Error, StringComparison.Ordinal);
            Assert.DoesNotContain("asfound itself", run.Error, StringComparison.Ordinal);
        }
    }

    // git carries links: one that came with the archive may lead to whatever its author likes, another site of the user's for example.
    [Fact]
    public async Task A_link_beside_the_archive_does_not_lead_out()
    {
        using var mine = new Asfound();
        await mine.Run("publish");
        var before = SiteVerdict.Marks(mine["site"]);
        Directory.CreateSymbolicLink(_archive["site-output"], mine["site"]);
        Directory.CreateSymbolicLink(_archive["led"], mine[""]);
        foreach (var site in (string[])["site-output", "led/site", "led/new"])
        {
            var run = await Asfound.Typed("publish", "--content", _archive["content"], "--site", _archive[site]);
            Assert.Equal(2, run.Code);
            Assert.Contains("is behind a link to ", run.Error, StringComparison.Ordinal);
        }

        Assert.Equal(2, (await Asfound.Typed("seal", "--content", _archive["content"], "--to", _archive["led/bag"])).Code);
        Assert.Equal(2, (await Asfound.Typed("labels", "--content", _archive["content"], "--svg", _archive["led/labels"])).Code);
        Assert.Equal(0, (await Asfound.Typed("check", "--content", _archive["content"])).Code);
        Assert.Equal(before, SiteVerdict.Marks(mine["site"]));
        Assert.Equal(
            [".asfound", "content", "site"],
            Directory.GetFileSystemEntries(mine[""]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("themes", "themes")]
    [InlineData("themes/ledger", "themes/ledger")]
    [InlineData("themes/ledger/assets", "themes/ledger/assets")]
    [InlineData("themes/ledger/templates", "themes/ledger/templates")]
    [InlineData("themes/ledger/assets/ledger.css", "themes/ledger/assets/ledger.css")]
    [InlineData("themes/ledger/templates/cable.html", "themes/ledger/templates/cable.html")]
    [InlineData("themes/ledger/assets/more", "themes/ledger/assets/more")]
    public async Task No_link_in_a_theme_is_followed(string link, string place)
    {
        CopyTheme();
        await _archive.Run("publish");
        Directory.CreateDirectory(_archive["moved"]);
        if (Path.Exists(_archive[link])) Directory.Move(_archive[link], _archive["moved/it"]);
        else _archive.Write("moved/it/secret.txt", "secret");
        Directory.CreateSymbolicLink(_archive[link], _archive["moved/it"]);
        var before = SiteVerdict.Marks(_archive["site"]);
        var run = await _archive.Run("publish");
        Assert.Equal(1, run.Code);
        Assert.Contains($"{place}: error AF1005: ", run.Out, StringComparison.Ordinal);
        Assert.Equal(before, SiteVerdict.Marks(_archive["site"]));
        Assert.False(Path.Exists(_archive["site/assets/more"]));
    }

    [Theory]
    [InlineData("assets/pipe.css")]
    [InlineData("templates/cable.html")]
    [InlineData("assets/fonts/deep/pipe")]
    public async Task A_pipe_in_a_theme_is_not_waited_for(string path)
    {
        if (!OperatingSystem.IsLinux()) return;
        CopyTheme();
        var pipe = _archive["themes/ledger/" + path];
        Directory.CreateDirectory(Path.GetDirectoryName(pipe)!);
        File.Delete(pipe);
        using (var made = Process.Start("mkfifo", [pipe])) made.WaitForExit();
        var run = await _archive.Run("publish").WaitAsync(TimeSpan.FromMinutes(5), TestContext.Current.CancellationToken);
        Assert.Equal(1, run.Code);
        Assert.Contains($"themes/ledger/{path}: error AF1006: this is a named pipe, not a file", run.Out, StringComparison.Ordinal);
        Assert.False(Path.Exists(_archive["site"]));
    }

    [Fact]
    public async Task A_cache_that_cannot_be_made_is_told_with_3()
    {
        _archive.Write("a-file", "");
        var run = await _archive.Run("publish", "--cache", _archive["a-file/cache"]);
        Assert.Equal(3, run.Code);
        Assert.DoesNotMatch(new Regex(@"^   at ", RegexOptions.Multiline), run.Error);
    }

    [Fact]
    public async Task A_fault_of_a_template_is_told_at_its_place_and_nothing_is_published()
    {
        CopyTheme();
        File.AppendAllText(_archive["themes/ledger/templates/cable.html"], "{{ page.no_such_thing.at_all }}\n");
        var run = await _archive.Run("publish");
        Assert.Equal(1, run.Code);
        Assert.Matches(@"themes/ledger/templates/cable\.html:\d+:\d+: error AF1003: ", run.Out);
        Assert.DoesNotContain("content/themes", run.Out, StringComparison.Ordinal);
        Assert.False(Path.Exists(_archive["site"]));
    }

    [Fact]
    public async Task A_theme_that_does_not_exist_is_told_at_the_record()
    {
        _archive.Write("content/archive.yaml", "title: Small station\ntheme: legder\n");
        var run = await _archive.Run("check");
        Assert.Equal(1, run.Code);
        Assert.Matches(@"content/archive\.yaml:2:8: error AF1001: [^\n]*\n[^\n]*\n[^\n]*\n  help: did you mean `ledger`", run.Out);
    }

    private void CopyTheme()
    {
        var from = Path.Combine(AppContext.BaseDirectory, "themes");
        foreach (var file in Directory.GetFiles(from, "*", SearchOption.AllDirectories))
        {
            var to = _archive[Path.Combine("themes", Path.GetRelativePath(from, file))];
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(file, to);
        }
    }
}

using System.Collections.Immutable;
using System.Diagnostics;
using System.Security.Cryptography;
using System.Text;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Publishing.Publication;
using Archive.Storage.Output;
using Xunit;

namespace Archive.Publishing.Tests.Publication;

public sealed class PublisherTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private string Site => _folder["site"];

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_first_publication_writes_every_file_and_a_manifest_that_sha256sum_verifies()
    {
        var done = Done(Publish(("index.html", "home"), ("cables/C-1/index.html", "one"), ("data/a b.json", "{}")));
        Assert.Equal(4, done.Written);
        Assert.Equal("home", Read("index.html"));
        Assert.Equal(["cables/C-1/index.html", "data/a b.json", "index.html"], ManifestPaths());
        Assert.True(Verifies());
        Assert.Equal(["site"], Entries(_folder.Root));
    }

    [Fact]
    public void What_did_not_change_keeps_its_file_and_only_the_rest_is_written()
    {
        var first = Done(Publish(("index.html", "home"), ("a/index.html", "a"), ("b/index.html", "b")));
        var before = Times();
        UntilTheDisksClockMoves();
        var second = Done(Publish(first.Files, ("index.html", "home"), ("a/index.html", "A"), ("c/index.html", "c")));
        var after = Times();
        Assert.Equal(3, second.Written); // a, c and the manifest
        Assert.Equal(1, second.Removed);
        Assert.Equal(before["index.html"], after["index.html"]);
        Assert.NotEqual(before["a/index.html"], after["a/index.html"]);
        Assert.False(Path.Exists(_folder["site/b"]));
        Assert.True(Verifies());
    }

    [Fact]
    public void A_streamed_file_is_written_as_it_is_made_and_keeps_its_file_while_it_does_not_change()
    {
        var first = Done(All([], "a", "home"));
        var before = Times();
        UntilTheDisksClockMoves();
        var second = Done(All(first.Files, "a", "Home"));
        Assert.Equal(2, second.Written); // the page and the manifest
        Assert.Equal(before["data/all.json"], Times()["data/all.json"]);
        Assert.True(Verifies());
        Assert.Equal(3, Done(All(second.Files, "b", "home")).Written);
        Assert.Equal("bbb", Read("data/all.json"));
        Assert.Equal(["all.json"], Entries(_folder["site/data"]));

        PublicationResult All(ImmutableArray<PublishedFile> recorded, string letter, string home) =>
            new Publisher(Site, "site").Publish(
                [Streamed(letter), Page("index.html", home)], recorded, cancellation: TestContext.Current.CancellationToken);

        static StreamedFile Streamed(string letter) => new("data/all.json", stream =>
        {
            for (var i = 0; i < 3; i++) stream.Write(Encoding.UTF8.GetBytes(letter));
        });
    }

    [Fact]
    public void Without_a_record_of_the_last_publication_the_standing_bytes_decide()
    {
        Done(Publish(("index.html", "home"), ("a/index.html", "a")));
        File.WriteAllText(_folder["site/a/index.html"], "x");
        var second = Done(Replace(("index.html", "home"), ("a/index.html", "a")));
        Assert.Equal(1, second.Written);
        Assert.Equal("a", Read("a/index.html"));
        Assert.True(Verifies());
    }

    [Fact]
    public void A_file_that_was_touched_since_is_seen()
    {
        var first = Done(Publish(("index.html", "home"), ("a/index.html", "a")));
        Assert.True(new Publisher(Site, "site").IsUnchanged(first.Files));
        File.WriteAllText(_folder["site/a/index.html"], "x");
        Assert.False(new Publisher(Site, "site").IsUnchanged(first.Files));
        var why = Refused(Publish(first.Files, ("index.html", "home"), ("a/index.html", "a")));
        Assert.Equal("AF1106", why.Code);
        Assert.Contains("a/index.html", why.Message, StringComparison.Ordinal);
        Assert.Equal("x", Read("a/index.html"));
        Done(Replace(("index.html", "home"), ("a/index.html", "a")));
        Assert.Equal("a", Read("a/index.html"));
    }

    // A list alone makes no site: it could name the files of anyone.
    [Fact]
    public void A_folder_whose_checksums_do_not_match_is_no_site()
    {
        Directory.CreateDirectory(Site);
        File.WriteAllText(_folder["site/letter.txt"], "dear");
        File.WriteAllText(_folder["site/site.sha256"], $"{new string('0', 64)}  letter.txt\n");
        Assert.Equal("AF1106", Refused(Publish(("index.html", "home"))).Code);
        Assert.Equal("dear", Read("letter.txt"));
        File.WriteAllText(_folder["site/site.sha256"], $"{new string('0', 64)}  letter.txt\n{new string('1', 64)}  letter.txt\n");
        Assert.Equal("AF1101", Refused(Replace(("index.html", "home"))).Code);
        Assert.Equal("dear", Read("letter.txt"));
    }

    [Fact]
    public void A_site_that_lost_a_file_is_made_whole()
    {
        Done(Publish(("index.html", "home"), ("a/index.html", "a")));
        File.Delete(_folder["site/a/index.html"]);
        Done(Publish(("index.html", "home"), ("a/index.html", "a")));
        Assert.True(Verifies());
    }

    [Theory]
    [InlineData("index.html")]
    [InlineData("site.sha256")]
    public async Task A_pipe_in_the_site_is_not_waited_for(string name)
    {
        if (OperatingSystem.IsWindows()) return;
        Done(Publish(("index.html", "home")));
        File.Delete(Path.Combine(Site, name));
        if (name == "index.html")
            File.WriteAllText(_folder["site/site.sha256"], $"{Convert.ToHexStringLower(SHA256.HashData([]))}  index.html\n");
        Run("mkfifo", Path.Combine(Site, name));
        var outcome = await Task.Run(() => Replace(("index.html", "home")))
            .WaitAsync(TimeSpan.FromMinutes(5), TestContext.Current.CancellationToken);
        Assert.Equal(name == "index.html" ? "AF1102" : "AF1101", Refused(outcome).Code);
    }

    [Fact]
    public void A_missing_file_and_an_added_one_are_seen()
    {
        var first = Done(Publish(("index.html", "home"), ("a/index.html", "a")));
        File.WriteAllText(_folder["site/a/more.html"], "x");
        Assert.False(new Publisher(Site, "site").IsUnchanged(first.Files));
        File.Delete(_folder["site/a/more.html"]);
        Assert.True(new Publisher(Site, "site").IsUnchanged(first.Files));
        File.Delete(_folder["site/a/index.html"]);
        Assert.False(new Publisher(Site, "site").IsUnchanged(first.Files));
    }

    [Fact]
    public void A_strangers_folder_is_refused_and_left_alone()
    {
        Directory.CreateDirectory(Site);
        File.WriteAllText(_folder["site/letter.txt"], "dear");
        Assert.Equal("AF1101", Refused(Publish(("index.html", "home"))).Code);
        Assert.Equal(["letter.txt"], Entries(Site));
        File.WriteAllText(_folder["site/site.sha256"], "not a manifest\n");
        Assert.Equal("AF1101", Refused(Publish(("index.html", "home"))).Code);
        Assert.Equal(["letter.txt", "site.sha256"], Entries(Site));
    }

    [Fact]
    public void A_strangers_file_in_our_site_is_refused_and_named()
    {
        Done(Publish(("index.html", "home")));
        File.WriteAllText(_folder["site/CNAME"], "archive.example");
        var why = Refused(Publish(("index.html", "new")));
        Assert.Equal("AF1102", why.Code);
        Assert.Contains("CNAME", why.Message, StringComparison.Ordinal);
        Assert.Equal("home", Read("index.html"));
    }

    [Fact]
    public void A_link_in_the_site_is_a_stranger_and_what_it_leads_to_is_left_alone()
    {
        Done(Publish(("index.html", "home")));
        Directory.CreateDirectory(_folder["elsewhere/deep"]);
        File.WriteAllText(_folder["elsewhere/deep/letter.txt"], "dear");
        Directory.CreateSymbolicLink(_folder["site/linked"], _folder["elsewhere"]);
        Assert.Equal("AF1102", Refused(Publish(("index.html", "new"))).Code);
        Assert.Equal("dear", File.ReadAllText(_folder["elsewhere/deep/letter.txt"]));
    }

    [Fact]
    public void The_owners_dot_entries_stay()
    {
        Directory.CreateDirectory(_folder["site/.git/objects"]);
        File.WriteAllText(_folder["site/.git/HEAD"], "ref");
        File.WriteAllText(_folder["site/.gitignore"], "*");
        Done(Publish(("index.html", "home")));
        Done(Publish(("index.html", "again")));
        Assert.Equal("ref", Read(".git/HEAD"));
        Assert.Equal("*", Read(".gitignore"));
        Assert.Equal([".git", ".gitignore", "index.html", "site.sha256"], Entries(Site));
    }

    // The process dies after a number of steps: the lock ends with it, nothing is put away.
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void The_owners_folders_are_there_after_a_kill_at_any_step_of_the_exchange(int steps)
    {
        Done(Publish(("index.html", "home")));
        Directory.CreateDirectory(_folder["site/.git/objects"]);
        Directory.CreateDirectory(_folder["site/.well-known"]);
        File.WriteAllText(_folder["site/.git/HEAD"], "ref");
        File.WriteAllText(_folder["site/.git/objects/a"], "object");
        File.CreateSymbolicLink(_folder["site/.git/link"], "objects/a");
        File.WriteAllText(_folder["site/.well-known/security.txt"], "contact");
        File.WriteAllText(_folder["site/.htaccess"], "deny");

        string[] done = [];
        using var cache = new TemporaryFolder();
        using (var work = WorkFolder.Take(Site)!)
        {
            Directory.CreateDirectory(work.Next);
            File.WriteAllText(Path.Combine(work.Next, "index.html"), "new");
            File.WriteAllText(
                Path.Combine(work.Next, "site.sha256"), $"{Convert.ToHexStringLower(SHA256.HashData("new"u8))}  index.html\n");
            done = [.. work.Exchange(new SpareTree(cache["spare-1"], work.Next), []).Take(steps)];
            RequireOwners();
        }

        Assert.Equal(steps, done.Length);
        Assert.Equal(steps < 2 ? "home" : "new", Read("index.html"));
        File.WriteAllText(_folder["site/.git/objects/b"], "committed meanwhile");
        Done(Publish(("index.html", "newest")));
        RequireOwners();
        Assert.Equal("committed meanwhile", Read(".git/objects/b"));
        Assert.Equal("newest", Read("index.html"));
        Assert.Equal(["site"], Entries(_folder.Root));

        void RequireOwners()
        {
            Assert.Equal(
                ("ref", "object", "contact", "deny"),
                (Read(".git/HEAD"), Read(".git/objects/a"), Read(".well-known/security.txt"), Read(".htaccess")));
            Assert.Equal("objects/a", new FileInfo(_folder["site/.git/link"]).LinkTarget);
        }
    }

    // Anyone who works in such a folder while the site is published (a shell, a git) goes on in the same one.
    [Fact]
    public void The_owners_folders_are_the_same_ones_after_a_publication()
    {
        if (!OperatingSystem.IsLinux()) return;
        Done(Publish(("index.html", "home")));
        Directory.CreateDirectory(_folder["site/.git"]);
        var before = Run("stat", "-c", "%i", _folder["site/.git"]);
        Done(Publish(("index.html", "again")));
        Assert.Equal(before, Run("stat", "-c", "%i", _folder["site/.git"]));
    }

    // An archive is cloned from anyone, and git carries links: nothing beside the site that this user's asfound did not make is looked
    // into.
    [Theory]
    [InlineData("next")]
    [InlineData("old")]
    [InlineData("lock")]
    [InlineData("")]
    public void A_strangers_work_folder_is_left_alone(string entry)
    {
        Directory.CreateDirectory(_folder["letters/deep/.git"]);
        File.WriteAllText(_folder["letters/deep/dear.txt"], "dear");
        File.WriteAllText(_folder["letters/.secret"], "mine");
        File.WriteAllText(_folder["letter"], "dear");
        var planted = Path.Combine(_folder[".site.publishing"], entry).TrimEnd('/');
        Directory.CreateDirectory(Path.GetDirectoryName(planted)!);
        Link(planted, entry);
        Done(Publish(("index.html", "home")));
        RequireUntouched();
        Assert.False(Path.Exists(_folder["site/.secret"]));

        // Nor by one who knows the folder's name: a link in it is not followed.
        var known = Path.Combine(WorkFolder.PathFor(Site), entry).TrimEnd('/');
        Directory.CreateDirectory(Path.GetDirectoryName(known)!);
        Link(known, entry);
        Publish(("index.html", "again"));
        RequireUntouched();
        Assert.False(Path.Exists(_folder["site/.secret"]));

        void Link(string path, string name)
        {
            if (name == "lock") File.CreateSymbolicLink(path, _folder["letter"]);
            else Directory.CreateSymbolicLink(path, _folder["letters"]);
        }

        void RequireUntouched()
        {
            Assert.Equal("dear", File.ReadAllText(_folder["letter"]));
            Assert.Equal([".secret", "deep"], Entries(_folder["letters"]));
            Assert.Equal([".git", "dear.txt"], Entries(_folder["letters/deep"]));
        }
    }

    [Fact]
    public void A_site_reached_through_a_link_is_replaced_where_it_stands()
    {
        Directory.CreateDirectory(_folder["real"]);
        Directory.CreateSymbolicLink(Site, _folder["real"]);
        Done(Publish(("index.html", "home")));
        Assert.Equal("home", File.ReadAllText(_folder["real/index.html"]));
        Assert.NotNull(new DirectoryInfo(Site).LinkTarget);
    }

    [Theory]
    [InlineData("cables/C-1/index.html", "cables/c-1/index.html")]
    [InlineData("a", "a/index.html")]
    [InlineData("a/index.html", "A")]
    [InlineData("index.html", "SITE.sha256")]
    [InlineData("index.html", "../index.html")]
    [InlineData("index.html", "/etc/x")]
    [InlineData("index.html", "a//b")]
    [InlineData("index.html", "a/./b")]
    [InlineData("index.html", "nul\0byte")]
    public void Addresses_that_clash_or_leave_the_site_are_faults(string one, string other)
    {
        var faulty = Assert.IsType<PublicationResult.Faulty>(Publish((one, "1"), (other, "2")));
        Assert.Equal("AF1103", Assert.Single(faulty.Faults).Code);
        Assert.Empty(Entries(_folder.Root));
    }

    [Fact]
    public void Faults_of_pages_leave_the_site_as_it_was_and_are_all_told()
    {
        Done(Publish(("index.html", "home")));
        var bad = Enumerable.Range(0, 20).Select(OutputFile (i) => new RenderedFile($"p{i}.html", () =>
            new RenderedContent(default, [DiagnosticDescriptors.TemplateFault.At(new SourceText($"t{i}", "").Whole, "m", "h")])));
        var faulty = Assert.IsType<PublicationResult.Faulty>(PublishFiles(bad));
        Assert.Equal(20, faulty.Faults.Length);
        Assert.Equal("home", Read("index.html"));
        Assert.Equal(["site"], Entries(_folder.Root));
    }

    [Fact]
    public void A_file_that_cannot_be_copied_leaves_the_site_as_it_was()
    {
        Done(Publish(("index.html", "home")));
        var outcome = PublishFiles([Page("index.html", "new"), new CopiedFile("images/a.jpg", _folder["missing.jpg"], null)]);
        Assert.Equal("AF1105", Refused(outcome).Code);
        Assert.Equal("home", Read("index.html"));
        Assert.Equal(["site"], Entries(_folder.Root));
    }

    [Fact]
    public void A_copied_file_is_the_same_bytes_and_no_second_name_of_its_source()
    {
        File.WriteAllText(_folder["a.jpg"], "picture");
        Done(PublishFiles([Page("index.html", "home"), new CopiedFile("images/a.jpg", _folder["a.jpg"], null)]));
        Assert.True(Verifies());
        File.WriteAllText(_folder["a.jpg"], "changed");
        Assert.Equal("picture", Read("images/a.jpg"));
    }

    [Fact]
    public void Giving_up_at_any_file_leaves_the_site_as_it_was()
    {
        Done(Publish(("index.html", "home")));
        for (var at = 0; at < 12; at++)
        {
            using var cancellation = new CancellationTokenSource();
            var files = Enumerable.Range(0, 12).Select(OutputFile (i) => new RenderedFile($"p{i}.html", () =>
            {
                if (i == at) cancellation.Cancel();
                return Bytes("x");
            }));
            Assert.Throws<OperationCanceledException>(() => new Publisher(Site, "site").Publish(files, [], null, cancellation.Token));
            Assert.Equal("home", Read("index.html"));
            Assert.Equal(["site"], Entries(_folder.Root));
        }
    }

    [Fact]
    public void Two_at_once_do_not_mix()
    {
        var outcomes = new PublicationResult[6];
        Parallel.For(0, outcomes.Length, i => outcomes[i] =
            PublishFiles(Enumerable.Range(0, 50).Select(n => Page($"{n}/index.html", $"by {i}"))));
        Assert.Contains(outcomes, outcome => outcome is PublicationResult.Done);
        Assert.All(outcomes, outcome => Assert.True(outcome is PublicationResult.Done or PublicationResult.Refused { Why.Code: "AF1104" }));
        Assert.Single(Directory.GetFiles(Site, "index.html", SearchOption.AllDirectories).Select(File.ReadAllText).Distinct());
        Assert.True(Verifies());
        Assert.Equal(["site"], Entries(_folder.Root));
    }

    [Fact]
    public void What_a_killed_publication_left_is_put_right()
    {
        Done(Publish(("index.html", "home")));
        // Killed while it built the new tree.
        var work = WorkFolder.PathFor(Site);
        Directory.CreateDirectory(Path.Combine(work, "next/half"));
        File.WriteAllText(Path.Combine(work, "lock"), "");
        // Killed between two renames, where folders cannot change places in one step.
        Directory.Move(Site, Path.Combine(work, "old"));
        Assert.Equal("AF1105", Refused(PublishFiles([new CopiedFile("a", _folder["missing"], null)])).Code);
        Assert.Equal("home", Read("index.html"));
        Assert.Equal(["site"], Entries(_folder.Root));
    }

    [Fact]
    public void A_full_disk_leaves_the_site_as_it_was()
    {
        if (!TryMount(_folder.Root)) Assert.Skip("needs the right to mount a small file system");
        try
        {
            Done(Publish(("index.html", "home")));
            var outcome = PublishFiles(Enumerable.Range(0, 40).Select(i => Page($"{i}.html", new string('x', 100_000))));
            Assert.Equal("AF1105", Refused(outcome).Code);
            Assert.Equal("home", Read("index.html"));
            Assert.True(Verifies());
            Assert.Equal(["site"], Entries(_folder.Root));
        }
        finally
        {
            using var umount = Process.Start("umount", [_folder.Root]);
            umount.WaitForExit();
        }
    }

    private static bool TryMount(string folder)
    {
        if (!OperatingSystem.IsLinux() || Environment.UserName != "root") return false;
        using var mount = Process.Start("mount", ["-t", "tmpfs", "-o", "size=1m", "tmpfs", folder]);
        mount.WaitForExit();
        return mount.ExitCode == 0;
    }

    private PublicationResult Publish(params (string Path, string Text)[] pages) => Publish([], pages);

    private PublicationResult Publish(ImmutableArray<PublishedFile> recorded, params (string Path, string Text)[] pages) =>
        new Publisher(
            Site, "site").Publish(pages.Select(page => Page(page.Path, page.Text)), recorded, null, TestContext.Current.CancellationToken);

    private PublicationResult Replace(params (string Path, string Text)[] pages) =>
        new Publisher(Site, "site")
        {
            Replace = true
        }.Publish(pages.Select(page => Page(page.Path, page.Text)), [], null, TestContext.Current.CancellationToken);

    private static string Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true })!;
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
        return said;
    }

    private PublicationResult PublishFiles(IEnumerable<OutputFile> files) =>
        new Publisher(Site, "site").Publish(files, [], null, TestContext.Current.CancellationToken);

    private static RenderedFile Page(string path, string text) => new RenderedFile(path, () => Bytes(text));

    private static RenderedContent Bytes(string text) => new(Encoding.UTF8.GetBytes(text), []);

    private static PublicationResult.Done Done(PublicationResult outcome) => Assert.IsType<PublicationResult.Done>(outcome);

    private static Diagnostic Refused(PublicationResult outcome) => Assert.IsType<PublicationResult.Refused>(outcome).Why;

    private string Read(string path) => File.ReadAllText(Path.Combine(Site, path));

    // The disk's clock goes in steps: until a file that is written now has a later time than all that stand.
    private void UntilTheDisksClockMoves()
    {
        var newest = Times().Values.Max();
        do File.WriteAllText(_folder["clock"], "");
        while (File.GetLastWriteTimeUtc(_folder["clock"]) <= newest);
        File.Delete(_folder["clock"]);
    }

    private Dictionary<string, DateTime> Times() =>
        Directory.GetFiles(Site, "*", SearchOption.AllDirectories)
            .ToDictionary(file => Path.GetRelativePath(Site, file), File.GetLastWriteTimeUtc);

    private static string[] Entries(string folder) =>
        [.. Directory.GetFileSystemEntries(folder).Select(entry => Path.GetFileName(entry)).Order(StringComparer.Ordinal)];

    private string[] ManifestPaths() => [.. File.ReadAllLines(_folder["site/site.sha256"]).Select(line => line[66..])];

    private bool Verifies()
    {
        using var check = Process.Start(new ProcessStartInfo("sha256sum", ["-c", "--strict", "--quiet", "site.sha256"])
        {
            WorkingDirectory = Site,
            RedirectStandardOutput = true
        });
        check!.WaitForExit();
        return check.ExitCode == 0;
    }
}

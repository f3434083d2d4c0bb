using System.Collections.Immutable;
using System.Diagnostics;
using System.Security.Cryptography;
using System.Text;
using Archive.Publishing.Publication;
using Archive.Storage;
using Archive.Storage.Output;
using Xunit;

namespace Archive.Publishing.Tests.Publication;

/// <summary>A tree that grows in the folders of an old one has the files and folders of one that is made from nothing.</summary>
public sealed class SpareTreeTests : IDisposable
{
    private static readonly DateTime LongAgo = new(2001, 2, 3, 4, 5, 6, DateTimeKind.Utc);

    private readonly TemporaryFolder _folder = new();
    private ImmutableArray<PublishedFile> _recorded = [];

    public SpareTreeTests() => Directory.CreateDirectory(_folder["cache"]);

    private string Spare => _folder["cache/spare-1"];

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_folder_without_changes_comes_back_with_the_publication_after_next()
    {
        Publish("a/one/deep/index.html=1", "b/index.html=1", "index.html=1");
        Directory.SetLastWriteTimeUtc(_folder["site/a/one"], LongAgo);
        Publish("a/one/deep/index.html=1", "b/index.html=2", "index.html=2");
        Assert.NotEqual(LongAgo, Directory.GetLastWriteTimeUtc(_folder["site/a/one"]));
        if (OperatingSystem.IsLinux()) Assert.True(Directory.Exists(Path.Combine(Spare, "a/one")));
        Assert.Empty(FilesIn(Spare));
        Publish("a/one/deep/index.html=1", "b/index.html=3", "index.html=3");
        if (!OperatingSystem.IsLinux()) return;
        Assert.Equal(LongAgo, Directory.GetLastWriteTimeUtc(_folder["site/a/one"]));
        Assert.NotEqual(LongAgo, Directory.GetLastWriteTimeUtc(Path.Combine(Spare, "a/one")));
    }

    [Fact]
    public void Files_and_folders_come_go_and_become_each_other()
    {
        string[][] editions =
        [
            ["x/a=1", "x/b/c/d=1", "x/b/c/e=1", "y/z=1"],
            ["x/a/b=2", "x/a/c/d=2", "x/b=2"],
            ["x/a=1", "x/b/c/d=1", "y/z=1"],
            ["x/a/b=2", "x/b/c=3", "x/b/d=3"],
            ["x=4", "y/z/a=4"],
            ["x/a/b=2", "x/b/c/d=1", "y=5"],
        ];
        foreach (var (one, other) in editions.SelectMany(one => editions.Select(other => (one, other))))
        {
            Publish([.. one, "same/here=1"]);
            Publish([.. other, "same/here=1"]);
            PublishStreamed([.. one, "same/here=1"]);
        }
    }

    [Fact]
    public void A_file_that_was_put_into_it_is_not_published()
    {
        PublishThrice();
        foreach (var more in (string[])["a/one/index.html", "more.html", "a/one/deep/more.html", "own/more.html", ".own", ".git/HEAD"])
        {
            Directory.CreateDirectory(Path.GetDirectoryName(Path.Combine(Spare, more))!);
            File.WriteAllText(Path.Combine(Spare, more), "X");
        }

        Directory.CreateDirectory(Path.Combine(Spare, "empty/folders"));
        Publish("a/one/index.html=1", "index.html=4");
    }

    [Fact]
    public void What_is_no_plain_file_in_it_is_neither_followed_nor_waited_for()
    {
        if (OperatingSystem.IsWindows()) return;
        var letters = Directory.CreateDirectory(_folder["letters/one"]).Parent!.FullName;
        File.WriteAllText(_folder["letters/dear.txt"], "dear");
        File.WriteAllText(_folder["letters/one/index.html"], "dear");
        Action<string>[] plants =
        [
            file => File.CreateSymbolicLink(file, _folder["site/a/one/index.html"]),
            file => File.CreateSymbolicLink(file, _folder["letters/dear.txt"]),
            file => Directory.CreateSymbolicLink(file, letters),
            file => Directory.CreateDirectory(Path.Combine(file, "deeper")),
            file => Process.Start("mkfifo", [file]).WaitForExit(),
        ];
        foreach (var plant in plants)
        {
            PublishThrice();
            plant(Path.Combine(Spare, "a/one/index.html"));
            Publish("a/one/index.html=1", "index.html=4");
        }

        foreach (var place in (string[])["a/one", "a", ""])
        {
            PublishThrice();
            Directory.Delete(Path.Combine(Spare, place), recursive: true);
            Directory.CreateSymbolicLink(Path.Combine(Spare, place).TrimEnd('/'), letters);
            Publish("a/one/index.html=1", "index.html=4");
            Assert.Equal(["dear.txt", "one/index.html"], FilesIn(letters));
            Assert.Equal("dear", File.ReadAllText(_folder["letters/one/index.html"]));
        }
    }

    [Fact]
    public void It_may_lack_anything()
    {
        foreach (var gone in (string[])["a/one", "a", "b", ""])
        {
            PublishThrice();
            Directory.Delete(Path.Combine(Spare, gone), recursive: true);
            Publish("a/one/index.html=1", "b/index.html=4");
        }

        PublishThrice();
        Directory.Delete(_folder["site"], recursive: true);
        Publish("a/one/index.html=1", "b/index.html=4");
    }

    [Fact]
    public void The_bytes_of_the_standing_site_do_not_change_while_the_next_grows()
    {
        PublishThrice();
        var seen = new List<string>();
        var outcome = Publisher().Publish(Files(["a/one/index.html=7", "b/index.html=7", "index.html=7"]).Select(file =>
        {
            seen.AddRange(FilesIn(_folder["site"])
                .Where(path => path != SiteManifest.FileName)
                .Select(path => File.ReadAllText(_folder[$"site/{path}"])));
            return file;
        }), _recorded, cancellation: TestContext.Current.CancellationToken);
        Assert.IsType<PublicationResult.Done>(outcome);
        Assert.DoesNotContain("7", seen);
    }

    // Killed once it is taken, half changed, and after each step of the exchange.
    [Fact]
    public void A_kill_at_any_step_leaves_the_old_site_or_the_new_and_the_next_publication_is_whole()
    {
        for (var steps = 0; steps <= 4; steps++)
        {
            PublishThrice();
            using (var work = WorkFolder.Take(_folder["site"])!)
            {
                var spare = new SpareTree(Spare, work.Next);
                spare.Take();
                File.WriteAllText(Path.Combine(work.Next, "b/index.html"), "half");
                Assert.Equal(steps, work.Exchange(spare, ["a/one/index.html", "b/index.html"]).Take(steps).Count());
            }

            Assert.Equal(steps < 2 ? "3" : "half", File.ReadAllText(_folder["site/b/index.html"]));
            if (steps >= 2)
                File.WriteAllText(_folder["site/site.sha256"], ManifestOf("b/index.html=half"));
            Publish("a/one/index.html=1", "b/index.html=4", "index.html=4");
        }
    }

    [Fact]
    public void A_cache_on_another_disk_or_without_a_folder_changes_nothing()
    {
        PublishThrice();
        Directory.Delete(_folder["cache"], recursive: true);
        File.WriteAllText(_folder["cache"], "no folder");
        PublishThrice();
        File.Delete(_folder["cache"]);
        if (!Directory.Exists("/dev/shm")) return;
        var other = Directory.CreateDirectory($"/dev/shm/asfound-test-{Guid.NewGuid():N}");
        try
        {
            Directory.CreateSymbolicLink(_folder["cache"], other.FullName);
            PublishThrice();
            var isSameDisk = NativeFolder.TryLink(_folder["site/index.html"], Path.Combine(other.FullName, "index.html"));
            if (!isSameDisk) Assert.Empty(FilesIn(other.FullName));
        }
        finally
        {
            other.Delete(recursive: true);
        }
    }

    [Fact]
    public void A_cache_keeps_one()
    {
        Directory.CreateDirectory(_folder["cache/spare-of-a-site-that-is-no-more/a"]);
        PublishThrice();
        Assert.Equal(["spare-1"], Directory.GetFileSystemEntries(_folder["cache"]).Select(Path.GetFileName));
    }

    private void PublishThrice()
    {
        for (var edition = 1; edition <= 3; edition++) Publish("a/one/index.html=1", $"b/index.html={edition}", $"index.html={edition}");
    }

    private void Publish(params string[] files) => Publish(files, isStreamed: false);

    private void PublishStreamed(params string[] files) => Publish(files, isStreamed: true);

    private void Publish(string[] files, bool isStreamed)
    {
        var outcome = Publisher().Publish(Files(files, isStreamed), _recorded, cancellation: TestContext.Current.CancellationToken);
        _recorded = Assert.IsType<PublicationResult.Done>(outcome).Files;
        Assert.Equal(
            files.Order(StringComparer.Ordinal),
            FilesIn(_folder["site"])
                .Where(path => path != SiteManifest.FileName)
                .Select(path => $"{path}={File.ReadAllText(_folder[$"site/{path}"])}")
                .Order(StringComparer.Ordinal));
        Assert.Equal(
            files.SelectMany(file => FoldersOf(file.Split('=')[0])).Distinct().Order(StringComparer.Ordinal),
            Directory.GetDirectories(_folder["site"], "*", SearchOption.AllDirectories)
                .Select(path => Path.GetRelativePath(_folder["site"], path))
                .Order(StringComparer.Ordinal));
        Assert.True(Publisher().IsUnchanged(_recorded));
        Assert.False(Path.Exists(WorkFolder.PathFor(_folder["site"])));
    }

    private static string ManifestOf(params string[] files) => SiteManifest.Write([.. files
        .Select(file => file.Split('='))
        .Select(file => new PublishedFile(file[0], Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(file[1]))), 0, 0))]);

    private Publisher Publisher() => new(_folder["site"], "site") { Replace = true, Spare = Spare };

    private static IEnumerable<OutputFile> Files(string[] files, bool isStreamed = false) => files.Select(file => file.Split('=')).Select(
        OutputFile (file) => isStreamed
            ? new StreamedFile(file[0], stream => stream.Write(Encoding.UTF8.GetBytes(file[1])))
            : new RenderedFile(file[0], () => new RenderedContent(Encoding.UTF8.GetBytes(file[1]), [])));

    private static IEnumerable<string> FoldersOf(string path)
    {
        for (var slash = path.LastIndexOf('/'); slash > 0; slash = path.LastIndexOf('/', slash - 1)) yield return path[..slash];
    }

    private static IEnumerable<string> FilesIn(string folder) => Directory.GetFiles(folder, "*", SearchOption.AllDirectories)
        .Select(path => Path.GetRelativePath(folder, path))
        .Order(StringComparer.Ordinal);
}

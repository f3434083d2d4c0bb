using Archive.Records.Model;
using Archive.Records.Permanence;
using Archive.Records.Reading;
using Xunit;

namespace Archive.Records.Tests.Reading;

/// <summary>What the disk may hold, and where paths may lead.</summary>
public sealed class FolderTests : IDisposable
{
    private readonly DirectoryInfo _outside = Directory.CreateTempSubdirectory("asfound-folder-");
    private readonly string _root;

    public FolderTests()
    {
        _root = Path.Combine(_outside.FullName, "content");
        Put("archive.yaml", "title: T\n");
        Put("photos/a.jpg", "x");
    }

    public void Dispose() => _outside.Delete(recursive: true);

    [Fact]
    public void Files_are_listed_in_ordinal_order_without_dot_names()
    {
        Put("frames/b.yaml", "[]");
        Put("frames/B.yaml", "[]");
        Put("frames/a/a.yaml", "[]");
        Put("frames/.a.yaml.swp", "x");
        Put(".git/config", "x");
        Assert.Equal(["archive.yaml", "frames/B.yaml", "frames/a/a.yaml", "frames/b.yaml", "photos/a.jpg"], Folder().Files);
        Assert.Empty(new ArchiveFolder(Path.Combine(_root, "nowhere")).Files);
    }

    /// <summary>A whole disk, named by mistake, is not walked: only the folders of records could hold what an archive has.</summary>
    [Fact]
    public void Without_archive_yaml_only_the_folders_of_records_are_looked_into()
    {
        Put("home/someone/letter.txt", "x");
        Put("frames/a.yaml", "- {id: F-1, name: x}");
        Assert.Contains("home/someone/letter.txt", Folder().Files);
        File.Delete(At("archive.yaml"));
        Assert.Equal(["frames/a.yaml", "photos/a.jpg"], Folder().Files);
        var parsed = RecordReader.Read(Folder(), TestContext.Current.CancellationToken);
        Assert.Equal(["archive.yaml:1:1 AF0001"], parsed.Places());
        Assert.Equal(["F-1"], parsed.Records.Select(record => record.Id));
    }

    [Fact]
    public void Links_out_of_the_archive_are_told_and_not_followed()
    {
        File.WriteAllText(Path.Combine(_outside.FullName, "secret.yaml"), "- {id: SECRET, name: x}");
        Directory.CreateDirectory(Path.Combine(_outside.FullName, "elsewhere"));
        File.WriteAllText(Path.Combine(_outside.FullName, "elsewhere", "e.yaml"), "- {id: E, name: x}");
        Put("frames/a.yaml", "- {id: F-1, name: x}");
        File.CreateSymbolicLink(At("frames/b.yaml"), Path.Combine(_outside.FullName, "secret.yaml"));
        File.CreateSymbolicLink(At("frames/c.yaml"), "../../secret.yaml");
        File.CreateSymbolicLink(At("frames/d.yaml"), "a.yaml.gone");
        Directory.CreateSymbolicLink(At("frames/e"), "../../elsewhere");
        Directory.CreateSymbolicLink(At("frames/loop"), "..");
        File.CreateSymbolicLink(At("frames/f.yaml"), "loop/../../elsewhere/e.yaml");
        Put(
            "photos/p.yaml",
            "[{id: P-1, file: a.jpg}, {id: P-2, file: ../frames/e/e.yaml}, {id: P-3, file: ../frames/b.yaml}, {id: P-4, file: gone.jpg}]");
        var parsed = RecordReader.Read(Folder(), TestContext.Current.CancellationToken);
        Assert.Equal(
            [
                "frames/b.yaml:1:1 AF0004", "frames/c.yaml:1:1 AF0004", "frames/d.yaml:1:1 AF0003", "frames/e:1:1 AF0004",
                "frames/f.yaml:1:1 AF0004", "frames/loop:1:1 AF0007", "photos/p.yaml:1:42 AF0004", "photos/p.yaml:1:79 AF0004",
            ],
            parsed.Places());
        Assert.Equal(["F-1", "P-1", "P-2", "P-3", "P-4"], parsed.Records.Select(record => record.Id));
        Assert.Equal(["photos/a.jpg", null, null, "photos/gone.jpg"], parsed.Records.OfType<Photo>().Select(photo => photo.FilePath));
    }

    [Fact]
    public void A_pipe_or_an_endless_device_keeps_no_one_waiting()
    {
        if (OperatingSystem.IsWindows()) return;
        Directory.CreateDirectory(At("frames"));
        using (var made = System.Diagnostics.Process.Start("mkfifo", [At("frames/pipe.yaml")])) made.WaitForExit();
        File.CreateSymbolicLink(At("frames/linked.yaml"), "pipe.yaml");
        File.CreateSymbolicLink(At("frames/zero.yaml"), "/dev/zero");
        Assert.Empty(Folder().Read("frames/linked.yaml", 100).Bytes!);
        Assert.True(ArchiveFolder.IsEmpty("/dev/zero"));
        var parsed = RecordReader.Read(Folder(), TestContext.Current.CancellationToken);
        Assert.Empty(parsed.Records);
        if (OperatingSystem.IsLinux())
            Assert.Equal(["frames/linked.yaml:1:1 AF0009", "frames/pipe.yaml:1:1 AF0009", "frames/zero.yaml:1:1 AF0004"], parsed.Places());
        Assert.DoesNotContain("frames/pipe.yaml", Folder().Files);
    }

    [Fact]
    public void A_socket_and_an_empty_file_are_told_apart()
    {
        if (!OperatingSystem.IsLinux()) return;
        Put("frames/empty.yaml", "");
        using var socket = new System.Net.Sockets.Socket(
            System.Net.Sockets.AddressFamily.Unix, System.Net.Sockets.SocketType.Stream, System.Net.Sockets.ProtocolType.Unspecified);
        socket.Bind(new System.Net.Sockets.UnixDomainSocketEndPoint(At("frames/socket")));
        Assert.Equal(["frames/socket:1:1 AF0009"], RecordReader.Read(Folder(), TestContext.Current.CancellationToken).Places());
        Assert.Equal(
            ["a device", "a device", "a socket", null, null, null],
            ((string[])["/dev/null", "/dev/zero", At("frames/socket"), At("frames/empty.yaml"), At("frames"), At("none")]).Select(
                SpecialFile.KindOf));
    }

    [Fact]
    public void A_name_with_a_control_character_is_told_and_not_read()
    {
        if (OperatingSystem.IsWindows()) return;
        Put("frames/a\u001b[2J.yaml", "- {id: F-1, name: x}");
        Put("frames/b\nc/d.yaml", "- {id: F-2, name: x}");
        Put("frames/e.yaml", "- {id: F-3, name: x}");
        Put("photos/\u0085.jpg", "x");
        var parsed = RecordReader.Read(Folder(), TestContext.Current.CancellationToken);
        Assert.Equal(["frames/a\u001b[2J.yaml:1:1 AF0011", "frames/b\nc:1:1 AF0011", "photos/\u0085.jpg:1:1 AF0011"], parsed.Places());
        Assert.Equal(["F-3"], parsed.Records.Select(record => record.Id));
    }

    [Fact]
    public void A_name_that_is_not_utf_8_or_has_a_backslash_is_reported_and_the_rest_is_read()
    {
        if (!OperatingSystem.IsLinux()) return;
        Put("frames/a\\b.yaml", "- {id: F-1, name: x}");
        Put("frames/e.yaml", "- {id: F-2, name: x}");

        // No path of .NET can say these bytes: a shell makes the file, and deletes it.
        Shell("printf '%s' '- {id: F-3, name: x}' > \"$1/$(printf 'caf\\351.yaml')\"");
        var parsed = RecordReader.Read(Folder(), TestContext.Current.CancellationToken);
        Shell("rm -r \"$1\"");
        Assert.Equal(["frames/a\\b.yaml:1:1 AF0011", "frames/caf\uFFFD.yaml:1:1 AF0011"], parsed.Places());
        Assert.Equal(["F-2"], parsed.Records.Select(record => record.Id));

        void Shell(string script)
        {
            using var run = System.Diagnostics.Process.Start("sh", ["-c", script, "sh", At("frames")]);
            run.WaitForExit();
        }
    }

    // Lines of such a file would be quoted in errors, and so reach a build's log.
    [Fact]
    public void A_link_out_of_the_archive_is_not_read_by_any_name()
    {
        File.WriteAllText(Path.Combine(_outside.FullName, "secret"), "frames/SECRET/");
        File.CreateSymbolicLink(At("addresses.txt"), Path.Combine(_outside.FullName, "secret"));
        Assert.Equal((null, "it leads out of the archive"), Folder().Read("addresses.txt", 100));
        Assert.Empty(AddressLedger.Read(Folder()).Lines);
    }

    [Fact]
    public void Links_within_the_archive_are_followed()
    {
        Directory.CreateSymbolicLink(Path.Combine(_outside.FullName, "linked"), _root);
        File.CreateSymbolicLink(At("photos/b.jpg"), "a.jpg");
        var folder = new ArchiveFolder(Path.Combine(_outside.FullName, "linked"));
        Assert.Equal(new PathResult(PathStatus.Exists, "photos/b.jpg"), folder.Follow("photos/p.yaml", "b.jpg"));
        Assert.Equal("x"u8.ToArray(), folder.Read("photos/b.jpg", 10).Bytes);
    }

    [Theory]
    [InlineData("a.jpg", PathStatus.Exists)]
    [InlineData("./../photos//a.jpg", PathStatus.Exists)]
    [InlineData("A.JPG", PathStatus.Missing)]
    [InlineData("b.jpg", PathStatus.Missing)]
    [InlineData("../photos", PathStatus.Missing)]
    [InlineData("http://host/a.jpg", PathStatus.Leaves)]
    [InlineData("", PathStatus.Missing)]
    [InlineData("/etc/passwd", PathStatus.Leaves)]
    [InlineData("../../content/photos/a.jpg", PathStatus.Leaves)]
    [InlineData("..", PathStatus.Leaves)]
    [InlineData("../..", PathStatus.Leaves)]
    [InlineData(@"..\..\a.jpg", PathStatus.Leaves)]
    [InlineData(@"\\server\share\a.jpg", PathStatus.Leaves)]
    [InlineData("C:/a.jpg", PathStatus.Leaves)]
    [InlineData("a\0.jpg", PathStatus.Leaves)]
    public void Where_a_path_leads_is_the_same_on_a_disk_and_in_memory(string written, PathStatus outcome)
    {
        var memory = InMemoryFolder.Empty.With("archive.yaml", "title: T\n").With("photos/a.jpg", "x");
        Assert.Equal(outcome, Folder().Follow("photos/p.yaml", written).Outcome);
        Assert.Equal(outcome, memory.Follow("photos/p.yaml", written).Outcome);
    }

    [Fact]
    public void A_file_beyond_the_limit_is_not_read()
    {
        Assert.Equal((null, null), Folder().Read("photos/a.jpg", 0));
        var parsed = RecordReader.Read(new Heavy(), TestContext.Current.CancellationToken);
        Assert.Equal(["archive.yaml:1:1 AF0006"], parsed.Places());
    }

    private ArchiveFolder Folder() => new(_root);

    private string At(string path) => Path.Combine(_root, path);

    private void Put(string path, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(At(path))!);
        File.WriteAllText(At(path), text);
    }

    // A folder whose only file is larger than any limit.
    [Fact]
    public void Reading_that_is_given_up_says_so_and_nothing_else()
    {
        using var end = new CancellationTokenSource();
        Assert.ThrowsAny<OperationCanceledException>(() => RecordReader.Read(new GivenUp(end), end.Token));
    }

    // Someone asks for an end while the first file is read.
    private sealed class GivenUp(CancellationTokenSource end) : IArchiveFolder
    {
        private readonly InMemoryFolder _files = Enumerable.Range(0, 64)
            .Aggregate(InMemoryFolder.Empty, (folder, i) => folder.With($"frames/{i}.yaml", $"- {{id: F-{i}, name: x}}\n"));

        public System.Collections.Immutable.ImmutableArray<string> Files => _files.Files;

        public (byte[]? Bytes, string? Why) Read(string path, long limit)
        {
            end.Cancel();
            return _files.Read(path, limit);
        }

        public PathResult Follow(string fromFile, string written) => _files.Follow(fromFile, written);

        public string? FullPath(string path) => null;
    }

    private sealed class Heavy : IArchiveFolder
    {
        public System.Collections.Immutable.ImmutableArray<string> Files => ["archive.yaml"];

        public (byte[]? Bytes, string? Why) Read(string path, long limit) => (null, null);

        public PathResult Follow(string fromFile, string written) => new(PathStatus.Exists, written);

        public string? FullPath(string path) => null;
    }
}

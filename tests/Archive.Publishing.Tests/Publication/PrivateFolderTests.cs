using Archive.Storage;
using Xunit;

namespace Archive.Publishing.Tests.Publication;

public sealed class PrivateFolderTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_name_is_the_same_each_time_and_another_for_each_key_purpose_and_place()
    {
        byte[] key = [.. Enumerable.Range(0, 32).Select(i => (byte)i)];
        var name = PrivateFolder.Tag(key, "cache", "/a");
        Assert.Matches("^[0-9a-f]{16}\\z", name);
        Assert.Equal(name, PrivateFolder.Tag(key, "cache", "/a"));
        Assert.Equal(4, new[]
        {
            name,
            PrivateFolder.Tag(key, "cache", "/b"),
            PrivateFolder.Tag(key, "sealing", "/a"),
            PrivateFolder.Tag([.. key.Reverse()], "cache", "/a")
        }.Distinct().Count());

        // HMAC-SHA-256 of "cache\n/a" under that key, as `openssl dgst -sha256 -mac HMAC -macopt hexkey:…` gives it.
        Assert.Equal("f45ab4a7ce8b8b1b", name);
    }

    [Fact]
    public void A_place_is_the_same_by_every_way_to_it()
    {
        Directory.CreateDirectory(_folder["real"]);
        Directory.CreateSymbolicLink(_folder["way"], _folder["real"]);
        Assert.Equal(PrivateFolder.Beside(_folder["real/site"], "publishing"), PrivateFolder.Beside(_folder["way/site"], "publishing"));
        Assert.Equal(PrivateFolder.Within(_folder["real"], "cache"), PrivateFolder.Within(_folder["way"], "cache"));
    }

    [Fact]
    public void What_links_lead_to_is_not_deleted()
    {
        Directory.CreateDirectory(_folder["letters/deep"]);
        File.WriteAllText(_folder["letters/deep/dear.txt"], "dear");
        foreach (var place in (string[])["work/link", "work/a/link", "work/a/b/link", "work/a/b/c/link"])
        {
            Directory.CreateDirectory(Path.GetDirectoryName(_folder[place])!);
            Directory.CreateSymbolicLink(_folder[place], _folder["letters"]);
        }

        PrivateFolder.Delete(_folder["work"]);
        Assert.False(Path.Exists(_folder["work"]));
        Directory.CreateSymbolicLink(_folder["work"], _folder["letters"]);
        PrivateFolder.Delete(_folder["work"]);
        PrivateFolder.Delete(_folder["work"]);
        Assert.False(Path.Exists(_folder["work"]));
        Assert.Equal("dear", File.ReadAllText(_folder["letters/deep/dear.txt"]));
    }

    [Fact]
    public void A_key_is_made_once_kept_to_its_owner_and_made_again_where_it_is_torn()
    {
        var key = UserKey.Find([_folder["state/asfound"]]);
        Assert.Equal(32, key.Length);
        Assert.Equal(key, UserKey.Find([_folder["state/asfound"]]));
        Assert.NotEqual(key, UserKey.Find([_folder["other/asfound"]]));
        Assert.Equal(["key"], Directory.GetFileSystemEntries(_folder["state/asfound"]).Select(Path.GetFileName));
        if (!OperatingSystem.IsWindows()) Assert.Equal(
            UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, File.GetUnixFileMode(_folder["state/asfound"]));

        File.WriteAllBytes(_folder["state/asfound/key"], []);
        var next = UserKey.Find([_folder["state/asfound"]]);
        Assert.NotEqual(key, next);
        Assert.Equal(next, UserKey.Find([_folder["state/asfound"]]));
    }

    [Fact]
    public void Where_a_key_cannot_be_kept_the_next_place_keeps_it()
    {
        File.WriteAllText(_folder["file"], "");
        var key = UserKey.Find([_folder["file/asfound"], _folder["state/asfound"]]);
        Assert.Equal(key, UserKey.Find([_folder["state/asfound"]]));
        Assert.NotEqual(UserKey.Find([_folder["file/asfound"]]), UserKey.Find([_folder["file/asfound"]]));
    }

    [Fact]
    public void Processes_that_need_a_key_at_once_get_the_same()
    {
        for (var round = 0; round < 100; round++)
        {
            var (keys, folder) = (new byte[4][], _folder[$"state/{round}"]);
            using var start = new Barrier(keys.Length);
            var threads = Enumerable.Range(0, keys.Length).Select(i => new Thread(() =>
            {
                start.SignalAndWait();
                keys[i] = UserKey.Find([folder]);
            })).ToList();
            threads.ForEach(thread => thread.Start());
            threads.ForEach(thread => thread.Join());
            Assert.Single(keys.Select(Convert.ToHexString).Distinct());
        }
    }

    // A link that has the name of a file is replaced; what it leads to is not written to.
    [Fact]
    public void A_file_is_put_in_the_place_of_a_link()
    {
        File.WriteAllText(_folder["letter"], "dear");
        File.CreateSymbolicLink(_folder["list"], _folder["letter"]);
        WholeFile.Replace(_folder["list"], stream => stream.Write("new"u8));
        Assert.Equal(("dear", "new"), (File.ReadAllText(_folder["letter"]), File.ReadAllText(_folder["list"])));
        Assert.Throws<IOException>(() => WholeFile.Replace(_folder["list"], _ => throw new IOException("full")));
        Assert.Equal("new", File.ReadAllText(_folder["list"]));
        Assert.Equal(
            ["letter", "list"], Directory.GetFileSystemEntries(_folder.Root).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }
}

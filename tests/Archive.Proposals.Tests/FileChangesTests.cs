using Archive.Storage;
using Xunit;

namespace Archive.Proposals.Tests;

public sealed class FileChangesTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void A_file_is_replaced_only_if_it_is_what_it_was()
    {
        File.WriteAllText(_folder["a.yaml"], "one");
        File.WriteAllText(_folder["b.yaml"], "other");
        var outcome = FileChanges.Write(
            _folder.Root, [new("a.yaml", "one"u8.ToArray(), "two"u8.ToArray()), new("b.yaml", "one"u8.ToArray(), "two"u8.ToArray())]);
        Assert.Equal([("b.yaml", "it was changed meanwhile")], outcome.Refused);
        Assert.Empty(outcome.Written);
        Assert.Equal("one", File.ReadAllText(_folder["a.yaml"]));
        Assert.Equal(["a.yaml"], FileChanges.Write(_folder.Root, [new("a.yaml", "one"u8.ToArray(), "two"u8.ToArray())]).Written);
        Assert.Equal("two", File.ReadAllText(_folder["a.yaml"]));
        Assert.Equal("a file of this name was made meanwhile", FileChanges.Write(_folder.Root, [new("a.yaml", null, [1])]).Refused[0].Why);
        Assert.Equal("it is no longer there", FileChanges.Write(_folder.Root, [new("c.yaml", [1], [1])]).Refused[0].Why);
    }

    [Fact]
    public void Nothing_is_written_through_a_link_or_outside()
    {
        Directory.CreateDirectory(_folder["outside"]);
        Directory.CreateDirectory(_folder["archive"]);
        File.WriteAllText(_folder["outside/a.yaml"], "one");
        Directory.CreateSymbolicLink(_folder["archive/cables"], _folder["outside"]);
        File.CreateSymbolicLink(_folder["archive/a.yaml"], _folder["outside/a.yaml"]);
        foreach (var path in (string[])["cables/a.yaml", "a.yaml", "../outside/a.yaml", _folder["outside/a.yaml"]])
        {
            var outcome = FileChanges.Write(_folder["archive"], [new(path, "one"u8.ToArray(), "two"u8.ToArray())]);
            Assert.Single(outcome.Refused);
        }

        Assert.Equal("one", File.ReadAllText(_folder["outside/a.yaml"]));
    }

    [Fact]
    public void A_new_file_and_its_folders_are_made_and_permissions_stay()
    {
        Assert.Empty(FileChanges.Write(_folder.Root, [new("x/y/a.yaml", null, "one"u8.ToArray())]).Refused);
        Assert.Equal("one", File.ReadAllText(_folder["x/y/a.yaml"]));
        if (OperatingSystem.IsWindows()) return;
        File.SetUnixFileMode(_folder["x/y/a.yaml"], UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupWrite);
        FileChanges.Write(_folder.Root, [new("x/y/a.yaml", "one"u8.ToArray(), "two"u8.ToArray())]);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupWrite, File.GetUnixFileMode(_folder["x/y/a.yaml"]));
    }

    public void Dispose() => _folder.Dispose();
}

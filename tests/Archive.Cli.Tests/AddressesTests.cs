using Xunit;

namespace Archive.Cli.Tests;

public sealed class AddressesTests : IDisposable
{
    private readonly Asfound _archive = new();

    public void Dispose() => _archive.Dispose();

    [Fact]
    public async Task The_ledger_is_written_and_an_address_in_it_cannot_vanish()
    {
        Assert.Equal(
            (0, "cables/C-1/\nframes/R1-01/\nframes/R1-02/\nkinds/coax-75/\n", "No address in addresses.txt, 4 to be added.\n"),
            await Addresses());
        Assert.Equal(
            (
                1,
                "cables/C-1/\nframes/R1-01/\nframes/R1-02/\nkinds/coax-75/\n",
                "4 addresses are published and not in addresses.txt. Run asfound addresses --write, and commit the file with the record.\n"
            ),
            await Addresses("--check"));
        Assert.Equal((0, "", "addresses.txt: 4 added, 4 in all. Commit it with the record.\n"), await Addresses("--write"));
        Assert.Equal((0, "", "4 addresses in addresses.txt, none to be added.\n"), await Addresses("--check"));
        Assert.Equal(2, (await _archive.Run("addresses", "--check", "--write")).Code);
        Assert.Equal((0, "", "4 addresses in addresses.txt, none to be added.\n"), await Addresses());
        Assert.Equal(0, (await _archive.Run("publish")).Code);
        foreach (var line in File.ReadAllLines(_archive["content/addresses.txt"]).Where(line => !line.StartsWith('#')))
            Assert.True(File.Exists(_archive[$"site/{line}index.html"]), line);

        _archive.Write("content/frames/r1.yaml", "- {id: R1-01, name: Receiver one}\n- {id: R1-2, name: Receiver two}\n");
        _archive.Write("content/cables/c.yaml", "- {id: C-1, kind: coax-75, ends: [{at: R1-01}, {at: R1-2}]}\n");
        var check = await _archive.Run("check");
        Assert.Equal(1, check.Code);
        Assert.Contains("addresses.txt:5:1: error AF1301", check.Out, StringComparison.Ordinal);
        Assert.Contains("is `R1-2` the successor?", check.Out, StringComparison.Ordinal);
        Assert.Equal(1, (await _archive.Run("publish")).Code);
        Assert.Equal(1, (await _archive.Run("addresses", "--write")).Code);

        _archive.Write("content/frames/r1.yaml", "- {id: R1-01, name: Receiver one}\n- {id: R1-2, name: Receiver two, was: [R1-02]}\n");
        Assert.Equal((0, "", "addresses.txt: 1 added, 5 in all. Commit it with the record.\n"), await Addresses("--write"));
        Assert.Equal(0, (await _archive.Run("publish")).Code);
        Assert.True(File.Exists(_archive["site/frames/R1-02/index.html"]));
    }

    // A link for a name that can be guessed may have come with the archive.
    [Fact]
    public async Task No_link_is_written_through()
    {
        _archive.Write("letter", "dear");
        foreach (var name in (string[])["content/.addresses.txt.part", "labels/R1-01.svg"])
        {
            Directory.CreateDirectory(Path.GetDirectoryName(_archive[name])!);
            File.CreateSymbolicLink(_archive[name], _archive["letter"]);
        }

        _archive.Write("content/archive.yaml", "title: Small station\nbase: https://archive.example/small/\n");
        Assert.Equal(0, (await _archive.Run("addresses", "--write")).Code);
        Assert.Equal(0, (await _archive.Run("labels", "--svg", _archive["labels"])).Code);
        Assert.Equal("dear", File.ReadAllText(_archive["letter"]));
        Assert.Null(new FileInfo(_archive["content/addresses.txt"]).LinkTarget);
        Assert.StartsWith("<svg", File.ReadAllText(_archive["labels/R1-01.svg"]), StringComparison.Ordinal);
    }

    private async Task<(int, string, string)> Addresses(params string[] more) =>
        await _archive.Run("addresses", more) is var run ? (run.Code, run.Out, run.Error) : default;
}

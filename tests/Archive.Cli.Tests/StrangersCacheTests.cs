using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>
/// An archive can come with a cache, by git or in a zip file. What lies in it was not put there by this user, so none of it counts and none
/// of it is touched.
/// </summary>
public sealed class StrangersCacheTests : IDisposable
{
    private readonly Asfound _archive = new();

    public StrangersCacheTests()
    {
        _archive.Write("content/photos/p.yaml", "- {id: P-1, file: a.jpg, shows: [R1-01]}\n");
        var samples = Path.GetFullPath(Path.Combine(Tests, "../Archive.Photos.Tests/samples/orientation"));
        File.Copy(Path.Combine(samples, "orientation_1.jpg"), _archive["content/photos/a.jpg"]);
        foreach (var file in Directory.GetFiles(_archive["content"], "*", SearchOption.AllDirectories))
            File.SetLastWriteTimeUtc(file, new DateTime(2026, 5, 13));
    }

    public void Dispose() => _archive.Dispose();

    // The stranger made the cache with the same tool on the same archive, then forged it: every picture is another, every list says so.
    [Fact]
    public async Task Forged_pictures_and_forged_lists_of_inputs_are_not_published()
    {
        Assert.NotNull(await KilledProcess.Run(
            null, _archive["strangers-home"], ["publish", "--content", _archive["content"], "--site", _archive["site"]]));
        Assert.True(Forge() > 0);
        foreach (var file in Directory.GetFiles(_archive[".asfound"], "*.bin", SearchOption.AllDirectories))
            File.WriteAllBytes(file, [.. File.ReadAllBytes(file).Take(40)]);
        Directory.Delete(_archive["site"], recursive: true);

        Assert.Equal(0, (await _archive.Run("publish")).Code);
        await Asfound.Typed("publish", "--content", _archive["content"], "--site", _archive["fresh"], "--cache", _archive["fresh-cache"]);
        Assert.Equal(File.ReadAllText(_archive["fresh/site.sha256"]), File.ReadAllText(_archive["site/site.sha256"]));
    }

    // What the stranger's run said of the record is not said again: this record has an error, and its list of inputs says that nothing
    // changed.
    [Fact]
    public async Task A_forged_publication_does_not_hide_errors()
    {
        Assert.NotNull(await KilledProcess.Run(
            null, _archive["strangers-home"], ["publish", "--content", _archive["content"], "--site", _archive["site"]]));
        var frames = _archive["content/frames/r1.yaml"];
        var (text, time) = (File.ReadAllText(frames), File.GetLastWriteTimeUtc(frames));
        File.WriteAllText(frames, text.Replace("310 kg", "310   ", StringComparison.Ordinal));
        File.SetLastWriteTimeUtc(frames, time);
        var run = await _archive.Run("publish");
        Assert.Equal(1, run.Code);
        Assert.Contains("AF0204", run.Out, StringComparison.Ordinal);
    }

    // Drafts of a day ago are swept, and folders of old indexes: here they would be the user's.
    [Fact]
    public async Task Links_in_it_lead_to_nothing_that_is_deleted_or_written()
    {
        _archive.Write("letters/dear.txt", "dear");
        _archive.Write("letters/deep/dear.txt", "dear");
        File.SetLastWriteTimeUtc(_archive["letters/dear.txt"], new DateTime(2020, 1, 1));
        foreach (var place in (string[])["photos/drafts", "photos/portfolios", "photos/originals", "publications", "find", "preview"])
        {
            Directory.CreateDirectory(Path.GetDirectoryName(_archive[$".asfound/{place}"])!);
            Directory.CreateSymbolicLink(_archive[$".asfound/{place}"], _archive["letters"]);
        }

        File.CreateSymbolicLink(_archive[".asfound/inputs.bin"], _archive["letters/dear.txt"]);
        Assert.Equal(0, (await _archive.Run("publish")).Code);
        Assert.Equal(0, (await _archive.Run("find", "receiver")).Code);
        Assert.Equal(["dear.txt", "deep", "deep/dear.txt"], Directory.GetFileSystemEntries(
            _archive["letters"],
            "*",
            SearchOption.AllDirectories).Select(path => Path.GetRelativePath(_archive["letters"], path)).Order(StringComparer.Ordinal));
        Assert.Equal("dear", File.ReadAllText(_archive["letters/dear.txt"]));
    }

    [Fact]
    public async Task A_link_in_its_place_is_not_followed()
    {
        Directory.CreateDirectory(_archive["letters"]);
        Directory.CreateSymbolicLink(_archive[".asfound"], _archive["letters"]);
        Assert.NotNull(
            await KilledProcess.Run(null, _archive["home"], ["publish", "--content", _archive["content"], "--site", _archive["site"]]));
        Assert.Empty(Directory.GetFileSystemEntries(_archive["letters"]));
    }

    [Fact]
    public async Task It_stays_out_of_the_curators_repository_and_nothing_beside_it_is_written()
    {
        _archive.Write(".asfound/own.txt", "mine");
        await _archive.Run("publish");
        Assert.Equal("*\n", File.ReadAllText(Path.Combine(_archive.Cache, ".gitignore")));
        Assert.Equal(
            [Path.GetFileName(_archive.Cache), "own.txt"],
            Directory.GetFileSystemEntries(_archive[".asfound"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    private static string Tests { get; } = FindTests();

    private static string FindTests()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !folder.EnumerateFiles("*.csproj").Any()) folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("the tests do not run inside their project's folder");
    }

    // A portfolio is a line with the checksum of the next, a line that lists the pictures, and their bytes.
    private int Forge()
    {
        var portfolios = Directory.GetFiles(_archive[".asfound"], "*.portfolio", SearchOption.AllDirectories);
        foreach (var path in portfolios)
        {
            var bytes = File.ReadAllBytes(path);
            var end = Array.IndexOf(bytes, (byte)'\n', 65);
            var list = JsonNode.Parse(bytes.AsSpan(65, end - 65))!;
            var start = end + 1;
            foreach (var piece in list["Pieces"]!.AsArray())
            {
                var length = (int)piece!["Bytes"]!;
                bytes[start + length - 3] ^= 1;
                piece["Sha256"] = Convert.ToHexStringLower(SHA256.HashData(bytes.AsSpan(start, length)));
                start += length;
            }

            var text = Encoding.UTF8.GetBytes(list.ToJsonString());
            File.WriteAllBytes(
                path, [.. Encoding.ASCII.GetBytes(Convert.ToHexStringLower(SHA256.HashData(text))), (byte)'\n', .. text, .. bytes[end..]]);
            File.SetLastWriteTimeUtc(path, new DateTime(2000, 1, 1, 0, 0, 0, DateTimeKind.Utc));
        }

        return portfolios.Length;
    }
}

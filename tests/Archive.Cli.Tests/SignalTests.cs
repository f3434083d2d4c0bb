using System.Diagnostics;
using System.Globalization;
using Archive.Preservation.Audits;
using Archive.Storage;
using NetVips;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>
/// Ctrl-C and SIGTERM end every command, with 130 and 143, whatever it is doing, and leave nothing that blocks the next run. How long it
/// takes is measured elsewhere: a busy machine would fail a test of it.
/// </summary>
public sealed class SignalTests : IDisposable
{
    private const int Frames = 2500;
    private readonly Asfound _archive = new();

    public void Dispose() => _archive.Dispose();

    // Each says more on standard output than a pipe holds, and nobody reads it: it ends by the signal or not at all, be it still at work or
    // stuck in writing.
    [Theory]
    [InlineData("TERM", 143, "check", "--format", "json")]
    [InlineData("INT", 130, "check", "--survey")]
    [InlineData("TERM", 143, "publish", "--format", "json")]
    [InlineData("INT", 130, "seal", "--format", "json")]
    [InlineData("INT", 130, "find", "receiver", "--most", "100000")]
    [InlineData("TERM", 143, "plan", "loads", "--format", "json")]
    [InlineData("TERM", 143, "labels")]
    [InlineData("INT", 130, "addresses")]
    [InlineData("TERM", 143, "compare")]
    [InlineData("INT", 130, "audit", "--format", "json")]
    [InlineData("TERM", 143, "intake")]
    public async Task A_signal_ends_a_command_at_work_or_stuck(string signal, int code, string command, params string[] more)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "signals are a matter of Unix");
        WriteLarge();
        var content = _archive["content"];
        string[] line = command switch
        {
            "audit" => ["audit", LostBag()],
            "compare" => ["compare", Empty(), content, "--content", content],
            "intake" => ["intake", "photos", ManyNoPhotos(), "--content", content],
            "publish" => ["publish", "--content", content, "--site", _archive["site"]],
            "seal" => ["seal", "--content", content, "--to", _archive["vault/bag"]],
            _ => [command, .. more.TakeWhile(word => !word.StartsWith('-')), "--content", content],
        };

        // A fast machine is done in less than two seconds.
        var wait = new Random(command.Length * code).Next(100, 1000);
        var started = Stopwatch.StartNew();
        var (ended, error) = await KilledProcess.Signal(
            signal, () => started.ElapsedMilliseconds > wait, [.. line, .. more.SkipWhile(word => !word.StartsWith('-'))]);
        Assert.True(ended == code, $"{ended}: {error}");
        Assert.DoesNotContain("asfound itself", error, StringComparison.Ordinal);
    }

    // What is over so soon is caught at some moment, if not at the first try.
    [Theory]
    [InlineData("TERM", 143)]
    [InlineData("INT", 130)]
    public async Task A_signal_ends_a_command_that_has_only_begun(string signal, int code)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "signals are a matter of Unix");
        var ends = new List<int>();
        for (var i = 0; i < 50 && !ends.Contains(code); i++)
        {
            var started = Stopwatch.StartNew();
            ends.Add((await KilledProcess.Signal(signal, () => started.ElapsedMilliseconds >= i % 10 * 10, "explain")).Code);
        }

        Assert.Contains(code, ends);
        Assert.All(ends, end => Assert.True(end == 0 || end == code, $"ended with {end}"));
    }

    [Theory]
    [InlineData("TERM", 143)]
    [InlineData("INT", 130)]
    public async Task A_signal_ends_a_preview(string signal, int code)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "signals are a matter of Unix");
        var (ended, error) = await KilledProcess.Signal(
            signal,
            () => File.Exists(Path.Combine(PrivateFolder.Within(_archive[".asfound"], "cache"), "inputs.bin")),
            "preview",
            "--content",
            _archive["content"]);
        Assert.True(ended == code, $"{ended}: {error}");
        var wait = Stopwatch.StartNew();
        (ended, error) = await KilledProcess.Signal(
            signal, () => wait.ElapsedMilliseconds > 3000, "preview", "--content", _archive["content"]);
        Assert.True(ended == code, $"{ended}: {error}");
    }

    [Fact]
    public async Task An_ended_publication_leaves_a_whole_site_and_the_next_run_goes_on()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "signals are a matter of Unix");
        _archive.Write("content/cables/many.yaml", string.Concat(Enumerable.Range(10, 150)
            .Select(i => $"- {{id: C-{i}, kind: coax-75, ends: [{{at: R1-01}}, {{at: R1-02}}]}}\n")));
        Assert.Equal(0, (await _archive.Run("publish")).Code);
        var whole = KilledProcess.Below(_archive["site"]).Files;
        var (codes, work) = (new List<int>(), Path.Combine(PrivateFolder.Beside(_archive["site"], "publishing"), "next"));
        for (var i = 1; i <= 4; i++)
        {
            _archive.Write("content/archive.yaml", string.Create(CultureInfo.InvariantCulture, $"title: Edition {i}\n"));
            var files = whole * (i - 1) / 3;
            var (code, error) = await KilledProcess.Signal(
                "TERM",
                () => KilledProcess.Below(work).Files > files,
                "publish",
                "--content",
                _archive["content"],
                "--site",
                _archive["site"]);
            codes.Add(code);
            Assert.DoesNotContain("asfound itself", error, StringComparison.Ordinal);
            Assert.True(
                SiteVerdict.Of(_archive["site"]) is { IsWhole: true } || SiteVerdict.Of(_archive["site"]).Why is "",
                SiteVerdict.Of(_archive["site"]).Why);
        }

        Assert.Contains(143, codes);
        Assert.All(codes, code => Assert.True(code is 0 or 143, $"ended with {code}"));
        Assert.Equal(0, (await _archive.Run("publish")).Code);
        Assert.True(SiteVerdict.Of(_archive["site"]).IsWhole);
        Assert.Equal(
            [".asfound", "content", "site"],
            Directory.GetFileSystemEntries(_archive[""]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task An_ended_sealing_leaves_no_bag_and_the_next_run_goes_on()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "signals are a matter of Unix");
        Directory.CreateDirectory(_archive["content/photos"]);
        var random = new Random(7);
        for (var i = 0; i < 30; i++)
        {
            var bytes = new byte[1 << 20];
            random.NextBytes(bytes);
            File.WriteAllBytes(_archive[$"content/photos/{i}.raw"], bytes);
        }

        var codes = new List<int>();
        foreach (var (signal, name) in new[] { ("TERM", "journal"), ("INT", "bag/data/record"), ("TERM", "bag/bagit.txt") })
        {
            var (code, error) = await KilledProcess.Signal(
                signal,
                () => Path.Exists(Path.Combine(PrivateFolder.Beside(_archive["vault/bag"], "sealing"), name)),
                "seal",
                "--content",
                _archive["content"],
                "--to",
                _archive["vault/bag"]);
            codes.Add(code);
            Assert.True(code is 0 or 130 or 143, $"{code}: {error}");
            if (!Directory.Exists(_archive["vault/bag"])) continue;
            Assert.True(Audit.Run(AuditSubject.Bag, _archive["vault/bag"], null, TestContext.Current.CancellationToken).IsValid);
            Directory.Delete(_archive["vault/bag"], recursive: true);
        }

        Assert.Contains(codes, code => code != 0);
        Assert.Equal(0, (await _archive.Run("seal", "--to", _archive["vault/bag"])).Code);
        Assert.Equal(["bag"], Directory.GetFileSystemEntries(_archive["vault"]).Select(Path.GetFileName));
    }

    // It ended between a photo and its sidecar: the copy in the archive is the photo itself, so only the sidecar is still to be written.
    [Fact]
    public async Task An_ended_intake_is_finished_by_the_next()
    {
        Directory.CreateDirectory(_archive["card"]);
        using (var blank = Image.Black(64, 48, 3)) blank.WriteToFile(_archive["card/IMG_1.png"]);
        Directory.CreateDirectory(_archive["content/photos/card"]);
        File.Copy(_archive["card/IMG_1.png"], _archive["content/photos/card/IMG_1.png"]);
        var run = await Asfound.Typed("intake", "photos", _archive["card"], "--content", _archive["content"], "--write");
        Assert.StartsWith("1 new photo in 1 group, no files left alone.\n", run.Error, StringComparison.Ordinal);
        Assert.True(File.Exists(_archive["content/photos/card/IMG_1.yaml"]));

        // Another picture of that name is left alone as before.
        File.Delete(_archive["content/photos/card/IMG_1.yaml"]);
        using (var other = Image.Black(64, 49, 3)) other.WriteToFile(_archive["content/photos/card/IMG_1.png"]);
        run = await Asfound.Typed("intake", "photos", _archive["card"], "--content", _archive["content"], "--write");
        Assert.Contains("IMG_1.png has the same name as another file in the archive", run.Out, StringComparison.Ordinal);
    }

    private void WriteLarge()
    {
        _archive.Write("content/archive.yaml", "title: Large station\nbase: https://archive.example/large/\n");
        _archive.Write(
            "content/frames/many.yaml",
            string.Concat(Enumerable.Range(0, Frames).Select(i => $"- {{id: M-{i:0000}, name: Receiver {i}, was: [W-{i:0000}]}}\n")));

        // Former ids are warned of, once each.
        _archive.Write(
            "content/displays/d.yaml",
            string.Concat(Enumerable.Range(0, Frames).Select(i => $"- {{id: show-{i}, name: Show, needs: [W-{i:0000}]}}\n")));
    }

    private string LostBag()
    {
        _archive.Write("lost/bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n");
        _archive.Write(
            "lost/manifest-sha256.txt", string.Concat(Enumerable.Range(0, 3000).Select(i => $"{new string('0', 64)}  data/{i}\n")));
        return _archive["lost"];
    }

    private string Empty()
    {
        _archive.Write("empty/archive.yaml", "title: Empty\n");
        return _archive["empty"];
    }

    private string ManyNoPhotos()
    {
        for (var i = 0; i < 1500; i++)
            _archive.Write(string.Create(CultureInfo.InvariantCulture, $"card/{new string('n', 40)}{i}.jpg"), "no photo");
        return _archive["card"];
    }
}

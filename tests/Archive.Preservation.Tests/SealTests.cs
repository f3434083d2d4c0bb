using System.Diagnostics;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Xml.Linq;
using Archive.Preservation.Audits;
using Archive.Preservation.Sealing;
using Archive.Records.Reference;
using Xunit;

namespace Archive.Preservation.Tests;

public sealed class SealTests : IDisposable
{
    private readonly SealedStation _station = new();

    public void Dispose() => _station.Dispose();

    [Fact]
    public void A_sealed_record_is_a_valid_bag_with_everything_in_it()
    {
        var done = Assert.IsType<SealResult.Done>(_station.Seal());
        var outcome = _station.Audit();
        Assert.Equal("", string.Join("\n", outcome.Diagnostics));
        Assert.Equal("bag of BagIt 1.0", outcome.Name);
        Assert.Equal(["sha256", "sha512"], outcome.Algorithms);

        var files = _station.Files();
        Assert.Equal(done.Files, files.Count(file => file.StartsWith("data/", StringComparison.Ordinal)));
        foreach (var file in Directory.GetFiles(_station["content"], "*", SearchOption.AllDirectories))
        {
            Assert.Equal(
                File.ReadAllBytes(file),
                File.ReadAllBytes(Path.Combine(_station["vault/small/data/record"], Path.GetRelativePath(_station["content"], file))));
        }

        Assert.Contains("data/site/frames/R1-01/index.html", files);
        Assert.True(Audit.Run(AuditSubject.Site, _station["vault/small/data/site"], null, TestContext.Current.CancellationToken).IsValid);
        foreach (var (name, text) in FormatFiles.All) Assert.Equal(text, File.ReadAllText(_station["vault/small/data/format/" + name]));
        Assert.Contains("data/format/frames.md", files);
        Assert.Contains("data/format/frames.schema.json", files);
        Assert.Equal(["small"], Directory.GetFileSystemEntries(_station["vault"]).Select(Path.GetFileName));

        var info = File.ReadAllLines(_station["vault/small/bag-info.txt"]);
        Assert.Contains("Source-Organization: Small Trust", info);
        Assert.Contains("External-Description: Small station. As found 2026-05-12.", info);
        Assert.Contains("Bagging-Date: 2023-11-14", info); // 1700000000, as the specification of SOURCE_DATE_EPOCH counts
        Assert.Contains("Internal-Sender-Description: Record at git commit none: not kept in git.", info);
        Assert.Contains("Rights: CC-BY-4.0", info);
        var events = XDocument.Load(_station["vault/small/events.xml"])
            .Descendants()
            .Where(element => element.Name.LocalName == "eventType")
            .Select(element => element.Value);
        Assert.Equal(
            ["validation", "creation", "replication", "message digest calculation", "information package creation", "fixity check"],
            events);
    }

    [Fact]
    public void The_same_record_gives_the_same_bytes()
    {
        _station.Seal();
        _station.Seal("elsewhere/small");
        _station.Seal("later/small", now: DateTimeOffset.FromUnixTimeSeconds(1_800_000_000));
        Assert.Equal(_station.Files(), _station.Files("elsewhere/small"));
        Assert.All(_station.Files(), file =>
            Assert.Equal(File.ReadAllBytes(_station["vault/small/" + file]), File.ReadAllBytes(_station["elsewhere/small/" + file])));
        Assert.Equal(
            ["bag-info.txt", "events.xml", "tagmanifest-sha256.txt", "tagmanifest-sha512.txt"],
            _station.Files().Where(file => !File.ReadAllBytes(_station["vault/small/" + file])
                .AsSpan()
                .SequenceEqual(File.ReadAllBytes(_station["later/small/" + file]))));
    }

    [Fact]
    public void A_packed_bag_is_the_bag_and_the_same_each_time()
    {
        _station.Seal();
        _station.Seal("packed/small", zip: true);
        _station.Seal("again/small", zip: true);
        Assert.Equal(File.ReadAllBytes(_station["packed/small.zip"]), File.ReadAllBytes(_station["again/small.zip"]));
        ZipFile.ExtractToDirectory(_station["packed/small.zip"], _station["unpacked"]);
        Assert.Equal(_station.Files(), _station.Files("unpacked/small"));
        Assert.All(_station.Files(), file =>
            Assert.Equal(File.ReadAllBytes(_station["vault/small/" + file]), File.ReadAllBytes(_station["unpacked/small/" + file])));
        Assert.True(_station.Audit("unpacked/small").IsValid);
        using var zip = ZipFile.OpenRead(_station["packed/small.zip"]);
        Assert.All(zip.Entries, entry =>
            Assert.Equal((entry.Length, new DateTime(2023, 11, 14)), (entry.CompressedLength, entry.LastWriteTime.Date)));
    }

    [Fact]
    public void A_bag_is_never_changed_and_a_faulty_record_never_sealed()
    {
        _station.Seal();
        Assert.Equal("AF1228", Assert.IsType<SealResult.Refused>(_station.Seal()).Why.Code);
        _station.Write("content/frames/r2.yaml", "- {id: R1-01}\n");
        Assert.NotEmpty(Assert.IsType<SealResult.Withheld>(_station.Seal("vault/next")).Faults);
        Assert.False(Directory.Exists(_station["vault/next"]));
    }

    [Fact]
    public void Documents_are_sealed_with_their_checksums_and_withheld_ones_apart()
    {
        _station.Write("content/documents/log.txt", "Pair 24 moved from J11 to J08.\n");
        _station.Write("content/documents/letter.txt", "Not to be printed.\n");
        _station.Write("content/documents/copy.txt", "Not to be printed.\n");
        const string Sum = "c0cf95af2fb276ebfaf1ee6cae6e69d63a5a49bb1d5a8d0a3a6e5c6a07ac3fd2";
        var records = """
            - {id: D-1, name: Log, files: [{file: log.txt, sha256: SUM}], about: R1-01}
            - {id: D-2, name: Letter, files: letter.txt, withheld: the writer asked for it}
            - {id: D-3, name: Copy of the letter, files: copy.txt}
            """.Replace("SUM", Sum, StringComparison.Ordinal);
        _station.Write("content/documents/d.yaml", records);
        Assert.Equal("AF1227", Assert.IsType<SealResult.Withheld>(_station.Seal()).Faults.Single().Code);
        Assert.Contains("AF1812", Assert.IsType<SealResult.Withheld>(
            _station.Seal(withheld: Withholding.Apart)).Faults.Select(fault => fault.Code));

        var right = Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(_station["content/documents/log.txt"])));
        _station.Write("content/documents/d.yaml", records.Replace(Sum, right, StringComparison.Ordinal));
        Assert.IsType<SealResult.Done>(_station.Seal(withheld: Withholding.Apart));
        Assert.True(_station.Audit().IsValid);
        Assert.True(_station.Audit("vault/small-withheld").IsValid);
        Assert.Contains($"{right}  data/record/documents/log.txt", File.ReadLines(_station["vault/small/manifest-sha256.txt"]));
        Assert.Contains($"data/site/files/{right[..2]}/{right[..32]}.txt", _station.Files());

        // Neither the letter nor its copy is in the bag, in its record or its site; both are listed as withheld.
        Assert.DoesNotContain(_station.Files(), file =>
            file.StartsWith("data/", StringComparison.Ordinal)
            && File.ReadAllText(_station["vault/small/" + file]).StartsWith("Not to be printed.", StringComparison.Ordinal));
        Assert.Equal(
            2,
            File.ReadLines(_station["vault/small/withheld.txt"]).Count(line => line.Contains("documents/", StringComparison.Ordinal)));
    }

    [Fact]
    public void Two_do_not_seal_into_one_place()
    {
        Directory.CreateDirectory(_station["vault"]);
        using (SealingFolder.Take(_station["vault/small"]))
        {
            Assert.Equal("AF1229", Assert.IsType<SealResult.Refused>(_station.Seal()).Why.Code);
        }

        Assert.IsType<SealResult.Done>(_station.Seal());
    }

    // What the bag itself tells a stranger to type, typed; then again with a file flipped, lost, and added.
    [Fact]
    public async Task A_stranger_checks_the_bag_with_ordinary_tools()
    {
        // With names that lists escape, as the station has; then with odder ones; then with none.
        await TryTheGuide("a per cent sign");
        _station.Write("content/photos/line %0A %.txt", "x");
        await TryTheGuide("what looks like a line's end");
        File.Delete(_station["content/photos/line %0A %.txt"]);

        // A name that breaks lines, or that is another name on Windows, is an error of the record.
        foreach (var name in (string[])["broken\nline.txt", "back\\slash.txt"])
        {
            _station.Write("content/photos/" + name, "x");
            Assert.Contains(
                "AF0011", Assert.IsType<SealResult.Withheld>(_station.Seal("vault/broken")).Faults.Select(diagnostic => diagnostic.Code));
            File.Delete(_station["content/photos/" + name]);
        }

        File.Delete(_station["content/photos/100% a.jpg"]);
        _station.Write("content/photos/p.yaml", "- {id: P-2, file: b.jpg}\n");
        Assert.DoesNotContain("sed", await TryTheGuide("plain"), StringComparison.Ordinal);
    }

    private async Task<string> TryTheGuide(string name)
    {
        var bag = "vault/" + name;
        _station.Seal(bag);
        var commands = File.ReadAllLines(_station[bag + "/how-to-check.txt"])
            .Where(line => line.StartsWith("    $ ", StringComparison.Ordinal))
            .Select(line => line[6..])
            .ToList();
        Assert.Equal(3, commands.Count);
        Assert.Equal([true, true, true], await Verdicts());

        var page = _station[bag + "/data/record/frames/r1.yaml"];
        var bytes = File.ReadAllBytes(page);
        File.WriteAllBytes(page, [.. bytes.Select((each, i) => i == 7 ? (byte)(each ^ 1) : each)]);
        Assert.Equal([false, true, true], await Verdicts());
        File.Delete(page);
        Assert.Equal([false, true, false], await Verdicts());
        File.WriteAllBytes(page, bytes);
        _station.Write(bag + "/data/record/frames/r9.yaml", "");
        Assert.Equal([true, true, false], await Verdicts());
        File.Delete(_station[bag + "/data/record/frames/r9.yaml"]);
        File.AppendAllText(_station[bag + "/bag-info.txt"], "Contact-Name: x\n");
        Assert.Equal([true, false, true], await Verdicts());
        return string.Concat(commands);

        async Task<List<bool>> Verdicts()
        {
            var verdicts = new List<bool>();
            foreach (var command in commands)
            {
                using var shell = Process.Start(new ProcessStartInfo("bash", ["-c", command])
                {
                    WorkingDirectory = _station[bag],
                    RedirectStandardError = true,
                    RedirectStandardOutput = true
                })!;
                var said = shell.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
                await shell.WaitForExitAsync(TestContext.Current.CancellationToken);
                Assert.Equal(shell.ExitCode == 0, (await said).Length == 0 && shell.ExitCode == 0);
                verdicts.Add(shell.ExitCode == 0);
            }

            return verdicts;
        }
    }

    [Fact]
    public void The_commit_is_told_and_whether_it_is_the_whole_truth()
    {
        Git("init", "-q", "-b", "main");
        Git("add", "content");
        Git("-c", "user.name=hk", "-c", "user.email=hk@archive.example", "commit", "-q", "-m", "first");
        var commit = Git("rev-parse", "HEAD").Trim();

        // What desktops leave behind is no part of the record.
        _station.Write("content/photos/Thumbs.db", "x");
        _station.Seal();
        var info = File.ReadAllLines(_station["vault/small/bag-info.txt"]);
        Assert.Contains($"Internal-Sender-Identifier: git:{commit}", info);
        Assert.Contains($"Internal-Sender-Description: Record at git commit {commit}.", info);
        _station.Write("content/frames/r3.yaml", "- {id: R1-03, name: Receiver three}\n");
        _station.Seal("vault/next");
        Assert.Contains(
            $"Internal-Sender-Description: Record at git commit {commit}, with changes that were not committed.",
            File.ReadAllLines(_station["vault/next/bag-info.txt"]));
    }

    private string Git(params string[] arguments)
    {
        using var git =
            Process.Start(new ProcessStartInfo("git", arguments) { WorkingDirectory = _station[""], RedirectStandardOutput = true })!;
        var said = git.StandardOutput.ReadToEnd();
        git.WaitForExit();
        Assert.Equal(0, git.ExitCode);
        return said;
    }
}

using System.Diagnostics;
using Archive.Storage;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>A publishing process is killed at random moments: the site is the old one or the new one, whole, each time.</summary>
public sealed class KillTests : IDisposable
{
    private static readonly int Kills = KilledProcess.Times(5);
    private readonly Asfound _archive = new();

    public void Dispose() => _archive.Dispose();

    [Fact]
    public async Task A_killed_publication_leaves_the_old_site_or_the_new()
    {
        Directory.CreateDirectory(_archive["site/.git"]);
        _archive.Write("site/.git/HEAD", "ref");
        WriteEdition(0);
        Assert.NotNull(await Publish(null));
        var whole = KilledProcess.Below(_archive["site"]).Files;
        var seed = Environment.TickCount;
        var random = new Random(seed);
        var standing = 0;
        var (killed, replaced) = (0, 0);
        for (var edition = 1; edition <= Kills; edition++)
        {
            WriteEdition(edition);
            if (await Publish(Moment(random, whole, edition)) is null) killed++;
            var verdict = SiteVerdict.Of(_archive["site"], except: ".git");
            Assert.True(verdict.IsWhole, $"seed {seed}, edition {edition}: {verdict.Why}");
            Assert.True(File.Exists(_archive["site/.git/HEAD"]), $"seed {seed}, edition {edition}: the owner's folder is gone");
            var now = Edition();
            Assert.True(now == standing || now == edition, $"seed {seed}: edition {now} stands, expected {standing} or {edition}");
            if (now == edition) replaced++;
            standing = now;
        }

        // The moments were spread from start-up to behind the end, and none left anything in the next one's way.
        Assert.InRange(killed, Kills / 5, Kills);
        Assert.NotNull(await Publish(null));
        Assert.Equal(Kills, Edition());
        Assert.Equal("ref", File.ReadAllText(_archive["site/.git/HEAD"]));
        Assert.Equal(
            [".asfound", "content", "site"],
            Directory.GetFileSystemEntries(_archive[""]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        TestContext.Current.TestOutputHelper?.WriteLine($"{killed} killed, of all {replaced} had the new site in place");
    }

    // Every page carries the title, so every page is another in each edition.
    private void WriteEdition(int edition)
    {
        _archive.Write("content/archive.yaml", $"title: Edition {edition}.\n");
        if (edition > 0) return;
        _archive.Write("content/cables/many.yaml", string.Concat(Enumerable.Range(10, 120)
            .Select(i => $"- {{id: C-{i}, kind: coax-75, ends: [{{at: R1-01}}, {{at: R1-02}}]}}\n")));
    }

    private int Edition()
    {
        var editions = Directory.GetFiles(_archive["site"], "index.html", SearchOption.AllDirectories)
            .Select(page => System.Text.RegularExpressions.Regex.Match(File.ReadAllText(page), @"Edition (\d+)\.").Groups[1].Value)
            .Distinct()
            .ToList();
        return int.Parse(Assert.Single(editions), System.Globalization.CultureInfo.InvariantCulture);
    }

    // Before anything is done, while the new tree grows, and once the new site is in place and the old one goes.
    private Func<bool> Moment(Random random, int whole, int edition)
    {
        var (started, wait, files) = (Stopwatch.StartNew(), random.Next(400), random.Next(whole));

        // The first is killed as it starts, so one is for certain, whatever the others draw.
        return (edition == 1 ? 0 : random.Next(4)) switch
        {
            0 => () => started.ElapsedMilliseconds > wait,
            1 => () => File.Exists(_archive["site/index.html"]) && Has(edition),
            _ => () => KilledProcess.Below(Path.Combine(PrivateFolder.Beside(_archive["site"], "publishing"), "next")).Files > files,
        };
    }

    private bool Has(int edition)
    {
        try
        {
            return File.ReadAllText(_archive["site/index.html"]).Contains($"Edition {edition}.", StringComparison.Ordinal);
        }
        catch (IOException)
        {
            return false;
        }
    }

    private Task<string?> Publish(Func<bool>? kill) =>
        KilledProcess.Run(kill, "publish", "--content", _archive["content"], "--site", _archive["site"]);
}

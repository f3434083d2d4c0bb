using Archive.Preservation.Audits;
using Archive.Storage;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>A sealing process is killed at random moments: there is no bag or a whole one each time, and the next run goes on.</summary>
public sealed class SealKillTests : IDisposable
{
    private static readonly int Kills = KilledProcess.Times(4);
    private readonly Asfound _archive = new();

    public void Dispose() => _archive.Dispose();

    [Fact]
    public async Task A_killed_sealing_leaves_no_bag_or_a_whole_one()
    {
        _archive.Write("content/cables/many.yaml", string.Concat(Enumerable.Range(10, 150)
            .Select(i => $"- {{id: C-{i}, kind: coax-75, ends: [{{at: R1-01}}, {{at: R1-02}}]}}\n")));
        Directory.CreateDirectory(_archive["content/photos"]);
        var random = new Random(7);
        for (var i = 0; i < 40; i++)
        {
            var bytes = new byte[i == 0 ? 40 << 20 : 1 << 20];
            random.NextBytes(bytes);
            File.WriteAllBytes(_archive[$"content/photos/{i}.raw"], bytes);
        }

        foreach (var file in Directory.GetFiles(_archive["content"], "*", SearchOption.AllDirectories))
            File.SetLastWriteTimeUtc(file, new DateTime(2026, 5, 13));
        Assert.NotNull(await Seal(null));
        var whole = KilledProcess.Below(_archive["vault/bag"]).Bytes;
        Assert.True(Audit.Run(AuditSubject.Bag, _archive["vault/bag"], null, TestContext.Current.CancellationToken).IsValid);
        Directory.Delete(_archive["vault"], recursive: true);

        var seed = Environment.TickCount;
        var moments = new Random(seed);
        var (killed, resumed, bags) = (0, 0, 0);
        for (var i = 0; i < Kills; i++)
        {
            var said = await Seal(i == 0 ? Halfway(whole) : Moment(moments, whole));
            if (said is null) killed++;
            else if (said.Contains("by the run before", StringComparison.Ordinal)) resumed++;
            if (!Directory.Exists(_archive["vault/bag"])) continue;
            bags++;
            var audit = Audit.Run(AuditSubject.Bag, _archive["vault/bag"], null, TestContext.Current.CancellationToken);
            Assert.True(audit.IsValid, $"seed {seed}, run {i}: {string.Join("; ", audit.Diagnostics)}");
            Directory.Delete(_archive["vault/bag"], recursive: true);
        }

        Assert.True(killed > 0, $"seed {seed}: only {killed} of {Kills} were killed");
        Assert.NotNull(await Seal(null));
        Assert.True(Audit.Run(AuditSubject.Bag, _archive["vault/bag"], null, TestContext.Current.CancellationToken).IsValid);
        Assert.Equal(["bag"], Directory.GetFileSystemEntries(_archive["vault"]).Select(Path.GetFileName));
        TestContext.Current.TestOutputHelper?.WriteLine($"{killed} killed, {bags} bags, {resumed} of them gone on with");
    }

    // The first is killed for certain, whatever the others draw.
    private Func<bool> Halfway(long whole) => () => KilledProcess.Below(_archive["vault"]).Bytes > whole / 2;

    // While the site is made, while files are copied, and while the papers are written, read back and put in place. Every third or so goes
    // on to its end: there is something to go on from.
    private Func<bool> Moment(Random moments, long whole)
    {
        var left = KilledProcess.Below(_archive["vault"]).Bytes;
        var bytes = left + ((whole - left) * moments.NextDouble());
        return moments.Next(6) switch
        {
            0 or 1 => () => false,
            2 => () => File.Exists(Path.Combine(PrivateFolder.Beside(_archive["vault/bag"], "sealing"), "bag/bagit.txt"))
                || Directory.Exists(_archive["vault/bag"]),
            _ => () => KilledProcess.Below(_archive["vault"]).Bytes > bytes,
        };
    }

    private Task<string?> Seal(Func<bool>? kill) =>
        KilledProcess.Run(kill, "seal", "--content", _archive["content"], "--to", _archive["vault/bag"]);
}

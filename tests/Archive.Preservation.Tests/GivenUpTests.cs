using Archive.Preservation.Audits;
using Archive.Preservation.Sealing;
using Archive.Publishing.Building;
using Archive.Publishing.Caching;
using Archive.Publishing.Requests;
using Xunit;

namespace Archive.Preservation.Tests;

/// <summary>
/// Whatever publishing, sealing and auditing are at, they give up when they are asked to, leave nothing half done, and do it when they are
/// asked again. What a signal does to the process is tested with the commands.
/// </summary>
public sealed class GivenUpTests : IDisposable
{
    private readonly SealedStation _station = new();

    public void Dispose() => _station.Dispose();

    [Fact]
    public void Publishing_is_given_up_at_every_step_and_at_every_file()
    {
        using var steps = new Steps(-1);
        Publish("whole", steps);
        Assert.Equal([BuildStep.Check, BuildStep.Develop, BuildStep.Make], steps.Seen.Distinct());
        for (var at = 0; at < steps.Seen.Count; at += at < 6 || at > steps.Seen.Count - 12 ? 1 : 7)
        {
            using var given = new Steps(at);
            Assert.ThrowsAny<OperationCanceledException>(() => Publish("site", given));
            Assert.False(Directory.Exists(_station["site"]));
        }

        using var last = new Steps(-1);
        Assert.IsType<BuildStatus.Published>(Publish("site", last).Status);
        Assert.Empty(Directory.GetFileSystemEntries(_station["."], ".*publishing*"));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Sealing_is_given_up_at_every_step_and_goes_on(bool zip)
    {
        using var steps = new Steps(-1);
        _station.SealUntil("whole/small", zip, steps, steps.Token);
        Assert.Contains(BuildStep.Seal, steps.Seen);
        var first = steps.Seen.Select((step, i) => (step, i)).DistinctBy(seen => seen.step).Select(seen => seen.i);
        foreach (var at in first.Append(steps.Seen.Count - 1))
        {
            using var given = new Steps(at);
            var vault = $"vault-{at}";
            Assert.ThrowsAny<OperationCanceledException>(
                () => _station.SealUntil($"{vault}/small", zip, given, given.Token));
            Assert.False(Path.Exists(_station[$"{vault}/small{(zip ? ".zip" : "")}"]));
            Assert.IsType<SealResult.Done>(_station.Seal($"{vault}/small", zip: zip));
            Assert.Single(Directory.GetFileSystemEntries(_station[vault]));
        }
    }

    [Fact]
    public void An_audit_is_given_up_before_it_begins_and_while_it_reads()
    {
        _station.Seal();
        _station.Seal("packed/small", zip: true);
        foreach (var isAskedBefore in new[] { false, true })
        {
            using var given = new Steps(0, isAskedBefore);
            Assert.ThrowsAny<OperationCanceledException>(() => Audit.OfPacked(_station["packed/small.zip"], given, given.Token));
            Assert.ThrowsAny<OperationCanceledException>(() => Audit.Run(AuditSubject.Bag, _station["vault/small"], given, given.Token));
            Assert.InRange(given.Seen.Count, 0, 2 * Environment.ProcessorCount);
        }
    }

    private BuildResult Publish(string site, Steps steps)
    {
        var content = _station["content"];
        var build = new BuildOptions(
            content,
            "content/",
            CacheFolder.Open(_station["cache"], content),
            [Path.GetFullPath(Path.Combine(TestFolder.Folder, "../../themes"))]);
        return SiteBuild.Publish(build, _station[site], site, steps, steps.Token);
    }

    // Asks to stop at one report, counted from 0; at none where that is below.
    private sealed class Steps : IProgress<BuildProgress>, IDisposable
    {
        private readonly CancellationTokenSource _source = new();
        private readonly Lock _one = new();
        private readonly int _at;

        internal Steps(int at, bool isAskedBefore = false)
        {
            _at = at;
            if (isAskedBefore) _source.Cancel();
        }

        internal CancellationToken Token => _source.Token;

        internal List<BuildStep> Seen { get; } = [];

        public void Dispose() => _source.Dispose();

        public void Report(BuildProgress value)
        {
            lock (_one)
            {
                if (Seen.Count == _at) _source.Cancel();
                Seen.Add(value.Step);
            }
        }
    }
}

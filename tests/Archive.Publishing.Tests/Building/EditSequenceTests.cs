using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Archive.Publishing.Building;
using Archive.Publishing.Caching;
using Archive.Publishing.Incremental;
using Archive.Publishing.Publication;
using Archive.Publishing.Requests;
using Archive.Records.Reading;
using CsCheck;
using Xunit;

namespace Archive.Publishing.Tests.Building;

/// <summary>
/// Whatever is edited, and however often it is published in between: the site is the one that is built from nothing. Few edits in CI;
/// <c>CsCheck_Time=3600</c> tries for an hour.
/// </summary>
public sealed class EditSequenceTests
{
    private const string Manifest = "site.sha256";

    private static CancellationToken Patience => TestContext.Current.CancellationToken;

    [Fact]
    public void Edits_that_are_published_step_by_step_give_the_site_that_is_built_from_nothing() => Gen.Int.Sample(
        seed =>
        {
            using var station = new Station();
            station.CopyTheme();
            var edits = new Edits(station, new Random(seed));
            var (withErrors, session) = (false, new SiteSession(station.Options()));
            for (var step = 0; step < 5; step++)
            {
                if (edits.Next())
                {
                    withErrors = !withErrors;
                    session = new SiteSession(station.Options() with { WithErrors = withErrors });
                }

                if (!IsWhole(station.Publish("site", "cache", withErrors))) return false;
                session.Update(Patience);
            }

            var cold = Text(station.Publish("cold", "cold-cache", withErrors)[Manifest]);
            return Text(station.FilesOf("site")[Manifest]) == cold && Text(session.Site!.Read(Manifest)!.Value.Bytes.Span) == cold;
        },
        iter: 2,
        threads: 1);

    // The test of the test: where the content of one file is left out of what decides, the sites differ.
    [Fact]
    public void A_dependency_that_is_forgotten_shows()
    {
        using var station = new Station();
        station.Write("frames/one.yaml", "- {id: R7-01, name: Before}\n");
        var (memory, before) = (new BuildMemory(), Take(station));
        Prepare(station, before, memory);
        station.Write("frames/one.yaml", "- {id: R7-01, name: After}\n");
        var now = Take(station);
        var forgetful = now with
        {
            Files = now.Files.ToDictionary(
                file => file.Key, file => file.Key == "frames/one.yaml" ? before.Files[file.Key] : file.Value).ToFrozenDictionary()
        };
        var cold = Text(station.Publish("cold", "cold-cache")[Manifest]);
        Assert.NotEqual(cold, Prepare(station, forgetful, memory));
        Assert.Equal(cold, Prepare(station, now, memory));
    }

    [Fact]
    public void A_cache_that_is_damaged_in_any_way_changes_nothing()
    {
        using var station = new Station();
        var cold = Text(station.Publish("site", "cache")[Manifest]);
        var cache = station.Options().Cache.Folder;
        foreach (var (round, file) in Directory.GetFiles(cache, "*.bin", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Index())
        {
            var whole = File.ReadAllBytes(file);
            foreach (var at in (int[])[whole.Length / 3, whole.Length - 1])
            {
                var damaged = (byte[])whole.Clone();
                damaged[at] ^= 0x20;
                File.WriteAllBytes(file, damaged);
                Assert.Equal(cold, Text(station.Publish("site", "cache")[Manifest]));
            }

            File.WriteAllBytes(file, whole[..(whole.Length / 2)]);
            station.Write("frames/one.yaml", $"- {{id: R7-0{round}, name: One}}\n");
            cold = Text(station.Publish($"cold-{round}", $"cold-cache-{round}")[Manifest]);
            Assert.Equal(cold, Text(station.Publish("site", "cache")[Manifest]));
        }
    }

    // The tree of a publication is made of the one before the last.
    private static bool IsWhole(ImmutableSortedDictionary<string, byte[]> site) => site
        .Remove(Manifest)
        .Select(file => (file.Key, Convert.ToHexStringLower(SHA256.HashData(file.Value))))
        .SequenceEqual(SiteManifest.Read(Text(site[Manifest]))!
            .Select(file => (file.Key, file.Value))
            .OrderBy(file => file.Key, StringComparer.Ordinal));

    private static string Text(ReadOnlySpan<byte> bytes) => Encoding.UTF8.GetString(bytes);

    private static Fingerprint Take(Station station)
    {
        var options = station.Options();
        var stamps = InputStamps.Open(options.Cache, TimeProvider.System);
        return Fingerprint.Compute(options, Folder(options), stamps, Patience);
    }

    private static string Prepare(Station station, Fingerprint fingerprint, BuildMemory memory)
    {
        var options = station.Options();
        var site = PreparedSite.Prepare(options, Folder(options), fingerprint, memory, isWhole: false, null, Patience);
        return Text(new SiteSnapshot(site.Parts!.Value, site.Offline!, options).Read(Manifest)!.Value.Bytes.Span);
    }

    private static ArchiveFolder Folder(BuildOptions options) => new(options.Content);

    /// <summary>Edits that leave the record without errors.</summary>
    private sealed class Edits(Station station, Random random)
    {
        private readonly List<(string Id, string Name, string Was, bool IsWithdrawn, int File)> _frames = [];
        private int _number;

        /// <summary>Makes one.</summary>
        /// <returns>Whether the option to publish with errors is to change, and nothing else.</returns>
        internal bool Next()
        {
            var kind = _frames.Count == 0 ? 0 : random.Next(10);
            var at = random.Next(Math.Max(1, _frames.Count));
            switch (kind)
            {
                case 0:
                    _frames.Add(($"R7-{++_number:00}", $"Frame {random.Next(100)}", "", false, random.Next(3)));
                    break;
                case 1:
                    _frames[at] = _frames[at] with { Name = $"Renamed {random.Next(100)}" };
                    break;
                case 2 when _frames[at].Was.Length == 0:
                    _frames[at] = _frames[at] with { Id = $"R7-{++_number:00}", Was = _frames[at].Id };
                    break;
                case 3:
                    _frames[at] = _frames[at] with { IsWithdrawn = !_frames[at].IsWithdrawn };
                    break;
                case 4:
                    _frames[at] = _frames[at] with { File = random.Next(3) };
                    break;
                case 5:
                    station.WritePicture("photos/row2/a.jpg", random.Next(250));
                    break;
                case 6:
                    var template = Path.Combine(station.Themes, "ledger/templates", random.Next(2) == 0 ? "frame.html" : "layout.html");
                    File.WriteAllText(template, File.ReadAllText(template).TrimEnd() + $"<!-- {random.Next(100)} -->\n");
                    break;
                case 7:
                    return true;
                case 8:
                    var statement = File.ReadAllLines(station["archive.yaml"]).Select(line =>
                        line.StartsWith("title:", StringComparison.Ordinal) ? $"title: Station {random.Next(100)}" : line);
                    station.Write("archive.yaml", string.Join('\n', statement) + "\n");
                    break;
                default:
                    station.Write("cables/edited.yaml", string.Concat(Enumerable.Range(9000, random.Next(4)).Select(i =>
                        $"- {{id: C-{i}, kind: coax-75, label: L{random.Next(50)}, ends: [{{at: R2-05}}, {{at: R20-6}}]}}\n")));
                    break;
            }

            for (var file = 0; file < 3; file++) Write(file);
            return false;
        }

        private void Write(int file)
        {
            var text = string.Concat(_frames.Where(frame => frame.File == file).Select(frame =>
            {
                var was = frame.Was.Length > 0 ? $", was: [{frame.Was}]" : "";
                return $"- {{id: {frame.Id}, name: {frame.Name}{was}{(frame.IsWithdrawn ? ", withdrawn: a mistake" : "")}}}\n";
            }));
            if (text.Length > 0) station.Write($"frames/edited-{file}.yaml", text);
            else File.Delete(station[$"frames/edited-{file}.yaml"]);
        }
    }
}

using System.Globalization;
using System.Text;
using Archive.Halls.Checks;
using Archive.Halls.Layout;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using Archive.Records.Reading;
using CsCheck;
using Xunit;

namespace Archive.Halls.Tests;

/// <summary>Very many frames or trays at one place cost no more than n log n, and are reported.</summary>
public sealed class CrowdTests
{
    private static readonly Gen<Footprint[]> Footprints =
        Gen.Select(Gen.Int[0, 30], Gen.Int[0, 30], Gen.Int[1, 12], Gen.Int[1, 12], (x, y, width, depth) =>
            new Footprint(x, y, x + width, y + depth)).Array[0, 40];

    [Fact]
    public void The_tree_finds_what_going_through_all_finds_in_the_same_order() => Footprints.Sample(
        all =>
        {
            var tree = new FootprintTree(all);
            for (var i = 0; i < all.Length; i++)
            {
                var one = all[i];
                Assert.Equal(Enumerable.Range(0, i).Where(j => all[j].Overlap(one) > Footprint.Touch), tree.Overlapping(one, i));
            }
        },
        iter: 2_000);

    [Theory]
    [InlineData("at one place")]
    [InlineData("each a little aside")]
    [InlineData("the last first")]
    [InlineData("small ones and great ones")]
    public void Looking_for_overlaps_grows_no_faster_than_n_log_n(string how)
    {
        var few = Visited(how, 2_000);
        Assert.InRange(Visited(how, 4_000), 0, few * 2.5);
    }

    [Fact]
    public void A_thousand_frames_at_one_place_are_each_told()
    {
        var sketch = new StringBuilder();
        var rows = string.Join(
            ", ", Enumerable.Range(0, 1_000).Select(i => $"{{id: r{i}, at: [0, 0], runs: east, faces: south, frames: [F-{i}]}}"));
        for (var i = 0; i < 1_000; i++)
            sketch.Append(CultureInfo.InvariantCulture, $"- {{id: F-{i}, name: F, size: 600 x 600 x 2000 mm}}\n");
        var told = HallSpaceChecks.Check(
            Read(("frames/f.yaml", sketch.ToString()), ("halls/h.yaml", $"- {{id: h, name: H, as_found: true, rows: [{rows}]}}\n")));
        Assert.Equal(999, told.Length);
        Assert.Equal("frame F-1 overlaps frame F-0 by 600 mm", told[0].Message);
        Assert.Equal("frame F-999 overlaps frame F-0 by 600 mm, and at least 10 more", told[^1].Message);
    }

    [Fact]
    public void Frames_held_against_very_many_obstacles_are_too_many_at_some_point()
    {
        var frames = string.Concat(Enumerable.Range(0, 500).Select(i => $"- {{id: F-{i}, name: F, size: 10 x 10 x 2000 mm}}\n"));
        var row = $"{{id: r, at: [4000, 100], runs: east, faces: south, frames: [{string.Join(", ", Enumerable.Range(0, 500).Select(i => $"F-{i}"))}]}}";
        var obstacles = string.Join(", ", Enumerable.Range(0, 500).Select(i => $"{{outline: [[0, 0], [0, 9000], [9000, {9000 + i}]]}}"));
        var told = HallSpaceChecks.Check(Read(
            ("frames/f.yaml", frames),
            ("halls/h.yaml", $"- {{id: h, name: H, as_found: true, rows: [{row}], obstacles: [{obstacles}]}}\n")));
        Assert.Equal("AF0220", Assert.Single(told).Code);
    }

    [Theory]
    [InlineData(400, 0)]
    [InlineData(1_000, 1)]
    public void Trays_that_all_come_near_each_other_are_too_many_at_some_point(int count, int told)
    {
        var trays = string.Concat(Enumerable.Range(0, count)
            .Select(i => $"- {{id: T-{i}, hall: h, path: [[0, {i % 9}], [9000, {i % 9}]], height: 2700 mm}}\n"));
        var record = Read(("halls/h.yaml", "- {id: h, name: H, as_found: true}\n"), ("trays/t.yaml", trays));
        Assert.Equal(told, HallSpaceChecks.Check(record).Count(each => each.Code == "AF0220"));
        Assert.Equal(told == 0, TrayNetwork.Create(record.Trays).AreAllJoined);
    }

    private static ArchiveModel Read(params (string Path, string Text)[] files) => ArchiveModel.From(RecordReader.Read(
        files.Aggregate(InMemoryFolder.Empty.With("archive.yaml", "title: T\n"), (folder, file) => folder.With(file.Path, file.Text)),
        TestContext.Current.CancellationToken));

    // Each asks for as many as are reported.
    private static long Visited(string how, int count)
    {
        var all = Enumerable.Range(0, count).Select(i => how switch
        {
            "at one place" => new Footprint(0, 0, 600, 600),
            "each a little aside" => new Footprint(i * 0.1, i * 0.1, 600 + (i * 0.1), 600 + (i * 0.1)),
            "the last first" => new Footprint(-i, 0, 600 - i, 600),
            _ => i < count / 2 ? new Footprint(i * 10, 0, (i * 10) + 5, 5) : new Footprint(0, 0, count * 10, 600),
        }).ToArray();
        var tree = new FootprintTree(all);
        for (var i = 0; i < count; i++) _ = tree.Overlapping(all[i], i).Take(11).Count();
        return tree.Visited;
    }
}

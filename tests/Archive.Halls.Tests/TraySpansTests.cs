using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Halls.Trays;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using CsCheck;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

/// <summary>
/// By hand, in the hall of <see cref="ReachTests"/>: from A, whose middle is at x = 1330, along T1 to T2 at x = 6000, and along T2, which
/// begins at y = 2000, from y = 3000 to B at y = 5695.
/// </summary>
public class TraySpansTests
{
    private static readonly Archive.Records.Model.Hall Origin = HallOf(
        "origin",
        Row("n1", new(1000, 2800), Compass.East, Compass.South, "A"),
        Row("n2", new(6400, 6000), Compass.East, Compass.South, "B"));

    private static readonly ArchiveModel Record = RecordOf(
        Frame("A"),
        Frame("B"),
        Tray("T1", "origin", new(0, 3000), new(9000, 3000)),
        Tray("T2", "origin", new(6000, 2000), new(6000, 8000)),
        Cable("C1", null, ["T1", "T2"]),
        Cable("C2", null, ["T1", "T2"]),
        Cable("C3", null, ["T1"]),
        Origin);

    [Theory]
    [InlineData("T1", 1330, 6000)]
    [InlineData("T2", 1000, 3695)]
    public void A_cable_lies_from_where_it_comes_in_to_where_it_leaves(string tray, double from, double to)
    {
        var span = Spans(tray, "A", "B").All.Single(span => span.Lying.Cable.Id == "C1");
        Assert.Equal((from, to, true), (span.From, span.To, span.IsKnown));
    }

    [Fact]
    public void Where_an_end_is_not_known_it_may_lie_in_all_of_its_last_tray()
    {
        var span = Spans("T2", "A", null).All.Single(span => span.Lying.Cable.Id == "C1");
        Assert.Equal((0d, 6000d, false), (span.From, span.To, span.IsKnown));
        Assert.True(Spans("T1", "A", null).All.Single(span => span.Lying.Cable.Id == "C1").IsKnown);
    }

    [Fact]
    public void Sections_show_what_lies_there()
    {
        // Both ends of C3 are unknown: it may be anywhere in T1. C1 and C2 are there between 1330 and 6000.
        var spans = Spans("T1", "A", "B");
        Assert.Equal(["C3"], spans.At(1000).Contents.Cables.Select(lying => lying.Cable.Id));
        Assert.Equal((3, 1), (spans.At(4000).Contents.Cables.Length, spans.At(4000).Unsure));
        Assert.Equal([(0d, 1330d, 1), (1330d, 6000d, 3), (6000d, 9000d, 1)], spans.Profile());
        Assert.Equal([1, 3, 1], spans.Stations(3).Select(station => station.Contents.Cables.Length));
        Assert.Equal([665d, 3665d, 7500d], spans.Stations(9).Select(station => station.At.Millimeters));
        Assert.Equal([3], spans.Stations(1).Select(station => station.Contents.Cables.Length));
    }

    // A section has what the profile says of its place.
    [Fact]
    public void Every_section_is_one_of_the_profile() => Gen.Select(Gen.Int[0, 9000], Gen.Int[0, 9000]).Array[1, 30].Sample(ends =>
    {
        var cables = ends.Select((end, i) => new LyingSpan(
            new LyingCable(Cable($"C{i}", null, []), null, 0), Math.Min(end.Item1, end.Item2), Math.Max(end.Item1, end.Item2), true));
        var spans = new TraySpans(Tray("T", "origin", new(0, 0), new(9000, 0)), 9000, [.. cables]);
        var profile = spans.Profile().ToList();
        Assert.Equal(9000, profile.Sum(piece => piece.To - piece.From), 6);
        Assert.InRange(spans.Stations(6).Length, 1, 6);
        foreach (var station in spans.Stations(6))
        {
            var at = station.At.Millimeters;
            Assert.Contains(profile, piece => piece.From <= at && at <= piece.To && piece.Count == station.Contents.Cables.Length);
        }
    });

    private static TraySpans Spans(string tray, string? first, string? second)
    {
        var layout = HallLayout.Create(Record, Origin);
        var network = TrayNetwork.Create(layout.Trays);
        return TraySpans.Create(TrayContents.Compute(Record)[tray], cable => Ways(cable));

        ImmutableArray<CableRoute> Ways(Cable cable) => CableRoute.Through(
            layout,
            network,
            [.. cable.LiesIn.Select(id => Record.Find<Tray>(id.Value)!)],
            cable.Id == "C3" || first is null ? null : Record.Find<Frame>(first),
            cable.Id == "C3" || second is null ? null : Record.Find<Frame>(second)) is { } way ? [way] : [];
    }
}

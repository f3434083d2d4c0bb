using System.Collections.Immutable;
using Archive.Records.Geometry;
using Archive.Records.Model;
using CsCheck;
using NetTopologySuite.Geometries;
using Xunit;

namespace Archive.Records.Tests.Terms;

/// <summary>The sweep against the validators of NetTopologySuite, which compare boxes; and what it costs.</summary>
public class CrossingsTests
{
    private static readonly GeometryFactory Factory = new();

    // Few places, so that lines touch, overlap and come back as often as they cross.
    private static readonly Gen<PlanPoint[]> Lines =
        Gen.OneOf(Gen.Int[0, 4], Gen.Int[0, 30])
            .SelectMany(reach => Gen.Select(Gen.Int[0, 4], Gen.Int[0, Math.Max(1, reach)], (x, y) => new PlanPoint(x, y)).Array[2, 9]);

    [Fact]
    public void An_outline_crosses_itself_where_the_library_says_that_its_area_is_not_valid() => Lines.Sample(
        points =>
        {
            if (IsStraight(points)) return;
            var ring = points.Append(points[0]).Select(point => new Coordinate(point.X, point.Y)).ToArray();
            var crossing = Crossings.First([.. points], isClosed: true);
            Assert.Equal(Factory.CreatePolygon(ring).IsValid, crossing is null);
            if (crossing is { } found) Assert.True(Meet(points, found));
        },
        iter: 20_000);

    // The library takes a point that is given twice in a row for a crossing.
    [Fact]
    public void A_path_crosses_itself_where_the_library_says_that_it_is_not_simple() => Lines.Sample(
        points =>
        {
            if (points.Distinct().Count() < 2) return;
            var crossing = Crossings.First([.. points], isClosed: false);
            Assert.Equal(Factory.CreateLineString([.. points.Where((point, i) => i == 0 || point != points[i - 1])
                .Select(point => new Coordinate(point.X, point.Y))]).IsSimple, crossing is null);
            if (crossing is { } found) Assert.True(Meet(points, found));
        },
        iter: 20_000);

    [Theory]
    [InlineData(1_000)]
    [InlineData(8_000)]
    [InlineData(64_000)]
    public void A_comb_of_slanting_teeth_costs_n_log_n(int teeth)
    {
        // Every two boxes of its lines overlap, and no two lines meet.
        PlanPoint[] comb = [.. Enumerable.Range(0, teeth)
            .SelectMany(i => new PlanPoint[] { new(2 * i, 0), new((2 * i) + 1e6, 1e6), new((2 * i) + 1, 0) })];
        var (meeting, compared) = Crossings.Search([.. comb], isClosed: false);
        Assert.Null(meeting);
        Assert.InRange(compared, comb.Length, 6 * comb.Length * Math.Log2(comb.Length));
    }

    [Theory]
    [InlineData(800)]
    [InlineData(5_000)]
    [InlineData(60_000)]
    public void Random_points_cross_at_once(int count)
    {
        var random = new Random(1);
        var points = Enumerable.Range(0, count).Select(_ => new PlanPoint(random.Next(12_000), random.Next(8_000))).ToImmutableArray();
        var (meeting, compared) = Crossings.Search(points, isClosed: true);
        Assert.NotNull(meeting);
        Assert.InRange(compared, 1, 6 * count * Math.Log2(count));
    }

    private static bool Meet(PlanPoint[] points, (int One, int Other) stretches) =>
        Stretch(points, stretches.One).Intersects(Stretch(points, stretches.Other));

    // From a point to the next that is another.
    private static LineString Stretch(PlanPoint[] points, int from)
    {
        var to = from;
        do to = (to + 1) % points.Length;
        while (points[to] == points[from]);
        return Factory.CreateLineString([new(points[from].X, points[from].Y), new(points[to].X, points[to].Y)]);
    }

    private static bool IsStraight(PlanPoint[] points) =>
        points.All(a => points.All(b => points.All(c => ((b.X - a.X) * (c.Y - a.Y)) == ((b.Y - a.Y) * (c.X - a.X)))));
}

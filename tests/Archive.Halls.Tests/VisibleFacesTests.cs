using System.Collections.Immutable;
using Archive.Halls.Views;
using Archive.Records.Model;
using CsCheck;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

/// <summary>
/// What is seen of a hall, against rays: through any point of the sheet, the body whose surface is nearest to the viewer along the line of
/// sight is the only one that is drawn there.
/// </summary>
public class VisibleFacesTests
{
    // Frames in cells of two metres, trays at heights of their own above them: none reaches into another.
    private static readonly Gen<ImmutableArray<Solid>> Halls =
        from frames in Gen.Select(Gen.Int[0, 4], Gen.Int[0, 4], Gen.Int[300, 1900], Gen.Int[300, 1900], Gen.Int[500, 2100]).Array[1, 12]
        from trays in Gen.Select(Gen.Int[0, 9000], Gen.Int[0, 9000], Gen.Int[500, 9000], Gen.Bool).Array[0, 5]
        select ImmutableArray.CreateRange(frames.DistinctBy(frame => (frame.Item1, frame.Item2))
            .Select((frame, i) => Box(
                $"F{i}", frame.Item1 * 2000, frame.Item2 * 2000, frame.Item3, frame.Item4, 0, frame.Item5))
            .Concat(trays.Select((tray, i) => tray.Item4
                ? Box($"T{i}", tray.Item1, tray.Item2, tray.Item3, 300, 2200 + (200 * i), 100)
                : Box($"T{i}", tray.Item1, tray.Item2, 300, tray.Item3, 2200 + (200 * i), 100))));

    private static readonly double Across = Math.Sqrt(3) / 2;

    [Fact]
    public void Through_every_point_of_the_sheet_the_nearest_body_is_seen() =>
        Gen.Select(Halls, Gen.Select(Gen.Double[-8000, 8000], Gen.Double[-3000, 10000]).Array[40]).Sample((solids, points) =>
        {
            var seen = VisibleFaces.Compute(solids);
            Assert.Equal(solids.Length, seen.Length);
            foreach (var (u, v) in points)
            {
                var hits = solids.Select(solid => (Solid: solid, Span: Ray(solid, u, v)))
                    .Where(hit => hit.Span.To > hit.Span.From - 5)
                    .ToList();

                // What only just meets the line of sight is left out: there two of them end.
                if (hits.Exists(hit => hit.Span.To - hit.Span.From < 5)) continue;
                var nearest = hits.OrderByDescending(hit => hit.Span.To).Select(hit => hit.Solid).FirstOrDefault();
                var drawn = seen.Where(solid => solid.Faces.Any(face => Holds(face.Rings, new(u, v))))
                    .Select(solid => solid.Solid)
                    .ToList();
                Assert.Equal(nearest is null ? [] : [nearest], drawn);
            }
        });

    [Fact]
    public void A_name_stands_where_its_body_is_seen() => Halls.Sample(solids =>
        Assert.All(VisibleFaces.Compute(solids).Where(solid => solid.Label is not null), solid =>
            Assert.Contains(solid.Faces, face => Holds(face.Rings, solid.Label!.Value))));

    /// <summary>ISO 5456-3: a metre along each of the three axes is drawn equally long, at 120 degrees to each other.</summary>
    [Fact]
    public void All_axes_have_one_scale()
    {
        var axes = new[]
        {
            Isometry.Project(new(1000, 0), 0),
            Isometry.Project(new(0, 1000), 0),
            Isometry.Project(new(0, 0), 1000),
        };
        Assert.All(axes, axis => Assert.Equal(1000, double.Hypot(axis.X, axis.Y), 6));
        foreach (var (one, other) in new[] { (0, 1), (1, 2), (2, 0) })
        {
            var dot = (axes[one].X * axes[other].X) + (axes[one].Y * axes[other].Y);
            Assert.Equal(-0.5, dot / 1e6, 6);
        }
    }

    // Where the line of sight through a point of the sheet runs in a body: it goes along (1, 1, 1).
    private static (double From, double To) Ray(Solid solid, double u, double v)
    {
        var (x, y) = (v + (u / (2 * Across)), v - (u / (2 * Across)));
        var (west, east) = (solid.Base.Min(point => point.X), solid.Base.Max(point => point.X));
        var (north, south) = (solid.Base.Min(point => point.Y), solid.Base.Max(point => point.Y));
        return (
            Math.Max(Math.Max(west - x, north - y), solid.Bottom),
            Math.Min(Math.Min(east - x, south - y), solid.Top));
    }

    private static bool Holds(ImmutableArray<ImmutableArray<PlanPoint>> rings, PlanPoint point)
    {
        var isIn = false;
        foreach (var ring in rings)
        {
            for (var i = 0; i + 1 < ring.Length; i++)
            {
                var (a, b) = (ring[i], ring[i + 1]);
                if (a.Y > point.Y != b.Y > point.Y && point.X < a.X + ((point.Y - a.Y) / (b.Y - a.Y) * (b.X - a.X))) isIn = !isIn;
            }
        }

        return isIn;
    }

    private static Solid Box(string id, double west, double north, double across, double down, double bottom, double height) => new(
        Frame(id),
        [new(west, north), new(west + across, north), new(west + across, north + down), new(west, north + down)],
        bottom,
        bottom + height);
}

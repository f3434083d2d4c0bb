using Archive.Halls.Checks;
using Archive.Halls.Layout;
using Archive.Records.Model;
using CsCheck;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

/// <summary>Laws that hold for any hall: what is judged is how things stand to each other, not where the axes lie.</summary>
public class LawTests
{
    // Whole millimetres on a coarse grid, so that touching, overlapping and clear frames all come about.
    private static readonly Gen<Floor> Floors =
        from rows in Gen.Select(Gen.Int[0, 60], Gen.Int[0, 40], Gen.Enum<Compass>(), Gen.Bool, Gen.Int[1, 4]).Array[1, 4]
        from columns in Gen.Select(Gen.Int[0, 60], Gen.Int[0, 40]).Array[0, 3]
        from take in Gen.Select(Gen.Int[0, 30], Gen.Int[0, 20], Gen.Int[31, 60], Gen.Int[21, 40])
        select new Floor(
            [.. rows.Select(row => new Line(new(row.Item1 * 200, row.Item2 * 200), row.Item3, Beside(row.Item3, row.Item4), row.Item5))],
            [.. columns.Select(column => new PlanPoint(column.Item1 * 200, column.Item2 * 200))],
            new(take.Item1 * 200, take.Item2 * 200, take.Item3 * 200, take.Item4 * 200));

    [Fact]
    public void Mirroring_a_hall_changes_no_verdict() => Floors.Sample(floor =>
    {
        var mirrored = floor.Moved(point => new(12000 - point.X, point.Y), side =>
            side switch { Compass.East => Compass.West, Compass.West => Compass.East, _ => side });
        Assert.Equal(Verdicts(floor), Verdicts(mirrored));
    });

    [Fact]
    public void Turning_a_hall_changes_no_verdict() => Floors.Sample(floor =>
    {
        var turned = floor.Moved(point => new(-point.Y, point.X), side => (Compass)(((int)side + 1) % 4));
        Assert.Equal(Verdicts(floor), Verdicts(turned));
    });

    [Fact]
    public void Moving_everything_changes_nothing() =>
        Gen.Select(Floors, Gen.Int[-50000, 50000], Gen.Int[-50000, 50000]).Sample((floor, east, south) =>
        {
            var moved = floor.Moved(point => new(point.X + east, point.Y + south), side => side);
            Assert.Equal(Verdicts(floor), Verdicts(moved));
        });

    [Fact]
    public void Frames_overlap_where_the_shared_area_of_their_rectangles_says_so() => Floors.Sample(floor =>
    {
        var hall = floor.Hall();
        var layout = HallLayout.Create(RecordOf([hall, .. floor.Frames()]), hall);
        var expected = Pairs(layout)
            .Where(pair => Shared(pair.One.Footprint, pair.Other.Footprint))
            .Select(pair => pair.Other.Frame.Id)
            .Distinct()
            .Order(StringComparer.Ordinal);
        var told = HallSpaceChecks.Check(RecordOf([hall, .. floor.Frames()]))
            .Where(diagnostic => diagnostic.Code == "AF0603")
            .Select(diagnostic => diagnostic.Message.Split(' ')[1])
            .Order(StringComparer.Ordinal);
        Assert.Equal(expected, told);
    });

    // Everything that is judged of a hall: errors by code and message (none names a coordinate or a direction), and sides of the taped
    // line.
    private static IEnumerable<string> Verdicts(Floor floor)
    {
        var hall = floor.Hall();
        var archive = RecordOf([hall, .. floor.Frames()]);
        return HallSpaceChecks.Check(archive).Select(diagnostic => $"{diagnostic.Code} {diagnostic.Message}")
            .Concat(TakeBoundary.Classify(HallLayout.Create(archive, hall)).Select(taken => $"{taken.Placed.Frame.Id} {taken.Side}"))
            .Order(StringComparer.Ordinal);
    }

    private static IEnumerable<(PlacedFrame One, PlacedFrame Other)> Pairs(HallLayout layout) =>
        from i in Enumerable.Range(0, layout.PlacedFrames.Length)
        from j in Enumerable.Range(i + 1, layout.PlacedFrames.Length - i - 1)
        select (layout.PlacedFrames[i], layout.PlacedFrames[j]);

    // By lattice: two rectangles with corners on whole millimetres share area where they share the middle of a square millimetre; sizes and
    // corners here are multiples of 10 mm, so squares of 10 mm do.
    private static bool Shared(Footprint one, Footprint other)
    {
        for (var x = one.West + 5; x < one.East; x += 10)
        {
            if (x < other.West || x > other.East) continue;
            for (var y = one.North + 5; y < one.South; y += 10)
            {
                if (y > other.North && y < other.South) return true;
            }
        }

        return false;
    }

    private static Compass Beside(Compass runs, bool onTheRight) => (Compass)(((int)runs + (onTheRight ? 1 : 3)) % 4);

    private sealed record Line(PlanPoint At, Compass Runs, Compass Faces, int Frames);

    private sealed record Floor(Line[] Rows, PlanPoint[] Columns, Footprint TakeLine)
    {
        private Outline Walls { get; init; } = Box(0, 0, 12000, 8000);

        private Outline[] Obstacles { get; init; } = [.. Columns.Select(at => Box(at.X, at.Y, at.X + 200, at.Y + 200))];

        private Outline Take { get; init; } = Box(TakeLine.West, TakeLine.North, TakeLine.East, TakeLine.South);

        public Frame[] Frames() => [.. Rows.SelectMany((row, r) =>
            Enumerable.Range(0, row.Frames).Select(i => Frame($"F{r}{i}", width: 400 + (100 * i), depth: 600)))];

        public Archive.Records.Model.Hall Hall() => HallOf(
            "origin",
            [.. Rows.Select((row, r) =>
                Row($"row{r}", row.At, row.Runs, row.Faces, [.. Enumerable.Range(0, row.Frames).Select(i => (object)$"F{r}{i}")]))]) with
        {
            Outline = Walls,
            Take = Take,
            Obstacles = [.. Obstacles.Select(outline => Obstacle("column", outline))],
        };

        public Floor Moved(Func<PlanPoint, PlanPoint> point, Func<Compass, Compass> side) => this with
        {
            Rows = [.. Rows.Select(row => row with { At = point(row.At), Runs = side(row.Runs), Faces = side(row.Faces) })],
            Walls = Moved(Walls, point),
            Take = Moved(Take, point),
            Obstacles = [.. Obstacles.Select(outline => Moved(outline, point))],
        };

        private static Outline Moved(Outline outline, Func<PlanPoint, PlanPoint> point) =>
            outline with { Points = [.. outline.Points.Select(point)] };
    }
}

using Archive.LabelRecognition.Pictures;
using CsCheck;
using Xunit;

namespace Archive.LabelRecognition.Tests.Pictures;

public class SmallestRectangleTests
{
    private static readonly Gen<(double X, double Y)[]> Points =
        Gen.Select(Gen.Double[0, 100], Gen.Double[0, 40], (x, y) => (x, y)).Array[1, 30];

    [Fact]
    public void No_rectangle_at_any_angle_is_smaller() =>
        Points.Sample(points =>
        {
            var box = SmallestRectangle.Around(points);
            for (var degrees = 0; degrees < 180; degrees++)
            {
                var other = SmallestRectangle.At(points, degrees * Math.PI / 180);
                Assert.True(box.Length * box.Height <= (other.Length * other.Height) + 1e-6);
            }

            Assert.InRange(box.Angle, -Math.PI / 2, Math.PI / 2);
            Assert.True(box.Length >= box.Height);
        }, iter: 200);

    [Fact]
    public void It_is_around_all_points() =>
        Points.Sample(points =>
        {
            var box = SmallestRectangle.Around(points);
            var (sin, cos) = Math.SinCos(box.Angle);
            Assert.All(points, point =>
            {
                var (x, y) = (point.X - box.CentreX, point.Y - box.CentreY);
                Assert.True(Math.Abs((x * cos) + (y * sin)) <= (box.Length / 2) + 1e-6);
                Assert.True(Math.Abs((y * cos) - (x * sin)) <= (box.Height / 2) + 1e-6);
            });
        }, iter: 200);

    [Fact]
    public void Regions_are_pixels_that_touch()
    {
        float[] map =
        [
            0.9f, 0.0f, 0.0f, 0.0f, 0.5f,
            0.0f, 0.7f, 0.0f, 0.0f, 0.5f,
            0.0f, 0.0f, 0.0f, 0.2f, 0.0f,
        ];
        var regions = TextRegion.Find(map, 5, 0.3f);
        Assert.Equal([2, 2], regions.Select(region => region.Pixels));
        Assert.Equal(0.8, regions[0].Mean, 5);
        var box = SmallestRectangle.Around(regions[1].Outline);
        Assert.Equal((4.5, 1.0, 2.0, 1.0), (box.CentreX, box.CentreY, box.Length, box.Height));
        Assert.Equal(Math.PI / 2, box.Angle, 9);
    }
}

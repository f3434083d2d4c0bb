using Archive.LabelRecognition.Pictures;
using CsCheck;
using Xunit;

namespace Archive.LabelRecognition.Tests.Pictures;

public class LineCropTests
{
    [Fact]
    public void A_line_at_any_angle_is_cut_out_upright() =>
        Gen.Select(Gen.Double[0, 2 * Math.PI], Gen.Double[90, 110], Gen.Double[90, 110]).Sample((angle, middleX, middleY) =>
        {
            // Grey rises along the line from its beginning to its end, and does not change across it.
            var (sin, cos) = Math.SinCos(angle);
            var pixels = new byte[200 * 200 * 3];
            for (var at = 0; at < pixels.Length; at++)
            {
                var (x, y) = ((at / 3 % 200) + 0.5 - middleX, (at / 3 / 200) + 0.5 - middleY);
                pixels[at] = (byte)Math.Clamp(127.5 + (((x * cos) + (y * sin)) * 2), 0, 255);
            }

            var line = LineCrop.Cut(new RgbImage(200, 200, pixels), new LineBox(middleX, middleY, 100, 20, angle), 10, 1000, 1);
            Assert.Equal((50, 10), (line.Width, line.Height));
            for (var at = 0; at < line.Values.Length; at++)
            {
                // Stretched between the darkest and the lightest fiftieth.
                var expected = Math.Clamp((((at % 50) + 0.5) - 1.5) / 47 * 255, 0, 255);
                Assert.InRange(line.Values[at], expected - 9, expected + 9);
            }
        }, iter: 50);

    [Theory]
    [InlineData(0)]
    [InlineData(8)]
    [InlineData(25)]
    public void Noise_is_estimated_and_edges_are_not_noise(int sigma)
    {
        var random = new Random(1);
        var pixels = new byte[120 * 80 * 3];
        for (var at = 0; at < pixels.Length; at += 3)
        {
            var noise = sigma * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            // A slope, and an edge from top to bottom.
            var value = 80 + (at / 3 % 120 * 0.3) + (at / 3 % 120 > 60 ? 50 : 0) + noise;
            pixels[at] = pixels[at + 1] = pixels[at + 2] = (byte)Math.Clamp(Math.Round(value), 0, 255);
        }

        var image = new RgbImage(120, 80, pixels);
        Assert.InRange(NoiseEstimate.Sigma(image, LineBox.Whole(image)), (sigma * 0.95) - 0.5, (sigma * 1.1) + 0.6);
    }

    [Fact]
    public void A_box_that_leaves_the_picture_is_cut_out_too()
    {
        var line = LineCrop.Cut(new RgbImage(4, 3, new byte[36]), new LineBox(-50, 90, 4000, 30, 1), 48, 300, 1);
        Assert.Equal((300, 48), (line.Width, line.Height));
        Assert.All(line.Values, value => Assert.InRange(value, 0, 255));
    }
}

using Archive.LabelRecognition.Pictures;
using CsCheck;
using Xunit;

namespace Archive.LabelRecognition.Tests.Pictures;

public class LineJoiningTests
{
    [Fact]
    public void Words_of_a_line_are_joined_at_any_angle() =>
        Gen.Select(Gen.Double[-1.5, 1.5], Gen.Double[20, 200], Gen.Double[20, 200], Gen.Double[0, 18])
            .Sample((angle, first, second, gap) =>
            {
                var joined = Assert.Single(LineJoining.Join([At(angle, first / 2, first), At(angle, first + gap + (second / 2), second)]));
                Assert.Equal(first + gap + second, joined.Box.Length, 6);
                Assert.Equal(20, joined.Box.Height, 6);
                Assert.Equal([0, 1], joined.Parts.Order());
            }, iter: 100);

    [Theory]
    [InlineData(150, 0, 20)] // far away
    [InlineData(100, 25, 20)] // the line below
    [InlineData(100, 0, 45)] // larger print
    public void Others_are_not_joined(double x, double y, double height) =>
        Assert.Equal(2, LineJoining.Join([At(0, 0, 100), new LineBox(x + 5, y, 100, height, 0)]).Count);

    [Fact]
    public void A_fragment_within_a_line_is_dropped() =>
        Assert.Equal([0], Assert.Single(LineJoining.Join([At(0.2, 0, 100), At(0.2, 20, 15) with { Height = 12 }])).Parts);

    [Fact]
    public void A_long_line_is_joined_word_by_word() =>
        Assert.Single(LineJoining.Join([.. Enumerable.Range(0, 30).Select(at => At(0.3, at * 60, 50))]));

    private static LineBox At(double angle, double along, double length) =>
        new(300 + (along * Math.Cos(angle)), 300 + (along * Math.Sin(angle)), length, 20, angle);
}

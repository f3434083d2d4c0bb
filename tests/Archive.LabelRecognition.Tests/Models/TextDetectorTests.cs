using Archive.LabelRecognition.Models;
using Archive.LabelRecognition.Pictures;
using Archive.LabelRecognition.Tests.Generated;
using Xunit;

namespace Archive.LabelRecognition.Tests.Models;

public sealed class TextDetectorTests
{
    [Fact]
    public void Lines_are_found_at_any_angle_and_can_be_read()
    {
        using var detector = TextDetector.Load(ModelFolder.Path, out var problem)!;
        Assert.Null(problem);
        using var recognizer = TextRecognizer.Load(ModelFolder.Path, out _)!;
        var scene = new Scene(640, 448, 110);
        scene.Paste(Label(0), 160, 80, 0);
        scene.Paste(Label(1), 430, 240, -0.5);
        scene.Paste(Label(2), 120, 290, Math.PI / 2);
        var found = detector.Detect(scene.Image)!.Value;
        Assert.True(found.Length == 3, string.Join('\n', found.Select(line => line.Box)));
        foreach (var (label, x, y, angle) in scene.Pasted)
        {
            var line = found.MinBy(one => Math.Pow(one.Box.CentreX - x, 2) + Math.Pow(one.Box.CentreY - y, 2))!;
            Assert.InRange(Math.Abs(line.Box.CentreX - x) + Math.Abs(line.Box.CentreY - y), 0, 16);
            Assert.InRange(Math.Abs(Math.IEEERemainder(line.Box.Angle - angle, Math.PI)), 0, 0.06);
            Assert.InRange(line.Score, 0.6, 1);
            // It does not know which way up.
            var read = new[] { line.Box, line.Box.Turned() }.Select(box =>
                recognizer.Recognize(scene.Image, box)!.ReadUnconstrained(recognizer.Classes).Replace(" ", ""));
            Assert.Contains(label.Label.Replace(" ", ""), read);
        }
    }

    [Fact]
    public void A_picture_without_text_has_no_lines()
    {
        using var detector = TextDetector.Load(ModelFolder.Path, out _)!;
        Assert.Empty(detector.Detect(new RgbImage(70, 50, [.. Enumerable.Repeat((byte)128, 70 * 50 * 3)]))!.Value);
    }

    private static LabelPicture Label(int number) => LabelPicture.Draw(
        LabelFamily.Numbered, Typeface.Judged[0], Wear.Mild with { Turn = 0, Noise = 2, Lost = 0, Misplaced = 0, Bow = 0 }, number);
}

using Archive.LabelRecognition.Models;
using Archive.LabelRecognition.Pictures;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>A photo with labels in it.</summary>
internal sealed class Scene
{
    private readonly int _width;
    private readonly int _height;
    private readonly byte[] _pixels;

    internal Scene(int width, int height, byte ground) =>
        (_width, _height, _pixels) = (width, height, [.. Enumerable.Repeat(ground, width * height * 3)]);

    internal List<(LabelPicture Label, double X, double Y, double Angle)> Pasted { get; } = [];

    internal RgbImage Image => new(_width, _height, _pixels);

    /// <summary>Labels in all typefaces at all angles, one in each square of the photo, on a ground of light and dark patches.</summary>
    internal static Scene Draw(int width, int height, int square, Wear wear, int seed)
    {
        var random = new Random(seed);
        var scene = new Scene(width, height, 0);
        var (patches, grain) = (Plane.Noise(width, height, 150, random), Plane.Noise(width, height, 4, random));
        for (var at = 0; at < scene._pixels.Length; at++)
            scene._pixels[at] = (byte)(60 + (110 * patches[at / 3 % width, at / 3 / width]) + (25 * grain[at / 3 % width, at / 3 / width]));
        for (var y = square / 2; y + (square / 2) <= height; y += square)
        {
            for (var x = square / 2; x + (square / 2) <= width; x += square)
            {
                var number = scene.Pasted.Count;
                var label = LabelPicture.Draw(LabelFamily.All[number % 4], Typeface.Judged[number / 4 % 4], wear, seed + number);
                scene.Paste(label, x, y, random.NextDouble() * Math.PI);
            }
        }

        return scene;
    }

    internal void Paste(LabelPicture label, double middleX, double middleY, double angle)
    {
        var (sin, cos) = Math.SinCos(angle);
        var reach = (label.Image.Width + label.Image.Height) / 2;
        for (var y = Math.Max(0, (int)middleY - reach); y < Math.Min(_height, middleY + reach); y++)
        {
            for (var x = Math.Max(0, (int)middleX - reach); x < Math.Min(_width, middleX + reach); x++)
            {
                var (dx, dy) = (x + 0.5 - middleX, y + 0.5 - middleY);
                var u = (dx * cos) + (dy * sin) + (label.Image.Width / 2.0);
                var v = (dy * cos) - (dx * sin) + (label.Image.Height / 2.0);
                if (u < 0 || v < 0 || u >= label.Image.Width || v >= label.Image.Height) continue;
                _pixels.AsSpan(((y * _width) + x) * 3, 3).Fill((byte)label.Image.SampleGrey(u, v));
            }
        }

        Pasted.Add((label, middleX, middleY, angle));
    }

    /// <summary>How many labels are found: a line about as long, at the angle, with its middle within half a height.</summary>
    internal int Found(IReadOnlyCollection<DetectedLine> lines) => Pasted.Count(pasted => lines.Any(line =>
    {
        var (length, height) = (pasted.Label.Box.Length - (0.3 * pasted.Label.Box.Height), pasted.Label.Box.Height);
        var off = Math.Sqrt(Math.Pow(line.Box.CentreX - pasted.X, 2) + Math.Pow(line.Box.CentreY - pasted.Y, 2));
        var turn = Math.Abs(Math.IEEERemainder(line.Box.Angle - pasted.Angle - pasted.Label.Box.Angle, Math.PI));
        return off <= height / 2 && turn < 0.1 && line.Box.Length > 0.85 * length && line.Box.Length < 1.4 * length;
    }));
}

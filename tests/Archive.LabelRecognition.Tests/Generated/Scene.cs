using Archive.LabelRecognition.Models;
using Archive.LabelRecognition.Pictures;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>A photo with labels in it.</summary>
internal sealed class Scene
{
    // Pixels of the ground between two labels, at least.
    private const int Apart = 12;

    private readonly int _width;
    private readonly int _height;
    private readonly byte[] _pixels;

    internal Scene(int width, int height, byte ground) =>
        (_width, _height, _pixels) = (width, height, [.. Enumerable.Repeat(ground, width * height * 3)]);

    internal List<PastedLabel> Pasted { get; } = [];

    internal RgbImage Image => new(_width, _height, _pixels);

    /// <summary>Labels at all angles, none near another or an edge, on a ground of light and dark patches.</summary>
    /// <param name="families">In turn; none for all.</param>
    internal static Scene Draw(int width, int height, int count, Typeface[] typefaces, Wear wear, int seed, params LabelFamily[] families)
    {
        if (families.Length == 0) families = LabelFamily.All;
        var random = new Random(seed);
        var scene = new Scene(width, height, 0);
        var (patches, grain) = (Plane.Noise(width, height, 150, random), Plane.Noise(width, height, 4, random));
        for (var at = 0; at < scene._pixels.Length; at++)
            scene._pixels[at] = (byte)(60 + (110 * patches[at / 3 % width, at / 3 / width]) + (25 * grain[at / 3 % width, at / 3 / width]));
        while (scene.Pasted.Count < count)
        {
            var number = scene.Pasted.Count;
            var label = LabelPicture.Draw(
                families[number % families.Length], typefaces[number / 4 % typefaces.Length], wear, seed + number);
            var (x, y, angle) = (random.NextDouble() * width, random.NextDouble() * height, random.NextDouble() * Math.PI);
            var place = new LineBox(x, y, label.Image.Width + (2 * Apart), label.Image.Height + (2 * Apart), angle);
            if (place.Corners().All(corner => corner.X >= 0 && corner.X <= width && corner.Y >= 0 && corner.Y <= height)
                && scene.Pasted.All(other => AreApart(place, other.Place)))
            {
                scene.Paste(label, x, y, angle);
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

        Pasted.Add(new PastedLabel(label, middleX, middleY, angle));
    }

    /// <summary>The line that a label was found as: about as long, at its angle, with its middle within half a height.</summary>
    internal static DetectedLine? FoundAs(PastedLabel pasted, IReadOnlyCollection<DetectedLine> lines) => lines.FirstOrDefault(line =>
    {
        var (length, height) = (pasted.Label.Box.Length - (0.3 * pasted.Label.Box.Height), pasted.Label.Box.Height);
        var off = Math.Sqrt(Math.Pow(line.Box.CentreX - pasted.X, 2) + Math.Pow(line.Box.CentreY - pasted.Y, 2));
        var turn = Math.Abs(Math.IEEERemainder(line.Box.Angle - pasted.Angle - pasted.Label.Box.Angle, Math.PI));
        return off <= height / 2 && turn < 0.1 && line.Box.Length > 0.85 * length && line.Box.Length < 1.4 * length;
    });

    // Two rectangles are apart if the side of one has the other wholly beyond it.
    private static bool AreApart(LineBox one, LineBox other) => IsBeyond(one, other) || IsBeyond(other, one);

    private static bool IsBeyond(LineBox from, LineBox other)
    {
        var (sin, cos) = Math.SinCos(from.Angle);
        var along = other.Corners().Select(corner => ((corner.X - from.CentreX) * cos) + ((corner.Y - from.CentreY) * sin)).ToList();
        var across = other.Corners().Select(corner => ((corner.Y - from.CentreY) * cos) - ((corner.X - from.CentreX) * sin)).ToList();
        return along.Min() > from.Length / 2 || along.Max() < -from.Length / 2
            || across.Min() > from.Height / 2 || across.Max() < -from.Height / 2;
    }
}

/// <summary>A label in a scene.</summary>
/// <param name="Label">The label, drawn.</param>
/// <param name="X">Its middle.</param>
/// <param name="Y">Its middle.</param>
/// <param name="Angle">By which it was turned, beside the turn that it was drawn with.</param>
internal sealed record PastedLabel(LabelPicture Label, double X, double Y, double Angle)
{
    /// <summary>The rectangle of its picture.</summary>
    internal LineBox Place => new(X, Y, Label.Image.Width, Label.Image.Height, Angle);
}

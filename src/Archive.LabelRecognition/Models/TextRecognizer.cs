using System.Collections.Immutable;
using System.Text;
using Archive.LabelRecognition.Decoding;
using Archive.LabelRecognition.Pictures;

namespace Archive.LabelRecognition.Models;

/// <summary>Reads lines of text, frame by frame. May be used by many threads at once.</summary>
public sealed class TextRecognizer : IDisposable
{
    private const int LineHeight = 48;
    private const int LongestLine = 1600;

    // The model was trained on lines of at least this length; a shorter one is followed by nothing.
    private const int ShortestLine = 320;

    private readonly TextModel _model;

    private TextRecognizer(TextModel model, ImmutableArray<string> classes) => (_model, Classes) = (model, classes);

    /// <summary>What each class of its frames stands for; the first is the blank. Ideographs have none: labels are without them.</summary>
    public ImmutableArray<string> Classes { get; }

    /// <summary>Loads the model.</summary>
    /// <param name="folder">Where the files of the models are.</param>
    /// <param name="problem">Why there is none: lower case, no full stop.</param>
    public static TextRecognizer? Load(string folder, out string? problem)
    {
        if (ModelFile.Characters.Read(folder, out problem) is not { } characters) return null;
        if (ModelFile.Recognition.Read(folder, out problem) is not { } content) return null;
        if (TextModel.Load(content, out problem) is not { } model) return null;
        // The model's classes are the blank, the file's lines, and the space.
        var lines = Encoding.UTF8.GetString(characters).TrimEnd('\n').Split('\n').Select(line => line.TrimEnd('\r'));
        return new TextRecognizer(model, ["", .. lines, " "]);
    }

    /// <summary>Reads a line.</summary>
    /// <param name="image">The picture.</param>
    /// <param name="box">Where the line is, and which way it runs.</param>
    /// <param name="isInverted">Whether light and dark are exchanged first.</param>
    /// <param name="smoothing">0 leaves noise as it is, 1 smooths as much as it needs.</param>
    /// <returns>Null where the library fails.</returns>
    public CtcFrames? Recognize(RgbImage image, LineBox box, bool isInverted = false, double smoothing = 0)
    {
        var line = LineCrop.Cut(image, box, LineHeight, LongestLine, smoothing);
        var width = Math.Max(line.Width, ShortestLine);
        return _model.Run(width, LineHeight, Fill, Frames);

        void Fill(Span<float> planes)
        {
            for (var at = 0; at < line.Values.Length; at++)
            {
                var value = ((line.Values[at] / 127.5f) - 1) * (isInverted ? -1 : 1);
                for (var band = 0; band < 3; band++)
                    planes[(((band * LineHeight) + (at / line.Width)) * width) + (at % line.Width)] = value;
            }
        }
    }

    private CtcFrames? Frames(ReadOnlySpan<float> numbers, int count) =>
        count == Classes.Length ? new CtcFrames(numbers.ToArray(), count) : null;

    public void Dispose() => _model.Dispose();
}

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

    // Beyond Latin, Greek, Cyrillic and signs; such characters together are one class, because labels have none of them.
    private const char Ideographs = '\u2e80';

    private readonly TextModel _model;
    private readonly ImmutableArray<int> _classOf;

    private TextRecognizer(TextModel model, ImmutableArray<string> published)
    {
        _model = model;
        var kept = ImmutableArray.CreateBuilder<string>();
        var classes = ImmutableArray.CreateBuilder<int>();
        foreach (var text in published)
        {
            var isKept = text.Length == 0 || text[0] < Ideographs;
            classes.Add(isKept ? kept.Count : -1);
            if (isKept) kept.Add(text);
        }

        kept.Add("\ufffd");
        Classes = kept.ToImmutable();
        _classOf = [.. classes.Select(at => at < 0 ? kept.Count - 1 : at)];
    }

    /// <summary>What each class of its frames stands for; the first is the blank, the last all characters that no label has.</summary>
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
        var planes = new float[3 * width * LineHeight];
        for (var at = 0; at < line.Values.Length; at++)
        {
            var value = ((line.Values[at] / 127.5f) - 1) * (isInverted ? -1 : 1);
            for (var band = 0; band < 3; band++) planes[(((band * LineHeight) + (at / line.Width)) * width) + (at % line.Width)] = value;
        }

        if (_model.Run(planes, width, LineHeight) is not var (numbers, count) || count != _classOf.Length) return null;
        var kept = new float[numbers.Length / count * Classes.Length];
        for (var at = 0; at < numbers.Length; at++) kept[(at / count * Classes.Length) + _classOf[at % count]] += numbers[at];
        return new CtcFrames(kept, Classes.Length);
    }

    public void Dispose() => _model.Dispose();
}

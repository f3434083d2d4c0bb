using System.Collections.Immutable;

namespace Archive.LabelRecognition.Decoding;

/// <summary>
/// What a recogniser says of a line, frame by frame from left to right: the probability of each class, of which the first is the blank.
/// </summary>
/// <remarks>
/// Connectionist temporal classification: a text is read by each sequence of classes that gives it when repetitions are taken out, then
/// blanks. Graves, Fernández, Gomez and Schmidhuber (2006).
/// </remarks>
public sealed class CtcFrames
{
    /// <summary>The class of what stands between characters.</summary>
    public const int Blank = 0;

    private readonly float[] _probabilities;

    /// <summary>Takes in what a recogniser said.</summary>
    /// <param name="probabilities">Row by row, a row for each frame.</param>
    /// <param name="classCount">Numbers in a row.</param>
    public CtcFrames(float[] probabilities, int classCount)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(classCount, 1);
        if (probabilities.Length % classCount != 0) throw new ArgumentException("rows are not whole", nameof(probabilities));
        (_probabilities, ClassCount) = (probabilities, classCount);
    }

    /// <summary>Number of frames.</summary>
    public int Count => _probabilities.Length / ClassCount;

    /// <summary>Number of classes.</summary>
    public int ClassCount { get; }

    /// <summary>The probabilities of a frame.</summary>
    public ReadOnlySpan<float> this[int frame] => _probabilities.AsSpan(frame * ClassCount, ClassCount);

    /// <summary>The mean of several looks at one line, frame by frame.</summary>
    /// <param name="looks">At least one; all as long as the first.</param>
    public static CtcFrames Mean(IReadOnlyList<CtcFrames> looks)
    {
        var sums = new float[looks[0]._probabilities.Length];
        foreach (var look in looks)
        {
            for (var at = 0; at < sums.Length; at++) sums[at] += look._probabilities[at] / looks.Count;
        }

        return new CtcFrames(sums, looks[0].ClassCount);
    }

    /// <summary>
    /// Less sure, or surer: each probability to the power of 1/temperature, then scaled to a sum of 1. Guo, Pleiss, Sun and Weinberger, On
    /// calibration of modern neural networks (2017).
    /// </summary>
    public CtcFrames At(double temperature)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(temperature);
        var changed = new float[_probabilities.Length];
        for (var frame = 0; frame < Count; frame++)
        {
            var row = changed.AsSpan(frame * ClassCount, ClassCount);
            var sum = 0.0;
            for (var at = 0; at < ClassCount; at++) sum += row[at] = MathF.Pow(this[frame][at], (float)(1 / temperature));
            for (var at = 0; at < ClassCount; at++) row[at] = (float)(row[at] / sum);
        }

        return new CtcFrames(changed, ClassCount);
    }

    /// <summary>The text of the most likely class in each frame: what the recogniser reads by itself.</summary>
    /// <param name="classes">What each class stands for.</param>
    public string ReadUnconstrained(IReadOnlyList<string> classes)
    {
        var text = ImmutableArray.CreateBuilder<string>();
        var before = Blank;
        for (var frame = 0; frame < Count; frame++)
        {
            var best = 0;
            for (var at = 1; at < ClassCount; at++)
            {
                if (this[frame][at] > this[frame][best]) best = at;
            }

            if (best != before && best != Blank) text.Add(classes[best]);
            before = best;
        }

        return string.Concat(text);
    }
}

using System.Collections.Immutable;
using Archive.LabelRecognition.Decoding;
using Archive.LabelRecognition.Models;
using Archive.LabelRecognition.Pictures;

namespace Archive.LabelRecognition.Readings;

/// <summary>A scheme that lines are read by.</summary>
/// <param name="Name">Its name, for the readings. A scheme may be given twice, with a narrow and a wide grammar.</param>
/// <param name="Decoder">Its grammar, for the classes of the recogniser.</param>
/// <param name="Weight">How likely it is, before the line is looked at, that a label is one of this grammar.</param>
public sealed record ReadableScheme(string Name, CtcDecoder Decoder, double Weight = 1);

/// <summary>A label that a line may say under one of the schemes.</summary>
/// <param name="Scheme">Name of the scheme.</param>
/// <param name="Label">The label.</param>
/// <param name="Probability">Its share among all labels of all schemes, from 0 to 1.</param>
public sealed record SchemeReading(string Scheme, string Label, double Probability);

/// <summary>How a line was looked at.</summary>
/// <param name="IsTurned">Upside down.</param>
/// <param name="IsInverted">With light and dark exchanged.</param>
public readonly record struct LineView(bool IsTurned, bool IsInverted);

/// <summary>What a line says.</summary>
/// <param name="Best">Best first: the reading, the runner-up and so on; none where no scheme has a label as short as the line.</param>
/// <param name="View">How it is read.</param>
/// <param name="Fit">
/// Natural logarithm of the likelihood of all labels of all schemes, for each frame: near 0 where the line is surely a label of a scheme.
/// </param>
/// <param name="Unconstrained">What the recogniser reads without schemes.</param>
public sealed record RecognizedLine(ImmutableArray<SchemeReading> Best, LineView View, double Fit, string Unconstrained);

/// <summary>
/// Reads lines under schemes, whichever way up and whichever of text and ground is darker. May be used by many threads at once.
/// </summary>
/// <param name="recognizer">The model.</param>
/// <param name="schemes">The schemes.</param>
/// <param name="temperatures">How much less sure the recogniser is than it says.</param>
public sealed class LabelReader(TextRecognizer recognizer, ImmutableArray<ReadableScheme> schemes, ReadingTemperatures temperatures)
{
    // One view explains the line so well that no other is needed: each costs as much as the first. Chosen on the generated set.
    private const double GoodFit = -0.15;

    // A line whose best label is less likely is looked at again with noise smoothed half and wholly: which of them shows worn print best
    // differs from line to line. Chosen on the typefaces that nothing is judged by.
    internal const double Sure = 0.98;
    internal static readonly double[] MoreSmoothing = [0.5, 1];

    private static readonly LineView[] Views = [default, new(true, false), new(false, true), new(true, true)];

    /// <summary>Reads a line.</summary>
    /// <param name="image">The picture.</param>
    /// <param name="box">Where the line is.</param>
    /// <param name="most">How many readings.</param>
    /// <returns>Null where the library of the model fails.</returns>
    public RecognizedLine? Read(RgbImage image, LineBox box, int most) =>
        Read((view, smoothing) => recognizer.Recognize(image, view.IsTurned ? box.Turned() : box, view.IsInverted, smoothing), most);

    internal RecognizedLine? Read(Func<LineView, double, CtcFrames?> recognize, int most)
    {
        (CtcFrames Frames, LineView View, double Fit)? best = null;
        foreach (var view in Views)
        {
            if (recognize(view, 0) is not { } frames) return null;
            var fit = FitOf(frames.At(temperatures.OneLook));
            if (best is null || fit > best.Value.Fit) best = (frames, view, fit);
            if (fit > GoodFit) break;
        }

        var (first, chosen, bestFit) = best!.Value;
        // Many readings of what is no label are alike, and it takes long to find the best of them.
        if (bestFit < LabelLikeness.LeastFit)
            return new RecognizedLine([], chosen, bestFit, first.ReadUnconstrained(recognizer.Classes));
        var once = Read(first, temperatures.OneLook, chosen, most);
        if (once.Best is [{ Probability: >= Sure }, ..]) return once;
        var looks = new List<CtcFrames> { first };
        foreach (var smoothing in MoreSmoothing)
        {
            if (recognize(chosen, smoothing) is not { } frames) return null;
            looks.Add(frames);
        }

        return Read(CtcFrames.Mean(looks), temperatures.SeveralLooks, chosen, most);
    }

    // Of all labels together, which costs little; which label it is, is looked for in one view only.
    private double FitOf(CtcFrames warm)
    {
        var likelihoods = schemes.Select(scheme => scheme.Decoder.LogLikelihood(warm) + Math.Log(scheme.Weight)).ToList();
        var greatest = likelihoods.DefaultIfEmpty(double.NegativeInfinity).Max();
        return double.IsNegativeInfinity(greatest)
            ? greatest
            : (greatest + Math.Log(likelihoods.Sum(each => Math.Exp(each - greatest)))) / warm.Count;
    }

    private RecognizedLine Read(CtcFrames frames, double temperature, LineView view, int most)
    {
        var unconstrained = frames.ReadUnconstrained(recognizer.Classes);
        var warm = frames.At(temperature);
        var read = schemes.Select(scheme =>
            (scheme.Name, Weight: Math.Log(scheme.Weight), Readings: scheme.Decoder.Decode(warm, most))).ToList();
        var greatest = read.Select(scheme => scheme.Readings.LogLikelihood + scheme.Weight).DefaultIfEmpty(double.NegativeInfinity).Max();
        if (double.IsNegativeInfinity(greatest)) return new RecognizedLine([], view, double.NegativeInfinity, unconstrained);
        var all = read.Sum(scheme => Math.Exp(scheme.Readings.LogLikelihood + scheme.Weight - greatest));
        var best = from scheme in read
                   from reading in scheme.Readings.Best
                   group Math.Exp(reading.LogLikelihood + scheme.Weight - greatest) / all by (scheme.Name, reading.Label) into same
                   let probability = same.Sum()
                   orderby probability descending, same.Key.Name, same.Key.Label
                   select new SchemeReading(same.Key.Name, same.Key.Label, Math.Min(probability, 1));
        return new RecognizedLine([.. best.Take(most)], view, (greatest + Math.Log(all)) / frames.Count, unconstrained);
    }
}

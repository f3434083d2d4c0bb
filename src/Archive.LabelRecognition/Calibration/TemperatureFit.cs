using Archive.LabelRecognition.Decoding;

namespace Archive.LabelRecognition.Calibration;

/// <summary>A line whose label is known.</summary>
/// <param name="Frames">What the recogniser says.</param>
/// <param name="All">Decodes all labels of the grammar.</param>
/// <param name="Known">Decodes only the label that is there.</param>
public sealed record KnownLine(CtcFrames Frames, CtcDecoder All, CtcDecoder Known);

/// <summary>
/// Finds the temperature at which known labels get the greatest probability. Guo and others (2017): one number, fitted by likelihood, on
/// lines that are not used to judge it.
/// </summary>
public static class TemperatureFit
{
    private const double Lowest = 0.5;
    private const double Highest = 8;
    private const int Steps = 12;

    /// <summary>Fits it, to about a hundredth.</summary>
    public static double Fit(IReadOnlyCollection<KnownLine> lines)
    {
        // Golden section search over the logarithm.
        var ratio = (Math.Sqrt(5) - 1) / 2;
        var (low, high) = (Math.Log(Lowest), Math.Log(Highest));
        var (left, right) = (high - (ratio * (high - low)), low + (ratio * (high - low)));
        var (leftLoss, rightLoss) = (Loss(lines, Math.Exp(left)), Loss(lines, Math.Exp(right)));
        for (var step = 0; step < Steps; step++)
        {
            if (leftLoss < rightLoss)
            {
                (high, right, rightLoss) = (right, left, leftLoss);
                left = high - (ratio * (high - low));
                leftLoss = Loss(lines, Math.Exp(left));
            }
            else
            {
                (low, left, leftLoss) = (left, right, rightLoss);
                right = low + (ratio * (high - low));
                rightLoss = Loss(lines, Math.Exp(right));
            }
        }

        return Math.Exp((low + high) / 2);
    }

    /// <summary>The mean negative logarithm of the probability of the known labels.</summary>
    public static double Loss(IReadOnlyCollection<KnownLine> lines, double temperature) =>
        lines.Count == 0 ? 0 : lines.Average(line =>
        {
            var frames = line.Frames.At(temperature);
            var loss = line.All.LogLikelihood(frames) - line.Known.LogLikelihood(frames);
            // A label that cannot be read at all costs the same at every temperature.
            return double.IsFinite(loss) ? loss : 0;
        });
}

using Archive.LabelRecognition.Calibration;
using Archive.LabelRecognition.Decoding;
using Archive.LabelRecognition.Tests.Grammars;
using Xunit;

namespace Archive.LabelRecognition.Tests.Calibration;

public class CalibrationTests
{
    [Fact]
    public void A_reliability_diagram_and_its_scores_by_hand()
    {
        Claim[] claims = [new(1, true), new(0.9, true), new(0.9, false), new(0.6, true), new(0.2, false)];
        // (0² + 0.1² + 0.9² + 0.4² + 0.2²) / 5
        Assert.Equal(0.204, CalibrationMeasures.BrierScore(claims), 9);
        var bins = CalibrationMeasures.Reliability(claims, 0, 0.5, 0.9);
        Assert.Equal([(0, 0.5, 1), (0.5, 0.9, 1), (0.9, 1, 3)], bins.Select(bin => (bin.From, bin.To, bin.Count)));
        Assert.Equal(2.8 / 3, bins[2].MeanProbability, 9);
        Assert.Equal(2.0 / 3, bins[2].Accuracy, 9);
        // (1 × 0.2 + 1 × 0.4 + 3 × 0.2667) / 5
        Assert.Equal(0.28, CalibrationMeasures.ExpectedError(bins), 9);
    }

    [Fact]
    public void No_claims_have_no_error()
    {
        Assert.Equal(0, CalibrationMeasures.BrierScore([]));
        Assert.Empty(CalibrationMeasures.Reliability([], 0, 0.5));
        Assert.Equal(0, CalibrationMeasures.ExpectedError([]));
    }

    // What is right with probability p says p², scaled to a sum of 1: twice too sure. The temperature that undoes it is 2.
    [Fact]
    public void The_temperature_undoes_how_sure_a_recogniser_is()
    {
        var (all, a, b) = (Decoder("^[ab]$"), Decoder("^a$"), Decoder("^b$"));
        var random = new Random(1);
        var lines = new List<KnownLine>();
        for (var at = 0; at < 3000; at++)
        {
            var probability = 0.03 + (0.94 * random.NextDouble());
            var (squared, other) = (probability * probability, (1 - probability) * (1 - probability));
            var frames = new CtcFrames([0, (float)(squared / (squared + other)), (float)(other / (squared + other))], 3);
            lines.Add(new KnownLine(frames, all, random.NextDouble() < probability ? a : b));
        }

        var fitted = TemperatureFit.Fit(lines);
        Assert.InRange(fitted, 1.85, 2.15);
        Assert.True(TemperatureFit.Loss(lines, fitted) < TemperatureFit.Loss(lines, 1));
    }

    private static CtcDecoder Decoder(string pattern)
    {
        var automaton = LabelGrammarTests.Compiled(pattern);
        return new CtcDecoder(automaton, GlyphWeights.From(automaton.Glyphs, ["", "a", "b"]));
    }
}

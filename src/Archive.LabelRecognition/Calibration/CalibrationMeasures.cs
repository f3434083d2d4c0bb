using System.Collections.Immutable;

namespace Archive.LabelRecognition.Calibration;

/// <summary>What a reading claimed, and what it was.</summary>
/// <param name="Probability">From 0 to 1.</param>
/// <param name="IsRight">Whether the label was the one that is there.</param>
public readonly record struct Claim(double Probability, bool IsRight);

/// <summary>Claims of about the same probability.</summary>
/// <param name="From">Least probability.</param>
/// <param name="To">Upper end; only the last bin has it in it.</param>
/// <param name="Count">Number of claims.</param>
/// <param name="MeanProbability">What they claimed, on average.</param>
/// <param name="Accuracy">The share that was right.</param>
public sealed record ReliabilityBin(double From, double To, int Count, double MeanProbability, double Accuracy);

/// <summary>Whether probabilities mean what they say.</summary>
public static class CalibrationMeasures
{
    /// <summary>The mean squared error of the probabilities; 0 is best. Brier, Verification of forecasts (1950), for one event.</summary>
    public static double BrierScore(IReadOnlyCollection<Claim> claims) =>
        claims.Count == 0 ? 0 : claims.Average(claim => Math.Pow(claim.Probability - (claim.IsRight ? 1 : 0), 2));

    /// <summary>A reliability diagram as numbers: bins without claims are left out.</summary>
    /// <param name="claims">The claims.</param>
    /// <param name="edges">Where bins begin, ascending; the last one ends at 1.</param>
    public static ImmutableArray<ReliabilityBin> Reliability(IReadOnlyCollection<Claim> claims, params IReadOnlyList<double> edges) =>
        [.. edges.Select((from, at) => (From: from, To: at + 1 < edges.Count ? edges[at + 1] : 1))
            .Select(bin => (bin.From, bin.To, Claims: claims
                .Where(claim => claim.Probability >= bin.From && (claim.Probability < bin.To || bin.To >= 1)).ToList()))
            .Where(bin => bin.Claims.Count > 0)
            .Select(bin => new ReliabilityBin(
                bin.From,
                bin.To,
                bin.Claims.Count,
                bin.Claims.Average(claim => claim.Probability),
                bin.Claims.Count(claim => claim.IsRight) / (double)bin.Claims.Count))];

    /// <summary>The mean distance of probability and accuracy over bins. Guo and others (2017).</summary>
    public static double ExpectedError(IReadOnlyCollection<ReliabilityBin> bins) =>
        bins.Sum(bin => bin.Count * Math.Abs(bin.MeanProbability - bin.Accuracy)) / Math.Max(1, bins.Sum(bin => bin.Count));
}

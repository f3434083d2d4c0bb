namespace Archive.LabelRecognition.Readings;

/// <summary>Tells labels from other print: the best label of a grammar is a label only if the line looks like one.</summary>
public static class LabelLikeness
{
    // Nats a frame, and the share of the label that was read without schemes too. Chosen on the demo's pictures; the README
    // says what they cost of generated labels.
    private const double SureFit = -0.1;
    internal const double LeastFit = -0.8;
    private const double LeastShare = 0.5;

    /// <summary>Whether a line may be a label at all.</summary>
    /// <param name="fit">How well the schemes explain the line; see <see cref="RecognizedLine"/>.</param>
    /// <param name="free">What was read without schemes.</param>
    /// <param name="label">The best label.</param>
    public static bool IsLabel(double fit, string free, string label) =>
        fit >= SureFit || (fit >= LeastFit && Common(free, label) >= LeastShare * label.Length);

    // Length of the longest common subsequence; spaces are left out by recognisers.
    private static int Common(string one, string other)
    {
        var before = new int[other.Length + 1];
        var row = new int[other.Length + 1];
        foreach (var letter in one)
        {
            for (var at = 0; at < other.Length; at++)
                row[at + 1] = letter == other[at] ? before[at] + 1 : Math.Max(before[at + 1], row[at]);
            (before, row) = (row, before);
        }

        return before[other.Length];
    }
}

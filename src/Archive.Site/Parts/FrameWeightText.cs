using Archive.Markup.Facts;
using Archive.Records.Model;
using UnitsNet;

namespace Archive.Site.Parts;

/// <summary>The weight of a frame in a plan, which says whether its units are in it.</summary>
internal static class FrameWeightText
{
    /// <summary>As recorded where that is the weight that the plan uses; calculated where units were added or taken off.</summary>
    /// <param name="used">The weight that the plan uses; null where none is recorded.</param>
    /// <param name="which">Which weight that is; null or empty for a frame without units.</param>
    /// <param name="isAtLeast">Whether a weight in it is not recorded.</param>
    public static FactText Of(FactFormatter formatter, Frame frame, Mass? used, string? which, bool isAtLeast)
    {
        var recorded = formatter.Format(frame.Weight);
        if (used is not { } weight || which is not { Length: > 0 }) return recorded;
        return Math.Abs(weight.Kilograms - frame.Weight!.Value.Value.Kilograms) < 0.0005
            ? recorded with { Text = $"{recorded.Text}, {which}" }
            : new FactText(
                $"{(isAtLeast ? "at least " : "")}{formatter.Text.Format(weight)}, {which}",
                EvidenceText.Derived("its recorded weight and those of its units"));
    }
}

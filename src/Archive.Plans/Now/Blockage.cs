using System.Collections.Immutable;
using Archive.Plans.Progress;
using Archive.Plans.Wording;
using Archive.Wiring.Progress;

namespace Archive.Plans.Now;

/// <summary>Something that keeps steps back.</summary>
/// <param name="Crew">Whose steps.</param>
/// <param name="Steps">How many.</param>
/// <param name="Why">What they wait for: lower case, no full stop.</param>
/// <param name="Cables">Ids of the first of their cables.</param>
public sealed record Blockage(CrewKind Crew, int Steps, ImmutableArray<TextPart> Why, ImmutableArray<string> Cables)
{
    private const int MostNamed = 5;

    /// <summary>What keeps steps back, what keeps back the most first.</summary>
    /// <param name="steps">Steps of a list: the cable of each, and how far it has come.</param>
    /// <remarks>What waits for a licensed person alone is not blocked: it is work for that person.</remarks>
    public static IEnumerable<Blockage> From(CrewKind crew, IEnumerable<(string? Cable, StepState State)> steps) =>
        steps.SelectMany(step => step.State.WaitsFor.Select(why => (step.Cable, Why: why)))
            .Where(each => each.Why.Kind is not (PreconditionKind.Licensed or PreconditionKind.Isolated))
            .GroupBy(each => (each.Why.Kind, each.Why.Frame))
            .Select(group => new Blockage(
                crew,
                group.Count(),
                Words([.. group.Select(each => each.Why)]),
                [.. group.Select(each => each.Cable).OfType<string>().Take(MostNamed)]))
            .OrderByDescending(blockage => blockage.Steps);

    // One text where all of them say the same; else what they have in common.
    private static ImmutableArray<TextPart> Words(ImmutableArray<Precondition> all)
    {
        var first = all[0];
        return all.All(each => each.Count == first.Count && each.Cables.SequenceEqual(first.Cables)) ? StateText.Describe(first)
            : first.Kind == PreconditionKind.CablesOverOut ? ["other cables lie over them"]
            : first.Kind == PreconditionKind.OthersOn ? ["other cables of their lists are not connected yet"]
            : StateText.Describe(first with { Cables = [], Count = all.Max(each => each.Count) });
    }
}

using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.Plans.Safety;

/// <summary>The caution of each hazard that a record states, from <see cref="HazardText"/>.</summary>
public static class HazardCautions
{
    /// <summary>The caution of a hazard.</summary>
    public static Caution For(Hazard hazard) => new(HazardText.For(hazard).Title, HazardText.For(hazard).Text);

    /// <summary>The hazard in a few words, as warnings begin.</summary>
    public static string Lead(Hazard hazard) => For(hazard).Title.Split(':')[0];

    /// <summary>The cautions of hazards, each once, in the order in which the record states them.</summary>
    public static ImmutableArray<Caution> For(IEnumerable<Stated<Hazard>> hazards) =>
        [.. hazards.Select(hazard => hazard.Value).Distinct().Select(For)];
}

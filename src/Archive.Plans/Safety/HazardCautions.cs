using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.Plans.Safety;

/// <summary>The caution of each hazard that a record states, from <see cref="HazardText"/>.</summary>
public static class HazardCautions
{
    // Asked for at every step of every list.
    private static readonly FrozenDictionary<Hazard, (Caution Caution, string Lead)> All = Enum.GetValues<Hazard>().ToFrozenDictionary(
        hazard => hazard,
        hazard => HazardText.For(hazard) is var said ? (new Caution(said.Title, said.Text), said.Title.Split(':')[0]) : default);

    /// <summary>The caution of a hazard.</summary>
    public static Caution For(Hazard hazard) => All[hazard].Caution;

    /// <summary>The hazard in a few words, as warnings begin.</summary>
    public static string Lead(Hazard hazard) => All[hazard].Lead;

    /// <summary>The cautions of hazards, each once, in the order in which the record states them.</summary>
    public static ImmutableArray<Caution> For(IEnumerable<Stated<Hazard>> hazards) =>
        [.. hazards.Select(hazard => hazard.Value).Distinct().Select(For)];
}

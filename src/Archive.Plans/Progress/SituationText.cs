using Archive.Wiring.Journeys;

namespace Archive.Plans.Progress;

/// <summary>What a situation is called.</summary>
public static class SituationText
{
    /// <summary>In words: lower case.</summary>
    public static string Describe(Situation situation) => situation switch
    {
        Situation.AsFound => "as found",
        Situation.OnTheRoad => "in transit",
        Situation.Stood => "in its place",
        Situation.Fixed => "in its place and anchored",
        Situation.Severed => "cut",
        _ => situation.ToString().ToLowerInvariant(),
    };
}

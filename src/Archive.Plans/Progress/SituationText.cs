using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Wiring.Journeys;

namespace Archive.Plans.Progress;

/// <summary>What a situation is called.</summary>
public static class SituationText
{
    /// <summary>How a thing is and where, in words: lower case. "Packed, in BOX-12, in Store, bay 4".</summary>
    public static string Describe(Journey journey, ArchiveModel record)
    {
        var box = journey.Box is { } inside ? $", in {inside}" : "";
        var hall = journey.Hall is { } id && record.Find(id) is { } found ? $", in {Phrase.OneLine(found.Title)}" : "";
        var place = journey.Place is { Length: > 0 } said ? $", {Phrase.OneLine(said)}" : "";
        return Describe(journey.Situation)
            + (journey.IsToBeFound ? ", but its box has been opened and nothing says that it came out" : "")
            + (journey.IsDamaged ? ", damaged" : "")
            + box + hall + place;
    }

    /// <summary>In words: lower case.</summary>
    public static string Describe(Situation situation) => situation switch
    {
        Situation.AsFound => "as found",
        Situation.OnTheRoad => "in transit",
        Situation.Packed => "packed",
        Situation.Stood => "in its place",
        Situation.Fixed => "in its place and anchored",
        Situation.Severed => "cut",
        _ => situation.ToString().ToLowerInvariant(),
    };
}

using System.Collections.Immutable;
using Archive.Halls.Floor;
using Archive.Halls.Layout;
using Archive.Halls.Power;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;

namespace Archive.Plans.Floor;

/// <summary>What the plan of floors, power and heat says in words.</summary>
public static class FloorSentences
{
    /// <summary>What comes of a hall.</summary>
    public static string Describe(FloorOfHall hall, ArchiveModel record)
    {
        var text = TextOf(record);
        var title = hall.Layout.Hall.Title;
        if (hall.Layout.Hall.FloorRating is not { } rating) return $"{title}: the floor load limit is not recorded.{Heat(hall)}";
        var above = hall.Loads.Count(load => load.FootprintAgainst == LimitStatus.Above);
        var spread = hall.Loads.Count(load => load.SpreadAgainst == LimitStatus.Above);
        var unknown = hall.Loads.Count(load => load.OnFootprint is null);
        var footprints = above == 0
            ? "no frame exceeds that on its own footprint"
            : $"{Phrase.Count(above, "frame exceeds", "frames exceed")} that on {(above == 1 ? "its" : "their")} own footprint, and {(spread == 0 ? "none" : Phrase.Count(spread))} with half the aisles included";
        return $"{title}: the floor is rated for {text.Format(rating.Value)}; {footprints}{(unknown > 0 ? $". {Phrase.Count(unknown, "frame has", "frames have")} no recorded weight or size and {(unknown == 1 ? "is" : "are")} not included" : "")}.{Heat(hall)}";
    }

    /// <summary>The result of the feeders.</summary>
    public static string Describe(ImmutableArray<Feeder> feeders, ArchiveModel record)
    {
        if (feeders.IsEmpty) return "No feeders are recorded.";
        var text = TextOf(record);
        var worst = feeders.Where(feeder => feeder.DropShare is not null).MaxBy(feeder => feeder.DropShare!.Value.Percent);
        return worst is null
            ? $"The voltage drop of {Phrase.Count(feeders.Length, "feeder")} cannot be calculated: a current, a gauge or a route is missing."
            : $"Of {Phrase.Count(feeders.Length, "feeder")}, {worst.Cable.Id} to {worst.Feeds!.Id} has the largest voltage drop: {UnitFormatter.FormatComputed(worst.Drop!.Value)}, {UnitFormatter.FormatComputed(worst.DropShare!.Value)}.";
    }

    /// <summary>A load against a rating.</summary>
    public static string Describe(LimitStatus against) => against switch
    {
        LimitStatus.Above => "above",
        LimitStatus.Within => "within",
        _ => "unknown",
    };

    /// <summary>The aisle before or behind a frame.</summary>
    public static string Describe(Clearance clearance, UnitFormatter text) =>
        clearance.Distance is { } distance
            ? $"{text.FormatComputed(distance)} to {(clearance.To == "wall" ? "the wall" : clearance.To)}"
            : "open";

    private static string Heat(FloorOfHall hall)
    {
        // One frame's heat is another's supply: what is drawn at two voltages is not added up.
        var text = new UnitFormatter(DisplayUnits.Metric);
        var heat = hall.Draws.Select(drawn =>
            $"{UnitFormatter.Heat(drawn.Heat)}{(hall.Draws.Length > 1 ? $" at {text.Format(drawn.Volts)}" : "")}");
        return hall.Draws.IsEmpty
            ? ""
            : $" With all its frames running, they give off {Phrase.Listed([.. heat])} of heat{(hall.Draws.Length > 1 ? " (do not add both: one feeds the other)" : "")}.";
    }

    private static UnitFormatter TextOf(ArchiveModel record) => new(record.Statement.Units?.Value ?? DisplayUnits.Metric);
}

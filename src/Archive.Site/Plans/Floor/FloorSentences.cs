using System.Collections.Immutable;
using Archive.Hall;
using Archive.Records;

namespace Archive.Site;

/// <summary>What the plan of floors, power and heat says in words.</summary>
internal static class FloorSentences
{
    /// <summary>What comes of a hall.</summary>
    public static string Of(FloorOfHall hall, AsFound record)
    {
        var text = TextOf(record);
        var title = hall.Layout.Hall.Title;
        if (hall.Layout.Hall.FloorRating is not { } rating) return $"{title}: the floor load limit is not recorded.{Heat(hall)}";
        var above = hall.Loads.Count(load => load.FootprintAgainst == Against.Above);
        var spread = hall.Loads.Count(load => load.SpreadAgainst == Against.Above);
        var unknown = hall.Loads.Count(load => load.OnFootprint is null);
        var footprints = above == 0 ? "no frame exceeds that on its own footprint" : $"{Words.Count(above, "frame exceeds", "frames exceed")} that on {(above == 1 ? "its" : "their")} own footprint, and {(spread == 0 ? "none" : Words.Count(spread))} with half the aisles included";
        return $"{title}: the floor is rated for {text.Of(rating.Value)}; {footprints}{(unknown > 0 ? $". {Words.Count(unknown, "frame has", "frames have")} no recorded weight or size and {(unknown == 1 ? "is" : "are")} not included" : "")}.{Heat(hall)}";
    }

    /// <summary>What comes of the feeders.</summary>
    public static string Of(ImmutableArray<Feeder> feeders, AsFound record)
    {
        if (feeders.IsEmpty) return "No feeders are recorded.";
        var text = TextOf(record);
        var worst = feeders.Where(feeder => feeder.DropShare is not null).MaxBy(feeder => feeder.DropShare!.Value.Percent);
        return worst is null
            ? $"The voltage drop of {Words.Count(feeders.Length, "feeder")} cannot be calculated: a current, a gauge or a route is missing."
            : $"Of {Words.Count(feeders.Length, "feeder")}, {worst.Cable.Id} to {worst.Feeds!.Id} has the largest voltage drop: {QuantityText.Reckoned(worst.Drop!.Value)}, {QuantityText.Reckoned(worst.DropShare!.Value)}.";
    }

    /// <summary>A load against a rating.</summary>
    public static string Of(Against against) => against switch
    {
        Against.Above => "above",
        Against.Within => "within",
        _ => "unknown",
    };

    /// <summary>The aisle before or behind a frame.</summary>
    public static string Of(Clearance clearance, QuantityText text) =>
        clearance.Distance is { } distance ? $"{text.Reckoned(distance)} to {(clearance.To == "wall" ? "the wall" : clearance.To)}" : "open";

    private static string Heat(FloorOfHall hall)
    {
        // One frame's heat is another's supply: what is drawn at two voltages is not added up.
        var text = new QuantityText(UnitChoice.Metric);
        var heat = hall.Draws.Select(drawn => $"{QuantityText.Heat(drawn.Heat)}{(hall.Draws.Length > 1 ? $" at {text.Of(drawn.Volts)}" : "")}");
        return hall.Draws.IsEmpty ? "" : $" With all its frames running, they give off {Words.Listed([.. heat])} of heat{(hall.Draws.Length > 1 ? " (do not add both: one feeds the other)" : "")}.";
    }

    private static QuantityText TextOf(AsFound record) => new(record.Statement.Units?.Value ?? UnitChoice.Metric);
}

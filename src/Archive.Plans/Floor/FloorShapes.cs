using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Halls.Floor;
using Archive.Halls.Layout;
using Archive.Halls.Power;
using Archive.Halls.Trays;
using Archive.Plans.Safety;
using Archive.Plans.Warnings;
using Archive.Records.Model;

namespace Archive.Plans.Floor;

/// <summary>What the data of floors, power and heat say.</summary>
internal static class FloorShapes
{
    /// <summary>A frame in a hall.</summary>
    public static DataShape<FloorLoad> Frame(ImmutableArray<Caution> cautions) => new DataShape<FloorLoad>()
        .Text("hall", "id of the hall", load => load.Hall.Id)
        .Text("row", "id of its row", load => load.Placed.Row.Id.Value)
        .Text("frame", "id of the frame", load => load.Placed.Frame.Id)
        .Number("weight_kg", "kg", "its weight in its place: with its units", load => Round(load.Weights?.With.Kilograms))
        .Text("weight_is", "which weight that is; empty where it has no units", load =>
            load.Weights?.StandingIs is { Length: > 0 } which ? which : null)
        .Number("rating_kpa", "kPa", "what the floor is rated to carry", load => Round(load.Rating?.Kilopascals))
        .Number("footprint_m2", "m2", "its footprint", load => Round(load.Footprint?.SquareMeters))
        .Number("footprint_kpa", "kPa", "weight x 9.80665 m/s2 over the footprint", load => Round(load.OnFootprint?.Kilopascals))
        .Text("footprint_is", "within or above the rating, or unknown", load => Word(load.FootprintAgainst))
        .Number("spread_m2", "m2", "its footprint plus half of the aisle in front and behind", load => Round(load.Spread?.SquareMeters))
        .Number("spread_kpa", "kPa", "weight x 9.80665 m/s2 over that", load => Round(load.OnSpread?.Kilopascals))
        .Text("spread_is", "within or above the rating, or unknown", load => Word(load.SpreadAgainst))
        .Number("before_m", "m", "clear floor in front of it", load => Round(load.Aisles?.Before.Distance?.Meters))
        .Text("before_to", "what limits that: a frame, an obstacle or wall", load => load.Aisles?.Before.To)
        .Number("behind_m", "m", "clear floor behind it", load => Round(load.Aisles?.Behind.Distance?.Meters))
        .Text("behind_to", "what limits that", load => load.Aisles?.Behind.To)
        .Flag(
            "any_door_opens",
            "whether a door as wide as the frame would open to 90°; the record does not say how wide its doors are",
            load => load.Aisles?.LetsAnyDoorOpen)
        .Number("heat_w", "W", "volts x amps drawn", load => Round((double?)PowerAtVoltage.HeatOf(load.Placed.Frame)?.Watts))
        .Number("heat_btu_h", "BTU/h", "the same", load =>
            Round((double?)PowerAtVoltage.HeatOf(load.Placed.Frame)?.BritishThermalUnitsPerHour))
        .Cautions(cautions);

    /// <summary>What is drawn in a hall.</summary>
    public static DataShape<(string Hall, PowerAtVoltage Drawn)> Draws(ImmutableArray<Caution> cautions) =>
        new DataShape<(string Hall, PowerAtVoltage Drawn)>()
            .Text("hall", "id of the hall", row => row.Hall)
            .Number("volts", "V", "the potential, signed", row => row.Drawn.Volts.Volts)
            .Number("amps", "A", "the current of all its frames together", row => Round(row.Drawn.Amps.Amperes))
            .Count("frames", "how many draw it", row => row.Drawn.Frames)
            .Number("heat_w", "W", "volts x amps", row => Round((double)row.Drawn.Heat.Watts))
            .Number("heat_btu_h", "BTU/h", "the same", row => Round((double)row.Drawn.Heat.BritishThermalUnitsPerHour))
            .Cautions(cautions);

    public static DataShape<Feeder> Feeder(ImmutableArray<Caution> cautions) => new DataShape<Feeder>()
        .Text("cable", "id of the feeder", feeder => feeder.Cable.Id)
        .Text("from", "id of the frame it comes from", feeder => feeder.From?.Id)
        .Text("feeds", "id of the frame it feeds", feeder => feeder.Feeds?.Id)
        .Count("feeders", "how many feed the same frame; each is assumed to carry the full load", feeder => feeder.Beside)
        .Number("volts", "V", "the voltage at which that frame draws", feeder => feeder.Volts?.Volts)
        .Number("amps", "A", "the highest current it has to carry", feeder => Round(feeder.Amps?.Amperes))
        .Number("route_m", "m", "its route as found, one way; its length if that is unknown", feeder => Round(feeder.Route?.Meters))
        .Text("gauge", "its conductor", feeder => feeder.Kind.Gauge?.Value.Text)
        .Number("ohms_per_m", "ohm/m", "resistance of one conductor, solid copper at 20 C", feeder => Round(feeder.OhmsPerMetre, 9))
        .Number("drop_v", "V", "2 x route x resistance x current", feeder => Round(feeder.Drop?.Volts))
        .Number("drop_percent", "%", "the same as a share of the potential", feeder => Round(feeder.DropShare?.Percent))
        .Text("note", "what is missing or assumed", feeder => feeder.Note.Length == 0 ? null : feeder.Note)
        .Cautions(cautions);

    /// <summary>A tray.</summary>
    /// <param name="record">Where the limit of its fill is stated.</param>
    public static DataShape<TrayContents> Tray(ArchiveModel record, ImmutableArray<Caution> cautions) => new DataShape<TrayContents>()
        .Text("tray", "id of the tray", contents => contents.Tray.Id)
        .Text("hall", "id of its hall", contents => contents.Tray.Hall?.Value)
        .Count("cables", "cables that lie in it", contents => contents.Cables.Length)
        .Count("without_diameter", "those whose diameter is not recorded; the fill leaves them out", contents => contents.WithoutDiameter)
        .Number("section_mm2", "mm2", "sum of the cables' sections", contents => Round(contents.Section.SquareMillimeters))
        .Number("fill_percent", "%", "that, as a share of the tray's own section", contents => Round(contents.Fill?.Percent))
        .Number("limit_percent", "%", "the fill limit that the archive sets", _ => record.Statement.FillLimit?.Value.Percent)
        .Text("fill_is", "within or above the limit, or unknown", contents => Word(contents.FillAgainst(record.Statement.FillLimit?.Value)))
        .Count("without_mass", "cables whose mass is not recorded; the mass leaves them out", contents => contents.WithoutMass)
        .Number("mass_g_per_m", "g/m", "sum of the cables' masses", contents => Round(contents.Mass.GramsPerMeter))
        .Number("bend_mm", "mm", "minimum bend radius of its cables", contents => Round(contents.BendRadius?.Millimeters))
        .Cautions(cautions);

    private static string Word(LimitStatus against) => against.ToString().ToLowerInvariant();

    private static double? Round(double? number, int decimals = 6) =>
        number is { } known ? Math.Round(known, decimals, MidpointRounding.AwayFromZero) : null;
}

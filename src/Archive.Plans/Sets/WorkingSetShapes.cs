using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Plans.Safety;
using Archive.Plans.Warnings;
using Archive.Wiring.Sets;

namespace Archive.Plans.Sets;

/// <summary>What the data of the working sets say.</summary>
internal static class WorkingSetShapes
{
    private static readonly DataShape<CurrentAt> Current = new DataShape<CurrentAt>()
        .Number("volts", "V", "the nominal voltage, signed", at => (double)at.Potential.Volts)
        .Number("amps", "A", "the current at it", at => (double)at.Current.Amperes);

    private static readonly DataShape<UnmetNeed> Unmet = new DataShape<UnmetNeed>()
        .Text("of", "id of the display or frame whose need fails", unmet => unmet.Of.Id)
        .Text("at", "where the need is written: path:line:column", unmet => unmet.Need.Span.ToString())
        .Text("why", "what is missing", unmet => unmet.Why);

    /// <summary>A display and its set.</summary>
    public static DataShape<WorkingSet> Set(ImmutableArray<Caution> cautions) => new DataShape<WorkingSet>()
        .Text("display", "id of the display", set => set.Display.Id)
        .Flag("met", "whether its needs can be met", set => set.IsMet)
        .Flag("proven", "whether it is proved that no smaller set would do", set => set.IsProven)
        .Count("count", "number of frames", set => set.Frames.Length)
        .List("frames", "ids of the frames", set => set.Frames.Select(frame => frame.Id))
        .Number("weight_kg", "kg", "their weight, as far as recorded", set => set.Figures.Weight.Known.Kilograms)
        .List("weight_unknown", "ids of frames without a recorded weight", set => set.Figures.Weight.Lacking.Select(frame => frame.Id))
        .Number("floor_area_m2", "m2", "total width by depth, as far as recorded; without aisles", set =>
            set.Figures.FloorArea.Known.SquareMeters)
        .List("floor_area_unknown", "ids of frames without a recorded size", set => set.Figures.FloorArea.Lacking.Select(frame => frame.Id))
        .Entries("currents", "current at each voltage, as far as recorded", Current, set => set.Figures.Currents, at =>
            $"{DataValue.From((double)at.Current.Amperes)} A at {DataValue.From((double)at.Potential.Volts)} V")
        .Number("heat_w", "W", "volts by amperes, over all", set => (double)set.Figures.Heat.Watts)
        .Number("heat_btu_per_h", "BTU/h", "the same; a watt is 3.412142 BTU/h", set => (double)set.Figures.Heat.BritishThermalUnitsPerHour)
        .List("draw_unknown", "ids of frames whose current is not recorded", set => set.Figures.WithoutDraws.Select(frame => frame.Id))
        .List("edge", "ids of cables with one end outside", set => set.Edge.Select(edge => edge.Reading.Cable.Id))
        .List("inside", "ids of cables with all ends inside", set => set.Inside.Select(reading => reading.Cable.Id))
        .List("loose", "ids of cables with a single known end, at a frame of the set", set => set.Loose.Select(reading => reading.Cable.Id))
        .Entries("unmet", "the needs that cannot be met, and why", Unmet, set => set.Unmet, unmet => $"{unmet.Of.Id}: {unmet.Why}")
        .Cautions(cautions);

    public static DataShape<SetCable> Cable(ImmutableArray<Caution> cautions) => new DataShape<SetCable>()
        .Text("display", "id of the display", cable => cable.Set.Display.Id)
        .Text("cable", "id of the cable", cable => cable.Reading.Cable.Id)
        .Text(
            "lies",
            "inside (all known ends in the set), edge (one end outside) or loose (a single known end, in the set)",
            cable => cable.Lies)
        .List("staying", "addresses of its ends within", cable => cable.Staying.Select(end => end.At.ToString()))
        .List("parked", "addresses of its ends outside, which are parked", cable => cable.Parked.Select(end => end.At.ToString()))
        .Cautions(cautions);
}

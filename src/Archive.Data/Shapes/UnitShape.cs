using Archive.Data.Tables;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Data.Shapes;

public static class UnitShape
{
    private static readonly DataShape<Strap> Straps = new DataShape<Strap>()
        .Text("name", "what is printed beside it", strap => strap.Name)
        .Text("setting", "how it was found set", strap => strap.Setting.Value);

    /// <summary>The columns of an outer size.</summary>
    internal static (DataColumn Column, Func<FrameSize, double> Number)[] SizeColumns =>
    [
        (new DataColumn("width_m", "number", "width", "m"), size => size.Width.Meters),
        (new DataColumn("depth_m", "number", "depth", "m"), size => size.Depth.Meters),
        (new DataColumn("height_m", "number", "height", "m"), size => size.Height.Meters),
    ];

    public static readonly DataShape<Unit> Shape = CommonShape.Head<Unit>()
        .Fact("marking", "type or part number, exactly as printed", unit => unit.Marking)
        .Fact("serial", "serial number, exactly as printed", unit => unit.Serial)
        .Fact("revision", "revision or issue, exactly as printed", unit => unit.Revision)
        .Fact("at", "text", "where it was found: frame, position, and the slot after a colon", unit => unit.At, at =>
            DataValue.From(at.ToString()))
        .Add(new QuantityField<Unit, FrameSize>("size", "outer size", unit => unit.Size, SizeColumns))
        .Quantity("weight", "kg", "mass", unit => unit.Weight, mass => mass.Kilograms)
        .List("handling", "how it must be handled", unit => unit.Handling.Select(word => DataValue.Word<Handling>(word.Value)!))
        .List("hazards", "what can hurt someone at it", unit => unit.Hazards.Select(hazard => DataValue.Word<Hazard>(hazard.Value)!))
        .Fact("firmware", "version of the firmware in it, exactly as printed", unit => unit.Firmware)
        .Entries("straps", "straps, switches and links, as they were found set", Straps, unit => unit.Straps, strap =>
            $"{strap.Name}={strap.Setting.Value}")
        .Fact("spare", "whether it is a spare", unit => unit.Spare)
        .Tail();
}

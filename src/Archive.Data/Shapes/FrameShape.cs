using System.Globalization;
using System.Text.Json;
using Archive.Data.Tables;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Data.Shapes;

public static class FrameShape
{
    private static readonly DataShape<PowerDraw> Draws = new DataShape<PowerDraw>()
        .Quantity("potential", "V", "nominal voltage, signed", draw => draw.Volts, volts => volts.Volts)
        .Quantity("current", "A", "current drawn at that voltage", draw => draw.Amps, amps => amps.Amperes);

    private static readonly DataShape<Position> Positions = new DataShape<Position>()
        .Text("id", "its name on the frame", position => position.Id.Value)
        .Fact("holds", "what it holds", position => position.Holds)
        .Quantity("from_floor", "m", "height of its lower edge above the floor", position => position.FromFloor, length => length.Meters)
        .Quantity("height", "m", "its own height", position => position.Height, length => length.Meters)
        .List("ports", "its ports, single or as ranges `J1..J24`; absent if any port is accepted", position =>
            position.Ports.Select(PortText))
        .List("slots", "its slots for units, single or as ranges `1..16`; absent if any slot is accepted", position =>
            position.Slots.Select(PortText))
        .Fact("note", "remark", position => position.Note, "markdown");

    public static readonly DataShape<Frame> Shape = CommonShape.Head<Frame>()
        .Fact("module", "functional group", frame => frame.Module)
        .Add(new QuantityField<Frame, FrameSize>("size", "outer size", frame => frame.Size,
        [
            (new DataColumn("width_m", "number", "width, along its row", "m"), size => size.Width.Meters),
            (new DataColumn("depth_m", "number", "depth, front to back", "m"), size => size.Depth.Meters),
            (new DataColumn("height_m", "number", "height, from the floor up", "m"), size => size.Height.Meters),
        ]))
        .Quantity("weight", "kg", "mass when moved", frame => frame.Weight, mass => mass.Kilograms)
        .Fact("weighed", "whether that mass is with its units in; with them, if absent", frame => frame.Weighed)
        .Entries("draws", "what it draws, one entry per voltage", Draws, frame => frame.Draws, InWords)
        .Fact("doors", "doors and covers removed before the move", frame => frame.Doors)
        .Fact("may_lie_down", "whether it may be laid down to be moved; absent if that is not recorded", frame => frame.MayLieDown)
        .Form("needs", "everything that must run for it to run: ids, or `{any, of}`", frame =>
            !frame.Needs.IsEmpty, (json, frame) => NeedForm.Write(json, frame.Needs), frame => NeedForm.InWords(frame.Needs), "list")
        .Entries("positions", "shelves, panels and blocks in it, as the record lists them", Positions, frame => frame.Positions, position =>
            position.Id.Value)
        .List("hazards", "what can hurt someone at it", frame => frame.Hazards.Select(hazard => DataValue.Word<Hazard>(hazard.Value)!))
        .Fact("owner", "who it belongs to, if it is not part of the machine", frame => frame.Owner)
        .Fact("found_on", "when it was recorded", frame => frame.Found?.On)
        .Fact("found_by", "who recorded it, a key of `people`", frame => frame.Found?.By)
        .Tail();

    internal static string PortText(PortRange range) => range.Count > 1 ? $"{range.FirstName}..{range.LastName}" : range.FirstName;

    private static string InWords(PowerDraw draw)
    {
        var text = new UnitFormatter(DisplayUnits.Metric);
        return string.Join(' ', new[]
        {
            draw.Volts is { } volts ? text.Format(volts.Value) : null,
            draw.Amps is { } amps ? text.Format(amps.Value) : null
        }.Where(part => part is not null));
    }
}

// Needs nest: a frame's id, or `any` of several.
internal static class NeedForm
{
    internal static void Write(Utf8JsonWriter json, IEnumerable<Need> needs)
    {
        json.WriteStartArray();
        foreach (var need in needs) Write(json, need);
        json.WriteEndArray();
    }

    internal static string InWords(IEnumerable<Need> needs) => string.Join("; ", needs.Select(InWords));

    private static void Write(Utf8JsonWriter json, Need need)
    {
        switch (need)
        {
            case FrameNeed frame:
                DataValue.From(frame.Frame.Value).WriteTo(json);
                break;
            case AnyNeed any:
                json.WriteStartObject();
                json.WriteNumber("any", any.Any.Value);
                json.WritePropertyName("of");
                if (any.Module is { } module)
                {
                    json.WriteStartObject();
                    json.WriteString("module", DataValue.From(module.Value).ToString());
                    json.WriteEndObject();
                }
                else
                {
                    Write(json, any.Of);
                }

                json.WriteEndObject();
                break;
        }
    }

    private static string InWords(Need need) => need switch
    {
        FrameNeed frame => frame.Frame.Value,
        AnyNeed { Module: { } module } any => $"any {any.Any.Value.ToString(CultureInfo.InvariantCulture)} of module {module.Value}",
        AnyNeed any => $"any {any.Any.Value.ToString(CultureInfo.InvariantCulture)} of ({string.Join(", ", any.Of.Select(InWords))})",
        _ => string.Empty,
    };
}

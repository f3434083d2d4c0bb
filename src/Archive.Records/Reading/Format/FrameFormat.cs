using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Format;

/// <summary><c>frames/</c></summary>
internal static class FrameFormat
{
    private static readonly KeyList Keys = RecordFormat.Begin("R2-05", "Receiver 5", nameRequired: true);

    public static readonly FactKey<string> Module = Keys.Fact(
        "module", ValueFormats.Text, "the functional group it belongs to", "receivers");

    public static readonly FactKey<FrameSize> Size = Keys.Fact(
        "size", ValueFormats.FrameSize, "width, depth and height", "660 x 610 x 2134 mm");

    public static readonly FactKey<UnitsNet.Mass> Weight = Keys.Fact("weight", ValueFormats.Mass, "its weight as moved", "310 kg");
    public static readonly FactKey<WeighedState> Weighed = Keys.Fact(
        "weighed",
        ValueFormats.Words<WeighedState>(),
        "whether its weight is that with its plug-in units in",
        "without_units",
        usual: "with_units");

    public static readonly MappingsKey Draws = Keys.Each("draws", Draw.All, "the power that it draws", oneWillDo: true);
    public static readonly FactKey<int> Doors = Keys.Fact(
        "doors", ValueFormats.Count, "how many doors and covers are removed before it is moved", "2");

    public static readonly FactKey<bool> MayLieDown = Keys.Fact(
        "may_lie_down",
        ValueFormats.Truth,
        "`true` if it may be laid down to be moved, `false` if it must stay upright",
        "false",
        usual: "nobody knows, and it is kept upright");

    public static readonly FormatKey Needs = Keys.Other(
        "needs", NeedFormat.Needs, NeedFormat.Meaning, "[PW-01, {any: 1, of: [R1-01, R1-02]}]");

    public static readonly MappingsKey Positions = Keys.Each(
        "positions", Position.All, "the shelves, panels and blocks on it; a frame without listed positions can have any");

    public static readonly FactKey<string> Condition = RecordFormat.Condition(Keys);
    public static readonly MappingKey Found = Keys.Mapping("found", Finding.All, "when and by whom it was recorded");
    public static readonly ListKey<Hazard> Hazards = Keys.List(
        "hazards", ValueFormats.Words<Hazard>(), RecordFormat.Hazards, "[stored_charge]");

    public static readonly FactKey<string> Owner = Keys.Fact("owner", ValueFormats.Text, OwnerMeaning, null);
    public static readonly MappingFormat All = Keys.Of("frame");

    public const string OwnerMeaning =
        "who it belongs to, if it is not part of the machine: it stays, may be live, and nobody touches it";

    /// <summary>A draw of power.</summary>
    internal static class Draw
    {
        private static readonly KeyList Keys = new();

        public static readonly FactKey<UnitsNet.ElectricPotential> Volts = Keys.Fact(
            "volts", ValueFormats.Potential, "the voltage", "-48 V");

        public static readonly FactKey<UnitsNet.ElectricCurrent> Amps = Keys.Fact("amps", ValueFormats.Current, "the current", "6 A");
        public static readonly MappingFormat All = Keys.Of("draw");
    }

    internal static class Position
    {
        private static readonly KeyList Keys = new();

        public static readonly SingleKey<string> Id = Keys.Single(
            "id", ValueFormats.Id, "its id on the frame; leading zeros of a number do not count", "S2", required: true);

        public static readonly FactKey<string> Holds = Keys.Fact("holds", ValueFormats.Text, "what it is", "audio panel");
        public static readonly FactKey<UnitsNet.Length> FromFloor = Keys.Fact(
            "from_floor", ValueFormats.Length, "its lower edge above the floor", "1200 mm");

        public static readonly FactKey<UnitsNet.Length> Height = Keys.Fact("height", ValueFormats.Length, "its height", "178 mm");
        public static readonly ListKey<PortRange> Ports = Keys.List(
            "ports", ValueFormats.Ports, "the connectors on it; a position without listed ports can have any", "[J1..J24, TB1]");

        public static readonly ListKey<PortRange> Slots = Keys.List(
            "slots",
            ValueFormats.Slots,
            "the slots that units plug into, such as `R2-05/S2:7`; a position without listed slots can have any",
            "[1..16]");

        public static readonly FactKey<string> Note = Keys.Fact("note", ValueFormats.Prose, "a remark", null);
        public static readonly MappingFormat All = Keys.Of("position");
    }

    /// <summary>When and by whom it was recorded.</summary>
    internal static class Finding
    {
        private static readonly KeyList Keys = new();

        public static readonly FactKey<EdtfDate> On = Keys.Fact("on", ValueFormats.Date, "the day", "2026-05-12");
        public static readonly FactKey<string> By = Keys.Fact("by", ValueFormats.Person, "who recorded it", "it");
        public static readonly MappingFormat All = Keys.Of("finding");
    }
}

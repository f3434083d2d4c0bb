using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Format;

/// <summary><c>cables/</c></summary>
internal static class CableFormat
{
    private static readonly KeyList Keys = RecordFormat.Begin("C-0424", "Audio to the recorder");

    public static readonly FactKey<string> Kind = Keys.Fact(
        "kind", ValueFormats.IdOf("cable kind"), "the type of cable", "pair-12", required: true);

    public static readonly FactKey<string> Label = Keys.Fact(
        "label", ValueFormats.Label, "what is printed or tagged on it, exactly as written", "\"0205-02J01 0301-03J02\"");

    public static readonly MappingsKey Ends = Keys.Each(
        "ends", End.All, "where each end was found: usually two, more for a harness; an end that was not seen is not listed");

    public static readonly FactKey<UnitsNet.Length> Length = Keys.Fact("length", ValueFormats.Length, "of the whole cable", "18.3 m");
    public static readonly ListKey<string> LiesIn = Keys.List(
        "lies_in", ValueFormats.IdOf("tray"), "trays, in order from the first end to the last", "[T-1, T-4]");

    public static readonly ListKey<string> LiesOver = Keys.List(
        "lies_over", ValueFormats.IdOf("cable"), "cables under it: they can come out only after it", "[C-0301]");

    public static readonly FactKey<Fate> Fate = Keys.Fact(
        "fate",
        ValueFormats.Words<Fate>(),
        "what happens to it: `coil` (disconnected at one end, coiled and lashed to the frame at the other), `remove` (disconnected at both ends), `sever` (cut), `leave`",
        "coil");

    public static readonly FactKey<string> CoilTo = Keys.Fact(
        "coil_to", ValueFormats.IdOf("frame"), "the frame that it is lashed to", "R2-05");

    public static readonly FactKey<string> Reason = Keys.Fact(
        "reason", ValueFormats.Prose, "why it is cut or left; required if it is", null);

    public static readonly FactKey<string> Owner = Keys.Fact("owner", ValueFormats.Text, FrameFormat.OwnerMeaning, null);
    public static readonly MappingKey Permission = Keys.Mapping("permission", Consent.All, "who allowed it to be cut");
    public static readonly FactKey<string> Condition = RecordFormat.Condition(Keys);
    public static readonly MappingFormat All = Keys.Of("cable");

    internal static class End
    {
        private static readonly KeyList Keys = new();

        public static readonly FactKey<Address> At = Keys.Fact("at", ValueFormats.Address, "where it was found", "R2-05/S2/J1");
        public static readonly FactKey<string> Connector = Keys.Fact("connector", ValueFormats.Text, "the connector on it", "BNC");
        public static readonly FactKey<string> Label = Keys.Fact("label", ValueFormats.Label, "a tag at this end only", null);
        public static readonly FactKey<string> Note = Keys.Fact("note", ValueFormats.Prose, "a remark", null);
        public static readonly MappingFormat All = Keys.Of("cable end");
    }

    /// <summary>Leave to cut it.</summary>
    internal static class Consent
    {
        private static readonly KeyList Keys = new();

        public static readonly FactKey<string> By = Keys.Fact("by", ValueFormats.Text, "who allowed it", "the Trust", required: true);
        public static readonly FactKey<EdtfDate> On = Keys.Fact("on", ValueFormats.Date, "when", "2026-04-02");
        public static readonly FactKey<string> Document = Keys.Fact(
            "document", ValueFormats.Text, "the document that says so", "\"minutes, item 4\"");

        public static readonly MappingFormat All = Keys.Of("permission");
    }
}

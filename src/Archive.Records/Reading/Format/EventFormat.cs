using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Format;

/// <summary><c>events/</c></summary>
internal static class EventFormat
{
    private static readonly KeyList Keys = RecordFormat.Begin("E-0007", "First load");

    public static readonly FactKey<EdtfDate> On = Keys.Fact("on", ValueFormats.Date, "when it happened", "2026-09-03", required: true);
    public static readonly FactKey<EventType> What = Keys.Fact(
        "what",
        ValueFormats.Words<EventType>(),
        "what happened; `isolated` means by a licensed person, and proved dead; `fixed` a frame levelled and anchored; `earthed` a frame's path to the building's earth tested; `laid` a cable in its trays; `refitted` a unit back in its slot or a piece where it came off; `packed` into the box that `into` names; `unpacked` out of the box that it is in",
        "arrived",
        required: true);

    public static readonly ListKey<string> Of = Keys.List(
        "of", ValueFormats.Subject, "the frames, cables, trays, units, pieces or boxes that it happened to", "[R2-05]", required: true);

    public static readonly MappingKey To = Keys.Mapping("to", Destination.All, "where they went");
    public static readonly FactKey<string> Into = Keys.Fact(
        "into", ValueFormats.IdOf("box"), "the box, crate or pallet that they were packed into; only for `packed`", "BOX-12");

    public static readonly FactKey<UnitsNet.Duration> Took = Keys.Fact(
        "took", ValueFormats.Time, "how long the crew worked at it, by which the pace of the rest is measured", "40 min");

    public static readonly ListKey<string> By = Keys.List("by", ValueFormats.Person, "who did it", "[it, dm]", oneWillDo: true);
    public static readonly MappingFormat All = Keys.Of("event");

    /// <summary>Where they went.</summary>
    internal static class Destination
    {
        private static readonly KeyList Keys = new();

        public static readonly FactKey<string> Hall = Keys.Fact("hall", ValueFormats.IdOf("hall"), "the hall", "store");
        public static readonly FactKey<string> Place = Keys.Fact("place", ValueFormats.Text, "the place in it, in words", "bay 4");
        public static readonly MappingFormat All = Keys.Of("destination");
    }
}

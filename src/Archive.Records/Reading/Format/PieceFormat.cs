using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Format;

/// <summary><c>pieces/</c></summary>
internal static class PieceFormat
{
    private static readonly KeyList Keys = RecordFormat.Begin("P-0031", "Rear door");

    public static readonly FactKey<string> Of = Keys.Fact(
        "of", ValueFormats.IdOf("frame"), "the frame, tray, cable or unit that it came off", "R2-05");

    public static readonly FactKey<string> Place = Keys.Fact(
        "place", ValueFormats.Text, "where on it, in words", "rear, hinges on the left");

    public static readonly FactKey<int> Count = Keys.Fact("count", ValueFormats.Count, "how many there are", "12", usual: "one");
    public static readonly FactKey<FrameSize> Size = Keys.Fact(
        "size", ValueFormats.FrameSize, "width, depth and height of one", "560 x 20 x 2000 mm");

    public static readonly FactKey<UnitsNet.Mass> Weight = Keys.Fact(
        "weight", ValueFormats.Mass, "what all of it weighs together", "9 kg");

    public static readonly ListKey<Handling> Handling = Keys.List(
        "handling", ValueFormats.Words<Handling>(), "how it must be handled", "[fragile]");

    public static readonly ListKey<Hazard> Hazards = Keys.List(
        "hazards", ValueFormats.Words<Hazard>(), RecordFormat.Hazards, "[sharp_edges]");

    public static readonly FactKey<string> Condition = RecordFormat.Condition(Keys);
    public static readonly MappingFormat All = Keys.Of("piece");
}

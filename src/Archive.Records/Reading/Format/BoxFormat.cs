using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Format;

/// <summary><c>boxes/</c></summary>
internal static class BoxFormat
{
    private static readonly KeyList Keys = RecordFormat.Begin("BOX-12", "Amplifiers of row 2");

    public static readonly FactKey<FrameSize> Size = Keys.Fact(
        "size", ValueFormats.FrameSize, "width, depth and height outside", "600 x 400 x 320 mm");

    public static readonly FactKey<UnitsNet.Mass> Weight = Keys.Fact("weight", ValueFormats.Mass, "its weight, empty", "2.1 kg");
    public static readonly FactKey<UnitsNet.Mass> Limit = Keys.Fact(
        "limit", ValueFormats.Mass, "the most that it may weigh, packed", "25 kg");

    public static readonly FactKey<string> Condition = RecordFormat.Condition(Keys);
    public static readonly MappingFormat All = Keys.Of("box");
}

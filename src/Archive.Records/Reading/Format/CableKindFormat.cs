using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Format;

/// <summary><c>kinds/</c></summary>
internal static class CableKindFormat
{
    private static readonly KeyList Keys = RecordFormat.Begin("pair-12", "12 pairs, screened");

    public static readonly FactKey<CableFamily> Family = Keys.Fact(
        "family", ValueFormats.Words<CableFamily>(), "what sort of cable it is", "pairs");

    public static readonly FactKey<UnitsNet.Length> Diameter = Keys.Fact("diameter", ValueFormats.Length, "outer diameter", "14 mm");
    public static readonly FactKey<UnitsNet.LinearDensity> Mass = Keys.Fact(
        "mass", ValueFormats.LinearDensity, "mass per length", "240 g/m");

    public static readonly FactKey<double> Bend = Keys.Fact("bend", ValueFormats.Factor, "the minimum bend radius, in diameters", "8");
    public static readonly FactKey<int> Pairs = Keys.Fact("pairs", ValueFormats.CountFromOne, "how many pairs it has", "12");
    public static readonly FactKey<WireGauge> Gauge = Keys.Fact("gauge", ValueFormats.Gauge, "the size of one conductor", "24 AWG");
    public static readonly ListKey<Hazard> Hazards = Keys.List(
        "hazards", ValueFormats.Words<Hazard>(), RecordFormat.Hazards, "[lead_dust]");

    public static readonly MappingFormat All = Keys.Of(RecordKind.CableKind.Noun());
}

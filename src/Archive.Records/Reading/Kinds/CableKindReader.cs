using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>kinds/</c>.</summary>
internal static class CableKindReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields head) => new CableKind
    {
        Id = head.Id,
        IdSpan = head.IdSpan,
        Span = from.Span,
        Family = from.Fact<CableFamily>("family", EnumNames<CableFamily>.Read),
        Diameter = from.Fact<UnitsNet.Length>("diameter", QuantityValues.Length),
        Mass = from.Fact<UnitsNet.LinearDensity>("mass", QuantityValues.LinearDensity),
        Bend = from.Fact<double>("bend", ScalarValues.Factor),
        Pairs = from.Fact<int>("pairs", ScalarValues.CountFromOne),
        Gauge = from.Fact<WireGauge>("gauge", QuantityValues.Gauge),
        Hazards = from.List<Hazard>("hazards", EnumNames<Hazard>.Read),
    };
}

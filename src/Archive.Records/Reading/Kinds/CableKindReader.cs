namespace Archive.Records;

/// <summary>Reads <c>kinds/</c>.</summary>
internal static class CableKindReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, RecordHead head) => new CableKind
    {
        Id = head.Id,
        IdSpan = head.IdSpan,
        Span = from.Span,
        Family = from.Fact<CableFamily>("family", Words<CableFamily>.Read),
        Diameter = from.Fact<UnitsNet.Length>("diameter", Quantities.Length),
        Mass = from.Fact<UnitsNet.LinearDensity>("mass", Quantities.LinearDensity),
        Bend = from.Fact<double>("bend", Values.Factor),
        Pairs = from.Fact<int>("pairs", Values.CountFromOne),
        Gauge = from.Fact<WireGauge>("gauge", Quantities.Gauge),
    };
}

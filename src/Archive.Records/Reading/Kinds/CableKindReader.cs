using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>kinds/</c>.</summary>
internal static class CableKindReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields common) => new CableKind
    {
        Id = common.Id,
        IdSpan = common.IdSpan,
        Span = from.Span,
        Family = from.Read(CableKindFormat.Family),
        Diameter = from.Read(CableKindFormat.Diameter),
        Mass = from.Read(CableKindFormat.Mass),
        Bend = from.Read(CableKindFormat.Bend),
        Pairs = from.Read(CableKindFormat.Pairs),
        Gauge = from.Read(CableKindFormat.Gauge),
        Hazards = from.Read(CableKindFormat.Hazards),
    };
}

using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>units/</c>, from YAML as from CSV.</summary>
internal static class UnitReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields common) => new Unit
    {
        Id = common.Id,
        IdSpan = common.IdSpan,
        Span = from.Span,
        Marking = from.Read(UnitFormat.Marking),
        Serial = from.Read(UnitFormat.Serial),
        Revision = from.Read(UnitFormat.Revision),
        At = from.Read(UnitFormat.At),
        Size = from.Read(UnitFormat.Size),
        Weight = from.Read(UnitFormat.Weight),
        Handling = from.Read(UnitFormat.Handling),
        Hazards = from.Read(UnitFormat.Hazards),
        Firmware = from.Read(UnitFormat.Firmware),
        Straps = Straps(from),
        Spare = from.Read(UnitFormat.Spare),
        Condition = from.Read(UnitFormat.Condition),
    };

    private static ImmutableArray<Strap> Straps(MappingReader from)
    {
        if (from.Table(UnitFormat.Straps.Name) is not { } table) return [];
        var straps = ImmutableArray.CreateBuilder<Strap>();
        foreach (var key in table.Keys)
        {
            if (table.Single(key.Text, ValueFormats.Label) is { } setting) straps.Add(new Strap(key.Text, setting));
        }

        return straps.DrainToImmutable();
    }
}

using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>trays/</c>.</summary>
internal static class TrayReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields common)
    {
        var path = PlanValues.Path(from, TrayFormat.Path);
        var tray = new Tray
        {
            Id = common.Id,
            IdSpan = common.IdSpan,
            Span = from.Span,
            Hall = from.Read(TrayFormat.Hall),
            Path = path?.Points ?? [],
            PathSpan = path?.Span,
            Height = from.Read(TrayFormat.Height),
            Size = from.Read(TrayFormat.Size),
            Hazards = from.Read(TrayFormat.Hazards),
            Condition = from.Read(TrayFormat.Condition),
        };
        return tray;
    }
}

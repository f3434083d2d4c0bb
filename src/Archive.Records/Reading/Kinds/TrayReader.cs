using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>trays/</c>.</summary>
internal static class TrayReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields head)
    {
        var path = PlanValues.Path(from, "path");
        var tray = new Tray
        {
            Id = head.Id,
            IdSpan = head.IdSpan,
            Span = from.Span,
            Hall = from.Fact<string>("hall", ScalarValues.Text),
            Path = path?.Points ?? [],
            PathSpan = path?.Span,
            Height = from.Fact<UnitsNet.Length>("height", QuantityValues.Length),
            Size = from.Fact<TraySize>("size", QuantityValues.TraySize),
            Hazards = from.List<Hazard>("hazards", EnumNames<Hazard>.Read),
            Condition = from.Fact<string>("condition", ScalarValues.Text),
        };
        head.Require(from, "hall", "path");
        return tray;
    }
}

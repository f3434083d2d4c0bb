namespace Archive.Records;

/// <summary>Reads <c>trays/</c>.</summary>
internal static class TrayReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, RecordHead head)
    {
        var path = Plan.Path(from, "path");
        var tray = new Tray
        {
            Id = head.Id,
            IdSpan = head.IdSpan,
            Span = from.Span,
            Hall = from.Fact<string>("hall", Values.Text),
            Path = path?.Points ?? [],
            PathSpan = path?.Span,
            Height = from.Fact<UnitsNet.Length>("height", Quantities.Length),
            Size = from.Fact<TraySize>("size", Quantities.TraySize),
            Condition = from.Fact<string>("condition", Values.Text),
        };
        head.Require(from, "hall", "path");
        return tray;
    }
}

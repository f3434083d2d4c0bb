namespace Archive.Records;

/// <summary>Reads <c>frames/</c>.</summary>
internal static class FrameReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, RecordHead head)
    {
        head.Require(from, "name");
        return new Frame
        {
            Id = head.Id,
            IdSpan = head.IdSpan,
            Span = from.Span,
            Module = from.Fact<string>("module", Values.Text),
            Size = from.Fact<FrameSize>("size", Quantities.FrameSize),
            Weight = from.Fact<UnitsNet.Mass>("weight", Quantities.Mass),
            Draws = [.. from.Each("draws", "draw", oneWillDo: true).Select(Draw)],
            Doors = from.Fact<int>("doors", Values.Count),
            Needs = NeedReader.Read(from, "needs"),
            Positions = [.. from.Each("positions", "position").Select(Position).OfType<Position>()],
            Condition = from.Fact<string>("condition", Values.Text),
            Found = Found(from),
        };
    }

    private static Draw Draw(MappingReader from) => new(
        from.Fact<UnitsNet.ElectricPotential>("volts", Quantities.Potential),
        from.Fact<UnitsNet.ElectricCurrent>("amps", Quantities.Current));

    private static Position? Position(MappingReader from)
    {
        var id = from.Bare<string>("id", Values.Id);
        from.Require("id");
        var position = new Position
        {
            Id = id ?? default,
            Holds = from.Fact<string>("holds", Values.Text),
            FromFloor = from.Fact<UnitsNet.Length>("from_floor", Quantities.Length),
            Height = from.Fact<UnitsNet.Length>("height", Quantities.Length),
            Ports = [.. from.List<PortRange>("ports", Values.Ports).Select(ports => ports.Value)],
            Note = from.Fact<string>("note", Values.Text),
        };
        return id is null ? null : position;
    }

    private static Finding? Found(MappingReader from)
    {
        if (from.Mapping("found", "finding") is not { } found) return null;
        var finding = new Finding(found.Fact<EdtfDate>("on", Values.Date), found.Fact<string>("by", Values.Text));
        found.End();
        return finding;
    }
}

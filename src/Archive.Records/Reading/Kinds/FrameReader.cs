using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>frames/</c>.</summary>
internal static class FrameReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields head)
    {
        head.Require(from, "name");
        return new Frame
        {
            Id = head.Id,
            IdSpan = head.IdSpan,
            Span = from.Span,
            Module = from.Fact<string>("module", ScalarValues.Text),
            Size = from.Fact<FrameSize>("size", QuantityValues.FrameSize),
            Weight = from.Fact<UnitsNet.Mass>("weight", QuantityValues.Mass),
            Draws = [.. from.Each("draws", "draw", oneWillDo: true).Select(Draw)],
            Doors = from.Fact<int>("doors", ScalarValues.Count),
            MayLieDown = from.Fact<bool>("may_lie_down", ScalarValues.Truth),
            Needs = NeedReader.Read(from, "needs"),
            Positions = [.. from.Each("positions", "position").Select(Position).OfType<Position>()],
            Condition = from.Fact<string>("condition", ScalarValues.Text),
            Found = Found(from),
            Hazards = from.List<Hazard>("hazards", EnumNames<Hazard>.Read),
            Owner = from.Fact<string>("owner", ScalarValues.Text),
        };
    }

    private static PowerDraw Draw(MappingReader from) => new(
        from.Fact<UnitsNet.ElectricPotential>("volts", QuantityValues.Potential),
        from.Fact<UnitsNet.ElectricCurrent>("amps", QuantityValues.Current));

    private static Position? Position(MappingReader from)
    {
        var id = from.Bare<string>("id", ScalarValues.Id);
        from.Require("id");
        var position = new Position
        {
            Id = id ?? default,
            Holds = from.Fact<string>("holds", ScalarValues.Text),
            FromFloor = from.Fact<UnitsNet.Length>("from_floor", QuantityValues.Length),
            Height = from.Fact<UnitsNet.Length>("height", QuantityValues.Length),
            Ports = [.. from.List<PortRange>("ports", ScalarValues.Ports).Select(ports => ports.Value)],
            Note = from.Fact<string>("note", ScalarValues.Text),
        };
        return id is null ? null : position;
    }

    private static Observation? Found(MappingReader from)
    {
        if (from.Mapping("found", "finding") is not { } found) return null;
        var finding = new Observation(found.Fact<EdtfDate>("on", ScalarValues.Date), found.Fact<string>("by", ScalarValues.Text));
        found.End();
        return finding;
    }
}

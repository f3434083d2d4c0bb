using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>frames/</c>.</summary>
internal static class FrameReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields common)
    {
        return new Frame
        {
            Id = common.Id,
            IdSpan = common.IdSpan,
            Span = from.Span,
            Module = from.Read(FrameFormat.Module),
            Size = from.Read(FrameFormat.Size),
            Weight = from.Read(FrameFormat.Weight),
            Weighed = from.Read(FrameFormat.Weighed),
            Draws = [.. from.Each(FrameFormat.Draws).Select(Draw)],
            Doors = from.Read(FrameFormat.Doors),
            MayLieDown = from.Read(FrameFormat.MayLieDown),
            Needs = NeedReader.Read(from, FrameFormat.Needs),
            Positions = [.. from.Each(FrameFormat.Positions).Select(Position).OfType<Position>()],
            Condition = from.Read(FrameFormat.Condition),
            Found = Found(from),
            Hazards = from.Read(FrameFormat.Hazards),
            Owner = from.Read(FrameFormat.Owner),
        };
    }

    private static PowerDraw Draw(MappingReader from) => new(
        from.Read(FrameFormat.Draw.Volts),
        from.Read(FrameFormat.Draw.Amps));

    private static Position? Position(MappingReader from)
    {
        var id = from.Read(FrameFormat.Position.Id);
        var position = new Position
        {
            Id = id ?? default,
            Holds = from.Read(FrameFormat.Position.Holds),
            FromFloor = from.Read(FrameFormat.Position.FromFloor),
            Height = from.Read(FrameFormat.Position.Height),
            Ports = [.. from.Read(FrameFormat.Position.Ports).Select(ports => ports.Value)],
            Slots = [.. from.Read(FrameFormat.Position.Slots).Select(slots => slots.Value)],
            Note = from.Read(FrameFormat.Position.Note),
        };
        return id is null ? null : position;
    }

    private static Observation? Found(MappingReader from)
    {
        if (from.Mapping(FrameFormat.Found) is not { } found) return null;
        var finding = new Observation(found.Read(FrameFormat.Finding.On), found.Read(FrameFormat.Finding.By));
        found.End();
        return finding;
    }
}

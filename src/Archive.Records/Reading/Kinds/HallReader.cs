using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>halls/</c>.</summary>
internal static class HallReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields head) => new Hall
    {
        Id = head.Id,
        IdSpan = head.IdSpan,
        Span = from.Span,
        AsFound = from.Fact<bool>("as_found", ScalarValues.Truth),
        Outline = PlanValues.Outline(from, "outline"),
        Ceiling = from.Fact<UnitsNet.Length>("ceiling", QuantityValues.Length),
        FloorRating = from.Fact<UnitsNet.Pressure>("floor_rating", QuantityValues.Pressure),
        Obstacles = [.. from.Each("obstacles", "obstacle").Select(Obstacle).OfType<Obstacle>()],
        Openings = [.. from.Each("openings", "opening").Select(Opening).OfType<Opening>()],
        Rows = [.. from.Each("rows", "row").Select(Row).OfType<FrameRow>()],
        Take = PlanValues.Outline(from, "take"),
        Hazards = from.List<Hazard>("hazards", EnumNames<Hazard>.Read),
    };

    private static Obstacle? Obstacle(MappingReader from)
    {
        var name = from.Fact<string>("name", ScalarValues.Text);
        var outline = PlanValues.Outline(from, "outline");
        from.Require("outline");
        return outline is null ? null : new Obstacle(name, outline);
    }

    private static Opening? Opening(MappingReader from)
    {
        var name = from.Fact<string>("name", ScalarValues.Text);
        var one = PlanValues.Point(from, "from");
        var other = PlanValues.Point(from, "to");
        var height = from.Fact<UnitsNet.Length>("height", QuantityValues.Length);
        from.Require("from", "to");
        if (one is { } at && at == other) from.Diagnostics.Add(DiagnosticDescriptors.BadOutline.At(
            from.Entry("to")!.Value.Value.Span,
            "this opening ends where it begins",
            "give its two corners as `from: [x, y]` and `to: [x, y]`"));
        return one is { } start && other is { } end ? new Opening(name, start, end, height, from.Span) : null;
    }

    private static FrameRow? Row(MappingReader from)
    {
        var id = from.Bare<string>("id", ScalarValues.Id);
        var at = PlanValues.Point(from, "at");
        var runs = from.Fact<Compass>("runs", EnumNames<Compass>.Read);
        var faces = from.Fact<Compass>("faces", EnumNames<Compass>.Read);
        var frames = from.Items("frames");
        from.Require("id", "at", "runs", "faces");
        var places = frames.Select(place => Place(from, place)).OfType<RowPlace>();
        return id is { } name && at is { } corner && runs is { } along && faces is { } front && IsSideways(from, along, front)
            ? new FrameRow(name, corner, along, front, [.. places], from.Span)
            : null;
    }

    // Frames stand side by side: a row cannot run the way that its fronts look.
    private static bool IsSideways(MappingReader from, Stated<Compass> runs, Stated<Compass> faces)
    {
        if ((int)runs.Value % 2 != (int)faces.Value % 2) return true;
        var word = faces.Span.Text;
        from.Diagnostics.Add(DiagnosticDescriptors.RowRunsAsItFaces.At(
            faces.Span,
            $"a row that runs {runs.Span.Text} cannot face {word}",
            (int)runs.Value % 2 == 0 ? "make it face east or west" : "make it face north or south",
            new Related(runs.Span, "its direction")));
        return false;
    }

    private static RowPlace? Place(MappingReader from, SyntaxNode node)
    {
        if (node is not MappingNode)
        {
            return from.Single<string>(node, "frames", ScalarValues.Text) is { } frame ? new RowPlace(frame, null) : null;
        }

        if (from.AsMapping(node, "frames", "place in a row") is not { } mapping) return null;
        var gap = mapping.Fact<UnitsNet.Length>("gap", QuantityValues.Length);
        mapping.Require("gap");
        mapping.End();
        return gap is null ? null : new RowPlace(null, gap);
    }
}
